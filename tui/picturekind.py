"""What the terminal shows pictures with, by what it answered when it was asked.

The library for pictures asks one thing after the other when it is imported, and waits each time
for terminals that do not answer; and it takes long to import. ``tui.terminal`` asks everything at
once, and the library is imported when there is a picture.
"""

from __future__ import annotations

import re
import sys
from contextlib import suppress
from functools import cache
from typing import TYPE_CHECKING, NoReturn

from textual_image import _terminal as library

from tui.terminal import ATTRIBUTES, answered, is_terminal

if TYPE_CHECKING:
    from textual_image.widget._base import Image

_CELL = re.compile(rb"\x1b\[6;([1-9][0-9]*);([1-9][0-9]*)t")
_GRAPHICS = re.compile(rb"\x1b_G[^\x1b]*;OK\x1b\\")
_SIXEL = b"4"
_OLD_KITTY = re.compile(rb"\x1bP>\|kitty\(0\.(?:1?\d|2[0-7])\.")
"""It has the protocol, but not the characters that stand for pictures: those came with 0.28."""
_LARGEST = re.compile(rb"\x1b\[\?2;0;([1-9][0-9]*);([1-9][0-9]*)S")
_REGISTERS = re.compile(rb"\x1b\[\?1;0;([0-9]+)S")

IS_TERMINAL = is_terminal(sys.__stdout__)
"""Whether pictures go to a terminal."""


def _asked_before(*_: object, **__: object) -> NoReturn:
    raise library.TerminalError("the terminal was asked before")


def _note_cell(said: bytes) -> None:
    """Give the library the size of a cell, as the system or else the terminal tells it."""
    try:
        told = all(library.get_tiocgwinsz()) if IS_TERMINAL else True
    except Exception:  # noqa: BLE001  no more than untold
        told = False
    if told:
        return
    found = _CELL.search(said)
    height, width = map(int, found.groups()) if found else (20, 10)
    library.get_cell_size._result = library.CellSize(width, height)  # type: ignore[attr-defined]  # noqa: SLF001


def measure_cell(columns: int, rows: int, dots: tuple[int, int] | None = None) -> bool:
    """Take the size of a cell anew, as after another size of letters; return whether it differs.

    The window's width and height are in cells; in ``dots``, where the terminal told them, else
    the system is asked.
    """
    if not IS_TERMINAL or not columns or not rows:
        return False
    with suppress(OSError):
        width, height = dots or library.get_tiocgwinsz()[2:]
        cell = library.CellSize(width // columns, height // rows)
        if all(cell) and cell != library.get_cell_size():
            library.get_cell_size._result = cell  # type: ignore[attr-defined]  # noqa: SLF001
            return True
    return False


_SAID = answered()
_note_cell(_SAID)
library.capture_terminal_response = _asked_before  # type: ignore[assignment]


_TOLD = ATTRIBUTES.search(_SAID)
_HAS_SIXEL = _TOLD is not None and _SIXEL in _TOLD[1].split(b";")

SHARP = _HAS_SIXEL or (_GRAPHICS.search(_SAID) is not None and not _OLD_KITTY.search(_SAID))
"""Whether the terminal shows pictures dot by dot, not in half blocks."""

BY_COLOUR = not _HAS_SIXEL
"""Whether a picture is made of coloured text: half blocks, or kitty's signs that stand for it."""


@cache
def picture_kind() -> type[Image]:
    """Return the widget for the finest pictures the terminal shows. The first time takes long."""
    from textual_image import widget

    from tui.sixels import MOST_COLOURS, Sixels

    if _HAS_SIXEL:
        if kept := _REGISTERS.search(_SAID):
            Sixels.colours = max(2, min(int(kept[1]), MOST_COLOURS))
        if largest := _LARGEST.search(_SAID):
            Sixels.most = int(largest[1]), int(largest[2])
        return Sixels
    return widget.TGPImage if SHARP else widget.HalfcellImage
