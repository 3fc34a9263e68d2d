"""The mark that files of ours bear, so that they may be written over and no others."""

from __future__ import annotations

MAKER = "Spinery"

_MARKS = (
    b"(Spinery)",  # a PDF's information dictionary
    b"Software\0Spinery",  # a text of a PNG
    b"<!-- Spinery -->",  # a comment of an SVG
    b"999\nSpinery",  # a comment of a DXF
)


def bears_mark(data: bytes) -> bool:
    """Return whether a file says that Spinery made it."""
    return any(mark in data for mark in _MARKS)
