"""What the terminal shows pictures with, by what it answered when it was asked.

The library for pictures asks one thing after the other when it is imported, and waits each time
for terminals that do not answer; and it takes long to import. ``tui.terminal`` asks everything at
once, and the library is imported when there is a picture.
"""

from __future__ import annotations

import re
import sys
from functools import cache
from typing import TYPE_CHECKING, NoReturn

from textual_image import _terminal as library

from tui.terminal import ATTRIBUTES, answered

if TYPE_CHECKING:
    from textual_image.widget._base import Image

_CELL = re.compile(rb"\x1b\[6;([1-9][0-9]*);([1-9][0-9]*)t")
_GRAPHICS = re.compile(rb"\x1b_G[^\x1b]*;OK\x1b\\")
_SIXEL = b"4"

IS_TERMINAL = sys.__stdout__ is not None and sys.__stdout__.isatty()
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


_SAID = answered()
_note_cell(_SAID)
library.capture_terminal_response = _asked_before  # type: ignore[assignment]


_TOLD = ATTRIBUTES.search(_SAID)
_HAS_SIXEL = _TOLD is not None and _SIXEL in _TOLD[1].split(b";")

SHARP = _HAS_SIXEL or _GRAPHICS.search(_SAID) is not None
"""Whether the terminal shows pictures dot by dot, not in half blocks."""


@cache
def picture_kind() -> type[Image]:
    """Return the widget for the finest pictures the terminal shows. The first time takes long."""
    from textual_image import widget

    if _HAS_SIXEL:
        return widget.sixel.Image
    return widget.TGPImage if SHARP else widget.HalfcellImage
