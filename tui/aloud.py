"""Lines as they are said: no columns, no empty lines, no signs that only an eye takes in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Cell = tuple[str, int]
"""Words, and the cells that their column takes: at the right of it where that is negative."""


class Line(str):
    """A line that is laid out for the eye, with what is said of it to the ear."""

    __slots__ = ("aloud",)

    aloud: str
    """Empty where it helps the eye only."""

    def __new__(cls, shown: str, aloud: str) -> Line:
        """Show one thing and say another."""
        line = super().__new__(cls, shown)
        line.aloud = aloud
        return line


def columns(cells: Sequence[Cell], aloud: str, indent: str = "") -> Line:
    """Return cells side by side, and what is said instead."""
    laid = (f"{words:>{-width}}" if width < 0 else f"{words:<{width}}" for words, width in cells)
    return Line(f"{indent}{' '.join(laid)}".rstrip(), aloud)


def named(name: str, width: int, words: str, indent: str = "", *, said: str = "") -> Line:
    """Return a name and words on it side by side; aloud, as 'name: words', or what is ``said``."""
    return columns(((name, width), (words, 0)), f"{name}: {said or words}", indent)


def aloud(lines: Iterable[str]) -> list[str]:
    """Return lines as they are said."""
    said = (line.aloud if isinstance(line, Line) else line for line in lines)
    return [line.strip() for line in said if line.strip()]
