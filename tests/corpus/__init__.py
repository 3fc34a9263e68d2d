"""Real input to test with: a list of games with messy names and a folder of photographs."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import NamedTuple

from PIL import Image

from tests.corpus.bad import BAD_LISTS, BAD_PICTURES, good_list, unwritable
from tests.corpus.encodings import ENCODINGS
from tests.corpus.photographs import photograph

THUMB = 256
"""Pixels of the longer side of a shot's expected picture."""

SOFT_CASES = 4
"""Every so many-th game is listed with a soft cassette case, the rest with no case."""


class Shot(NamedTuple):
    """A picture of the corpus and what must come of it."""

    title: str
    file: str
    encoding: str
    size: tuple[int, int]
    """In pixels, upright."""
    expected: Image.Image
    """The upright sRGB picture, at most ``THUMB`` pixels long."""


class Corpus(NamedTuple):
    """A list, a folder of pictures, and what is known of them."""

    list_file: Path
    pictures: Path
    shots: tuple[Shot, ...]


def names() -> tuple[tuple[str, str], ...]:
    """Return sixty titles and how the file of each is called, without suffix."""
    text = Path(__file__).with_name("names.csv").read_text(encoding="utf-8")
    return tuple((row["title"], row["stem"]) for row in csv.DictReader(io.StringIO(text)))


def build(folder: Path, games: int = 60) -> Corpus:
    """Write the list and the pictures into ``folder``."""
    pictures = folder / "pictures"
    pictures.mkdir(parents=True)
    listed = names()[:games]
    shots = tuple(
        _shoot(number, title, stem, pictures) for number, (title, stem) in enumerate(listed)
    )
    return Corpus(_write_list(folder, [title for title, _ in listed]), pictures, shots)


def _shoot(number: int, title: str, stem: str, folder: Path) -> Shot:
    encoding = list(ENCODINGS)[number % len(ENCODINGS)]
    suffix, write = ENCODINGS[encoding]
    picture = photograph(number)
    write(picture, folder / f"{stem}{suffix}")
    expected = picture.convert("L").convert("RGB") if encoding == "grey16" else picture.copy()
    expected.thumbnail((THUMB, THUMB))
    return Shot(title, f"{stem}{suffix}", encoding, picture.size, expected)


def _write_list(folder: Path, titles: list[str]) -> Path:
    """Write a list as a spreadsheet program in much of Europe does: BOM, semicolons, CRLF."""
    text = io.StringIO()
    table = csv.writer(text, delimiter=";", lineterminator="\r\n")
    table.writerow(["Shelf", "GAME TITLE", "Maker", "Year", "Case kind", "Notes"])
    for number, title in enumerate(titles):
        case = "soft-cassette" if number % SOFT_CASES == 3 else ""
        note = "two\nlines" if number == 5 else ""
        table.writerow(
            [f"A{number}", title, "Corkboard & Daughters", 2001 + number % 9, case, note]
        )
    path = folder / "shelf list.csv"
    path.write_bytes(text.getvalue().encode("utf-8-sig"))
    return path


__all__ = [
    "BAD_LISTS",
    "BAD_PICTURES",
    "ENCODINGS",
    "Corpus",
    "Shot",
    "build",
    "good_list",
    "names",
    "unwritable",
]
