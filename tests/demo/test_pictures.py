"""The covers that ship: as scanners and people leave files, and with titles that can be read."""

from __future__ import annotations

from functools import reduce
from pathlib import Path

import pytest
from coloraide import Color
from PIL import Image, ImageChops, ImageOps, ImageStat

from engine.demo import PICTURES
from harbour import covers
from harbour.canvas import Canvas, chance
from harbour.palettes import PALETTES
from harbour.scenes import SCENES
from harbour.shelf import Cover
from harbour.shelf import covers as listed

COVERS = {cover.file: cover for cover in listed()}
FAINT = {"dominoes_on_the_breakwater.jpg", "Periscope Picnic.png"}
"""Covers whose titles stand on a middle tone; such there are too."""


def files(finish: str) -> list[str]:
    return [name for name, cover in COVERS.items() if cover.finish == finish]


def apart(one: Image.Image, two: Image.Image) -> float:
    """Return the mean difference of a channel, in levels, at thumbnail size."""
    small = [picture.convert("RGB").resize((24, 24)) for picture in (one, two)]
    a, b = (picture.tobytes() for picture in small)
    return sum(abs(x - y) for x, y in zip(a, b, strict=True)) / len(a)


def test_every_file_is_what_its_suffix_says_and_opens_whole() -> None:
    formats = {".jpg": "JPEG", ".png": "PNG", ".gif": "GIF", ".webp": "WEBP"}
    assert {path.name for path in PICTURES.iterdir()} == set(COVERS)
    for name in COVERS:
        with Image.open(PICTURES / name) as picture:
            picture.load()
            assert picture.format == formats[Path(name).suffix.lower()], name


@pytest.mark.parametrize("finish", ["turned 6", "turned 8"])
def test_a_turned_scan_stands_upright_once_its_exif_is_heeded(
    finish: str,
) -> None:
    """Orientation values 6 and 8 as Exif 2.32 has them; turned by Pillow's own reading."""
    (name,) = files(finish)
    with Image.open(PICTURES / name) as picture:
        assert picture.getexif()[0x0112] == int(finish[-1])
        assert apart(ImageOps.exif_transpose(picture), covers.draw(COVERS[name])) < 6


def test_colour_models_are_as_odd_as_they_should_be() -> None:
    modes = {}
    for name in COVERS:
        with Image.open(PICTURES / name) as picture:
            modes[name] = picture.mode
    assert {modes[name] for name in files("cmyk")} == {"CMYK"}
    assert {modes[name] for name in files("grey")} == {"L"}
    assert {modes[name] for name in files("alpha")} == {"RGBA"}
    assert {modes[name] for name in files("screen")} == {"P"}


def test_corners_of_the_alpha_scan_are_clear() -> None:
    (name,) = files("alpha")
    with Image.open(PICTURES / name) as picture:
        alpha = picture.getchannel("A")
        assert alpha.getpixel((0, 0)) == 0
        assert alpha.getpixel((alpha.width // 2, 0)) == 255


def test_a_border_is_white_all_around() -> None:
    for name in files("white border"):
        with Image.open(PICTURES / name) as picture:
            edge = [
                picture.getpixel(at)
                for at in ((2, 2), (picture.width - 3, 2), (2, picture.height - 3))
            ]
            assert all(min(pixel) > 235 for pixel in edge), name
            assert picture.width > COVERS[name].width


def test_every_file_has_the_size_it_was_drawn_in() -> None:
    for name, cover in COVERS.items():
        if cover.finish in {"white border", "crooked"}:
            continue  # which come larger
        with Image.open(PICTURES / name) as picture:
            size = picture.size[::-1] if cover.finish.startswith("turned") else picture.size
        assert size == (cover.width, cover.height), name


def test_all_covers_together_are_small_enough_to_ship() -> None:
    assert sum(path.stat().st_size for path in PICTURES.iterdir()) < 5e6


def test_titles_can_be_read() -> None:
    """In the room that its scene leaves, a cover shows lettering that stands out.

    3:1 is what WCAG 2.2 asks of large text (success criterion 1.4.3), measured by coloraide.
    """
    for name, cover in COVERS.items():
        if not (cover.title and cover.style) or cover.finish in AROUND:
            continue
        share, contrast = lettering(cover)
        assert 0.04 < share < 0.4, name
        assert contrast >= (2.8 if name in FAINT else 3), name


AROUND = {"crooked", "flat", "side bar", "white border"}
"""Finishes with which a title stands elsewhere than its scene says."""
NEAR = 48
"""Levels by which ink may differ from itself: JPEG's and a screen's few colours."""


def lettering(cover: Cover) -> tuple[float, float]:
    """Return the part of the title's room that is inked, and the ink's contrast with the rest."""
    little = Canvas(cover.width // 8, cover.height // 8, oversample=1)
    room = SCENES[cover.scene](little, chance(cover.title), PALETTES[cover.palette])
    with Image.open(PICTURES / cover.file) as file:
        picture = ImageOps.exif_transpose(file).convert("RGB")
    unit = min(picture.size) / 100
    x, y, width, height = (side * unit for side in room.box)
    title = picture.crop((round(x), round(y), round(x + width), round(y + height)))
    distance = ImageChops.difference(title, Image.new("RGB", title.size, room.ink))
    farthest = reduce(ImageChops.lighter, distance.split())
    inked = farthest.point([255 * (level < NEAR) for level in range(256)])
    ink, ground = (
        Color("srgb", [level / 255 for level in ImageStat.Stat(title, mask).median])
        for mask in (inked, ImageChops.invert(inked))
    )
    share = ImageStat.Stat(inked).mean[0] / 255
    return share, ink.contrast(ground, method="wcag21") if share else 1.0
