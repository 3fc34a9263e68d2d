"""Input that cannot be used, each as cheap to make as it is bad."""

from __future__ import annotations

import os
import struct
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

from tests.corpus.encodings import chunk
from tests.corpus.photographs import photograph

BOMB_SIDE = 30_000
"""Pixels to the side of a picture whose file is a few kilobytes."""


def good_list(folder: Path) -> Path:
    path = folder / "good.csv"
    path.write_text("title\nOyster Clock\nPlum Line Express\n", encoding="utf-8")
    return path


def missing_list(folder: Path) -> Path:
    return folder / "nowhere.csv"


def folder_as_list(folder: Path) -> Path:
    path = folder / "list.csv"
    path.mkdir()
    return path


def empty_list(folder: Path) -> Path:
    path = folder / "empty.csv"
    path.write_bytes(b"")
    return path


def list_without_title(folder: Path) -> Path:
    path = folder / "untitled.csv"
    path.write_text("shelf,price,year\nA1,3,2019\nA2,4,2020\n", encoding="utf-8")
    return path


def binary_junk(folder: Path) -> Path:
    path = folder / "junk.csv"
    path.write_bytes(bytes((i * 167 + i // 7) % 256 for i in range(6000)))
    return path


def truncated_jpeg(path: Path) -> None:
    whole = path.with_suffix(".whole")
    photograph(0).save(whole, "JPEG", quality=90)
    data = whole.read_bytes()
    whole.unlink()
    path.write_bytes(data[: len(data) // 2])


def no_picture(path: Path) -> None:
    path.write_text("This is a shopping list, not a picture.\n" * 40, encoding="utf-8")


def bomb(path: Path) -> None:
    """A whole, valid PNG of one bit a pixel: 112 MB of zeros, deflated."""
    header = struct.pack(">IIBBBBB", BOMB_SIDE, BOMB_SIDE, 1, 0, 0, 0, 0)
    squeeze = zlib.compressobj(1)
    rows = bytes(100 * (1 + BOMB_SIDE // 8))
    data = b"".join(squeeze.compress(rows) for _ in range(BOMB_SIDE // 100)) + squeeze.flush()
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", data) + chunk(b"IEND", b"")
    )


def unwritable(folder: Path) -> Path:
    """Return a place where no collection can be made, not even by root."""
    if os.geteuid() == 0:
        return Path("/proc/spinery")
    locked = folder / "locked"
    locked.mkdir(mode=0o500)
    return locked / "shelf"


BAD_LISTS: Mapping[str, Callable[[Path], Path]] = {
    "missing": missing_list,
    "a folder": folder_as_list,
    "empty": empty_list,
    "no title column": list_without_title,
    "binary junk": binary_junk,
}
"""By what is wrong: makes the list in a folder and returns its path."""

BAD_PICTURES: Mapping[str, Callable[[Path], None]] = {
    "truncated": truncated_jpeg,
    "no picture": no_picture,
    "bomb": bomb,
}
"""By what is wrong: writes the picture at a path."""
