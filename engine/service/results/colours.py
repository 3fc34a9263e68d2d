"""Colours of the whole collection, and the ink they take."""

from __future__ import annotations

from engine.model import (
    Colours,
    InkMode,
    Value,
)


class GroupReport(Value, frozen=True):
    """A group of games that share a colour."""

    name: str
    games: tuple[str, ...]
    """Their ids, in list order."""
    colours: Colours
    origin: str
    """pinned: the person's; kept: accepted before; pictures: theirs agree; chosen: set apart."""
    printed: int
    """Inserts on paper in the group's colour."""
    reprint: tuple[str, ...]
    """Games whose insert is on paper in an earlier colour of the group."""


class ColoursReport(Value, frozen=True):
    """The colours of all groups, and how well they are told apart."""

    by: str
    """The column of the groups; ``picture`` where there are none."""
    columns: tuple[str, ...]
    """Those that can be chosen."""
    groups: tuple[GroupReport, ...]
    smallest: float | None
    """The least CIEDE2000 difference of two groups to any eye; None for fewer than two."""
    closest: tuple[str, str] | None
    seen: dict[str, float]
    """The least difference to each eye: normal, protan, deutan, tritan."""
    note: str
    """What to say where the groups cannot be told apart by colour."""
    own: int
    """Games in a group and not printed that have a colour of their own."""
    printed_sheets: int
    """Sheets that it takes to print again all that is on paper in a group's colour."""
    reprint_sheets: int
    """Sheets that it takes to print again what is on paper in an earlier colour."""


class ColourChoice(Value, frozen=True):
    """A base colour that suits a game."""

    base: str
    words: str
    """Where it comes from."""


class InkReport(Value, frozen=True):
    """The ink one insert takes, in percent of its area with its bleed, 0 to 100 a colour."""

    game: str
    title: str
    mode: InkMode
    coverage: dict[str, float]
    """Of cyan, magenta, yellow and black."""
    saving: dict[InkMode, float]
    """What each mode would save of the ink that full colour takes, 0 to 1."""


class SheetInk(Value, frozen=True):
    """The ink one sheet takes, in percent of the paper's area."""

    number: int | None
    coverage: dict[str, float]
    saving: dict[InkMode, float]


class InkSummary(Value, frozen=True):
    """The ink of inserts and of the sheets they lie on."""

    model: str
    """How coverage is worked out, a sentence."""
    mode: InkMode
    """What the setup says."""
    inserts: tuple[InkReport, ...]
    sheets: tuple[SheetInk, ...]
