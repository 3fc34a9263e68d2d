"""Sheets from proposed to settled, and the plan for what is left."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Annotated, Literal

import msgspec

from engine.ganging.cuts import Cut
from engine.ganging.fillers import Why
from engine.ganging.inserts import Lack
from engine.model import Forme, Placement, Rect, Reverse, Rule, Size, Stock, Value
from engine.model.units import BY_ID, SPREAD, Degrees, Mm, Share

# What stands above the scores of a sheet, its cuts, and what no trimmer cuts of its corners,
# notches and gaps.
SCORE_FIRST = "Score first, along the diamonds:"
THEN_CUT = "Then cut:"
BY_HAND = "Then by hand, each insert as its proof shows it:"


class SheetState(StrEnum):
    """Where a sheet is in its life."""

    READY = "ready"
    """Proposed and full."""
    OPEN = "open"
    """Proposed, with room for more."""
    PRESSED = "pressed"
    SETTLED = "settled"
    WITHDRAWN = "withdrawn"


class OffcutReport(Value, frozen=True):
    """A blank part of a settled sheet."""

    number: int
    """From 1, the largest first."""
    size: Annotated[Size, SPREAD]
    """In mm, short side first."""
    kept: bool
    """The person keeps it as a stock of one."""
    used: bool = False
    """Another sheet was pressed on it."""


class SheetReport(Value, frozen=True):
    """One sheet: how it is laid out and what it lacks."""

    number: int | None
    """None while it is only proposed."""
    state: SheetState
    forme: Annotated[Forme, SPREAD]
    placements: tuple[Placement, ...]
    used: Share
    """Part of the stock's area that finished inserts take, 0 to 1."""
    lacks: tuple[Lack, ...] = ()
    file: str | None = None
    reverse: Reverse = "none"
    """Over which edge it is turned for the back that it has."""
    machine: str | None = None
    """Where the file for the machine that cuts it lies; None where it is cut by hand."""
    pressed_at: datetime | None = None
    waiting_since: datetime | None = None
    """When the oldest of its inserts was finished, while it is only proposed."""
    offcuts: tuple[OffcutReport, ...] = ()
    """Blank parts of a settled sheet that are large enough to be printed on."""
    strip: Rect | None = None
    """Where a strip of the check page fills room on it."""
    to_fit: int = 0
    """Good inserts of a settled sheet that are not in their cases yet."""


class PlanPart(Value, frozen=True):
    """How many sheets of one stock print everything that is left for it."""

    stock: Annotated[Stock, BY_ID]
    sheets: int
    bound: int
    proven: bool
    too_large: tuple[str, ...] = ()
    """Case kinds whose inserts do not fit this stock; they are not counted."""


class PlanReport(Value, frozen=True):
    """How many sheets print everything that is left."""

    sheets: int
    bound: int
    """No plan can do with fewer than this."""
    proven: bool
    parts: tuple[PlanPart, ...] = ()
    """The same for each stock."""
    rule: Rule = Rule.TRIMMER
    """The cutting rule that this holds for."""


class SheetsReport(Value, frozen=True):
    """All sheets that are not done with."""

    ready: tuple[SheetReport, ...]
    open: tuple[SheetReport, ...]
    pressed: tuple[SheetReport, ...]
    plan: PlanReport | None = None
    """None where it was not asked for: it can take seconds."""
    beyond: int = msgspec.field(default=0, name="waiting_beyond")
    """Finished inserts that wait for a sheet that is neither full nor the open one; not those
    too large for any, which the plan names."""

    @property
    def waiting(self) -> int:
        """Finished inserts that wait for a sheet, whichever."""
        return sum(len(sheet.placements) for sheet in (*self.ready, *self.open)) + self.beyond


class ScoreSetting(Value, frozen=True):
    """A line to score on a sheet: one setting of the rule."""

    letter: str
    """From a, in the order of the work: one side of the paper, then the other."""
    upright: bool
    at: Mm
    """From the left edge of the paper for an upright one, else from its foot."""
    side: Literal["printed", "back"]
    """On which it is pressed."""
    fold: Literal["mountain", "valley"]
    angle: Degrees
    """By how much it folds."""
    inserts: tuple[int, ...]
    """Those it lies on, by their numbers from 1."""
    words: str
    """All that for a person."""


class CutsReport(Value, frozen=True):
    """What is scored on a sheet, and its cut order."""

    cuts: tuple[Cut, ...]
    words: tuple[str, ...]
    """Each cut in words."""
    settings: int
    """How often a distance is set."""
    turns: int
    """How often the paper is turned."""
    fewest: bool
    """Whether no order of this layout that the trimmer takes has fewer of both together."""
    scores: tuple[ScoreSetting, ...] = ()
    """The lines to score before that, in their order."""
    by_hand: tuple[str, ...] = ()
    """What is cut by hand after these: corners, notches, gaps; a sentence for each case kind."""
    notes: tuple[str, ...] = ()
    """Why there is no order, what the trimmer cannot take, then the cautions; a sentence each."""


class Filler(Value, frozen=True):
    """Something that could use the room on a part-full sheet."""

    id: str
    """What it is chosen by: 'spare:tide-runner', 'strip'."""
    why: Why
    words: str
    """'spare of Tide Runner'."""
    fits: bool
    """It finds room together with those before it."""


class PartFull(Value, frozen=True):
    """A part-full sheet before it is pressed."""

    stock: Annotated[Stock, BY_ID]
    inserts: int
    wasted: Share
    """Part of the stock's area that nothing uses, 0 to 1."""
    filled: Share
    """The same with all fillers that fit."""
    fillers: tuple[Filler, ...]


class Outlook(Value, frozen=True):
    """What comes of today's batch once it is finished."""

    games: int = msgspec.field(name="unfinished")
    """Games of it that are still to be finished."""
    sheets: int = msgspec.field(name="full_sheets")
    """Full sheets that can be pressed then."""
    waits: int
    """Inserts that wait for a later sheet then."""


class PressReport(Value, frozen=True):
    """Sheets that were written."""

    sheets: tuple[SheetReport, ...]
    notes: tuple[str, ...] = ()
    """What a part-full sheet leaves, and the cautions for cutting."""
    job: str | None = None
    """The file of all sheets behind their ticket, where it was asked for."""
    ticket: tuple[str, ...] = ()
    """What that ticket says, a paragraph each."""
