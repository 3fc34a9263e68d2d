"""A folder of pictures looked at by worker processes."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from msgspec.structs import replace
from PIL import Image

from engine.artwork import inspect, inspect_all
from engine.artwork.inspecting import look
from engine.model import Picture
from engine.model.errors import PictureError
from engine.model.waiting import Cancelled
from tests.artwork.photos import mean_difference, photo
from tests.corpus import BAD_PICTURES, build


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    pictures = build(tmp_path_factory.mktemp("corpus"), games=6).pictures
    for fault, write in BAD_PICTURES.items():
        write(pictures / f"{fault}.png")
    return {f"box/{path.name}": path for path in sorted(pictures.iterdir())}


def test_workers_say_what_is_said_here_and_in_the_order_asked(folder: dict[str, Path]) -> None:
    found = dict(inspect_all(folder))
    assert list(found) == list(folder)
    for source, answer in found.items():
        path = folder[source]
        if isinstance(answer, Picture):
            here = look(os.fsencode(path))
            assert answer == replace(here, name=path.name, source=source)
        else:
            with pytest.raises(PictureError) as caught:
                look(os.fsencode(path))
            assert str(answer) == str(caught.value).replace(f"{path.name}: ", f"{source}: ", 1)
    broken = [source for source, answer in found.items() if isinstance(answer, PictureError)]
    assert broken == sorted(f"box/{fault}.png" for fault in BAD_PICTURES)


def test_it_is_told_how_far_it_is_and_stops_when_nobody_waits(folder: dict[str, Path]) -> None:
    told: list[tuple[int, int]] = []

    def progress(done: int, of: int) -> None:
        told.append((done, of))

    list(inspect_all(folder, progress))
    assert told == [(number, len(folder)) for number in range(1, len(folder) + 1)]
    told.clear()
    with pytest.raises(Cancelled):
        list(inspect_all(folder, progress, lambda: len(told) >= 3))
    assert len(told) == 3


def test_a_file_whose_name_is_no_text_is_looked_at(tmp_path: Path) -> None:
    path = tmp_path / "tide\udce9.png"
    try:
        Image.new("RGB", (40, 40), "#2c7a3c").save(path)
    except (OSError, UnicodeError):
        pytest.skip("this file system has no such names")
    ((_, picture),) = inspect_all({path.name: path})
    assert isinstance(picture, Picture)
    assert picture.name == path.name


@pytest.mark.parametrize("size", [(2562, 1920), (1000, 6000)])
def test_a_large_jpeg_shows_what_it_would_if_all_of_it_were_decoded(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    """It is decoded smaller; as PNG, of the very pixels, it is not."""
    large = photo("coffee").resize(size, Image.Resampling.BICUBIC)
    jpeg, png = tmp_path / "a.jpg", tmp_path / "a.png"
    large.save(jpeg, quality=95)
    Image.open(jpeg).save(png, compress_level=0)
    one, other = inspect(jpeg, "a"), inspect(png, "a")
    assert (one.width, one.height) == size
    assert (one.dot, one.turn, one.trim, one.split) == (0, other.turn, other.trim, other.split)
    assert near(one.side, other.side)
    for colour in (*one.palette, *other.palette):  # two that strike alike may change places
        assert any(near(colour, same) for same in one.palette)
        assert any(near(colour, same) for same in other.palette)


def near(one: str, other: str) -> bool:
    """Whether two colours differ by no more than two levels, as scaling in two ways may."""
    return mean_difference(Image.new("RGB", (1, 1), one), Image.new("RGB", (1, 1), other)) <= 2


@pytest.mark.parametrize("share", [0.5, 0.9])
def test_a_large_jpeg_that_is_cut_short_is_refused_though_less_of_it_is_needed(
    tmp_path: Path, share: float
) -> None:
    path = tmp_path / "cut.jpg"
    photo("coffee").resize((4000, 3000)).save(path, quality=90)
    data = path.read_bytes()
    path.write_bytes(data[: int(len(data) * share)])
    with pytest.raises(PictureError, match="part of the picture is missing"):
        inspect(path, "cut.jpg")
