"""Text as a pen sets it."""

from __future__ import annotations

from pathlib import PurePath
from typing import NamedTuple

from engine.model.base import Value


class FontRef(Value, frozen=True):
    """A font as it is found again: a file, the face in it, and a place in its design space."""

    path: str
    """Of a file; in a design, a name in the collection's ``fonts/``."""
    face: int = 0
    axes: tuple[tuple[str, float], ...] = ()
    """Variable axes by tag, e.g. (("wght", 600.0),); empty for a static font."""

    @property
    def is_kept(self) -> bool:
        """Whether a collection keeps it: its path is a mere name."""
        return PurePath(self.path).name == self.path


class Glyph(NamedTuple):
    """One shaped glyph, placed from the start of its run's baseline in mm."""

    gid: int
    x: float
    y: float
    cluster: int
    """Index into the run's text of the first character it stands for."""


class TextRun(Value, frozen=True):
    """A line of one font, shaped and measured: what a pen needs to set it."""

    text: str
    font: FontRef
    size: float
    """In points."""
    glyphs: tuple[Glyph, ...]
    width: float
    """Advance of the whole run, in mm."""
