"""Sheets that were pressed."""

from __future__ import annotations

from typing import Literal, NamedTuple

from engine.model.base import Instant, Rect, Value, make_plain
from engine.model.calibration import Calibration
from engine.model.design import Design
from engine.model.paper import Forme
from engine.model.units import Mm

Reverse = Literal["none", "long", "short"]
"""Whether a sheet has a back, and over which of its edges it is turned for that."""
Machine = Literal["none", "svg", "dxf"]
"""What a cutting machine is told in."""


class Placement(Value, frozen=True):
    """One insert on a sheet: the finished insert without its bleed, from the stock's lower left."""

    game: str
    case: str
    design: str
    """The fingerprint of the design that is printed here."""
    x: Mm
    y: Mm
    width: Mm
    """As it lies on the sheet, after any rotation."""
    height: Mm
    rotated: bool = False
    """Turned 90 degrees counter-clockwise."""
    spoiled: bool = False
    spare: bool = False
    """It fills room on a sheet: a second print of an insert, or its edges alone. The game's
    place follows from its other prints for as long as this one is only pressed."""


class Offcut(NamedTuple):
    """A blank part of a sheet."""

    number: int
    """From 1 among the blank parts of its sheet, the largest first."""
    rect: Rect
    """Where it lies on the stock."""


class Printed(Value, frozen=True):
    """What a sheet was printed with, so that its page can be written again as it was."""

    designs: tuple[Design, ...]
    """Each design of its placements once; a game's own may change later."""
    titles: dict[str, str]
    """What its games were called, by id."""
    digest: str
    """SHA-256 of its page."""
    poses: dict[str, Literal["shelf", "drawer", "stack"]] = {}
    """How its cases were kept, by case kind: that turns their titles."""
    spine: Literal["", "descending", "ascending"] = ""
    """Which way titles on upright spines read; '' for sheets pressed by a program that did not
    keep these two."""

    def __post_init__(self) -> None:
        make_plain(self, "titles")


class Sheet(Value, frozen=True):
    """A piece of stock with placements. Its times tell where it is in its life."""

    number: int
    forme: Forme
    placements: tuple[Placement, ...]
    pressed_at: Instant
    settled_at: Instant | None = None
    withdrawn_at: Instant | None = None
    strip: Rect | None = None
    """Where a strip of the check page fills room on it."""
    offcuts: tuple[Offcut, ...] = ()
    """Blank parts of it that the person keeps: each is a stock of one."""
    calibration: Calibration | None = None
    """What is undone of its printer; None where that was not measured on its stock."""
    printed: Printed | None = None
    """None for sheets pressed by a program that did not keep it."""
    reverse: Reverse = "none"
    machine: Machine = "none"
    """Where it is cut by machine its print carries registration marks."""
