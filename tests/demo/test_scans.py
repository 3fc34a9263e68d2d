"""Files as scanners and people leave them, read back with Pillow."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image, ImageOps

from engine.demo import covers, scans
from tests.demo.conftest import HALF

COVERS = {cover.file: cover for cover in HALF}


def files(finish: str) -> list[str]:
    return [name for name, cover in COVERS.items() if cover.finish == finish]


def apart(one: Image.Image, two: Image.Image) -> float:
    """Return the largest mean difference of a channel, in levels, at thumbnail size."""
    small = [picture.convert("RGB").resize((24, 24)) for picture in (one, two)]
    a, b = (picture.tobytes() for picture in small)
    return sum(abs(x - y) for x, y in zip(a, b, strict=True)) / len(a)


def test_every_file_is_what_its_suffix_says_and_opens_whole(drawn: dict[str, Path]) -> None:
    formats = {".jpg": "JPEG", ".png": "PNG", ".gif": "GIF", ".webp": "WEBP"}
    assert set(drawn) == set(COVERS)
    for name, path in drawn.items():
        with Image.open(path) as picture:
            picture.load()
            assert picture.format == formats[Path(name).suffix.lower()], name


@pytest.mark.parametrize("finish", ["turned 6", "turned 8"])
def test_a_turned_scan_stands_upright_once_its_exif_is_heeded(
    finish: str, drawn: dict[str, Path]
) -> None:
    """Orientation values 6 and 8 as Exif 2.32 has them; turned by Pillow's own reading."""
    (name,) = files(finish)
    with Image.open(drawn[name]) as picture:
        assert picture.getexif()[0x0112] == int(finish[-1])
        assert apart(ImageOps.exif_transpose(picture), covers.draw(COVERS[name])) < 6


def test_colour_models_are_as_odd_as_they_should_be(drawn: dict[str, Path]) -> None:
    modes = {}
    for name, path in drawn.items():
        with Image.open(path) as picture:
            modes[name] = picture.mode
    assert {modes[name] for name in files("cmyk")} == {"CMYK"}
    assert {modes[name] for name in files("grey")} == {"L"}
    assert {modes[name] for name in files("alpha")} == {"RGBA"}
    assert {modes[name] for name in files("screen")} == {"P"}


def test_corners_of_the_alpha_scan_are_clear(drawn: dict[str, Path]) -> None:
    (name,) = files("alpha")
    with Image.open(drawn[name]) as picture:
        alpha = picture.getchannel("A")
        assert alpha.getpixel((0, 0)) == 0
        assert alpha.getpixel((alpha.width // 2, 0)) == 255


def test_a_border_is_white_all_around(drawn: dict[str, Path]) -> None:
    for name in files("white border"):
        with Image.open(drawn[name]) as picture:
            edge = [
                picture.getpixel(at)
                for at in ((2, 2), (picture.width - 3, 2), (2, picture.height - 3))
            ]
            assert all(min(pixel) > 235 for pixel in edge), name
            assert picture.width > COVERS[name].width


def test_the_same_cover_is_written_as_the_same_file_twice(tmp_path: Path) -> None:
    for name in ("Lobster Office.gif", "Clockmakers Umbrella, The [scan].jpg"):
        cover = COVERS[name]
        files = [tmp_path / turn / name for turn in ("one", "two")]
        for file in files:
            file.parent.mkdir(exist_ok=True)
            scans.write(file, covers.draw(cover), cover.finish)
        assert files[0].read_bytes() == files[1].read_bytes()
