"""What the terminal shows pictures with: asked once, before Textual takes what it answers.

The library for pictures asks one thing after the other when it is imported, and waits each time
for terminals that do not answer; and it takes long to import. Here everything is asked at once,
and the library is imported when there is a picture.
"""

from __future__ import annotations

import re
import sys
from functools import cache
from typing import TYPE_CHECKING, NoReturn

from textual_image import _terminal as library

if TYPE_CHECKING:
    from textual_image.widget._base import Image

PATIENCE = 0.1
"""Seconds until a terminal counts as one that does not answer."""

LONGEST = 500
"""Characters read at most for an answer: the keys of a person may be among them."""

ASKED = "\x1b[16t\x1b_Gi=31,s=1,v=1,a=q,t=d,f=24;AAAA\x1b\\\x1b[c"
"""The size of a cell (XTWINOPS of xterm), whether pictures are shown by kitty's protocol, and last
the attributes (DA1 of ECMA-48), which every terminal answers, after what it has for the others:
the way that the protocol's own text describes."""

_CELL = re.compile(r"\x1b\[6;([1-9]\d*);([1-9]\d*)t")
_GRAPHICS = re.compile(r"\x1b_G[^\x1b]*;OK\x1b\\")
_ATTRIBUTES = re.compile(r"\x1b\[\?([\d;]*)c")
_SIXEL = "4"

IS_TERMINAL = sys.__stdout__ is not None and sys.__stdout__.isatty()
"""Whether pictures go to a terminal."""


def _answer() -> str:
    """Return what the terminal says to all that is asked; what came of it where it falls silent."""
    said = ""
    if not IS_TERMINAL or sys.__stdin__ is None or sys.__stdout__ is None:
        return said
    try:
        with library.capture_mode():
            sys.__stdout__.write(ASKED)
            sys.__stdout__.flush()
            while not _ATTRIBUTES.search(said) and len(said) < LONGEST:
                more = library.read(sys.__stdin__.fileno(), 1, PATIENCE)
                if not more:
                    break
                said += more
    except Exception:  # noqa: BLE001, S110  whatever a terminal cannot do, there are half blocks
        pass
    return said


def _asked_before(*_: object, **__: object) -> NoReturn:
    raise library.TerminalError("the terminal was asked before")


def _note_cell(said: str) -> None:
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


SAID = _answer()
_note_cell(SAID)
library.capture_terminal_response = _asked_before  # type: ignore[assignment]


_TOLD = _ATTRIBUTES.search(SAID)
_HAS_SIXEL = _TOLD is not None and _SIXEL in _TOLD[1].split(";")

SHARP = _HAS_SIXEL or _GRAPHICS.search(SAID) is not None
"""Whether the terminal shows pictures dot by dot, not in half blocks."""


@cache
def picture_kind() -> type[Image]:
    """Return the widget for the finest pictures the terminal shows. The first time takes long."""
    from textual_image import widget

    if _HAS_SIXEL:
        return widget.sixel.Image
    return widget.TGPImage if SHARP else widget.HalfcellImage
