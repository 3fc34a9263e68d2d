"""What the workshop answers: frozen, complete, ready to be shown or printed as JSON."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum

from engine.cases import CaseKind, FlatNet, Folded
from engine.ganging import Cut, Why
from engine.values import (
    Colours,
    Decision,
    Design,
    Fit,
    Forme,
    InkMode,
    Loss,
    Placement,
    Rect,
    Rule,
    Size,
    Stage,
    Stock,
    Trim,
    Value,
)


class ArtReport(Value, frozen=True):
    """The art of a game's insert, in numbers and in words."""

    source: str | None
    """The file name it came with; None is plain."""
    confidence: float
    """That this picture is this game's: 0 to 1."""
    fit: Fit
    loss: Loss
    ppi: float
    """Pixels to the inch as printed, the lower of both directions; 0 for plain."""
    words: str
    """'crops 11 % left and right'."""
    trim: Trim = Trim()
    split: tuple[float, float] | None = None
    warnings: tuple[str, ...] = ()
    """What may disappoint in print, a sentence each."""


class EdgeReport(Value, frozen=True):
    """The title on one edge, in numbers."""

    panel: str
    lines: tuple[str, ...]
    size: float
    """In points."""
    cap_height: float
    """In mm."""
    reads_at: float
    """The farthest distance from which it reads, in mm."""
    turn: int
    """Degrees counter-clockwise of its baseline on the flat net."""
    steps: tuple[str, ...] = ()
    """How the title was abridged, a phrase each: 'ampersand: Salt and Moss became Salt & Moss'."""
    notes: tuple[str, ...] = ()
    """What sets it apart or is wrong with it, a phrase each: 'set smaller, at 6.5 pt'."""
    width: float = 1.0
    """How far the type is condensed; 1 is not at all."""
    upright: bool = False
    """Characters stand one below the other."""
    mark: str = ""
    stripe: str = ""
    """The stripe's colour, ``#rrggbb``; empty for none."""
    logo: str = ""
    """What a logo shows: 'logo' or 'logo and title'; empty for none."""
    reaches: bool = True
    """Whether it reads from the shelf's distance."""


class Wording(Value, frozen=True):
    """A title as it can be worded, whole or abridged."""

    text: str
    steps: tuple[str, ...] = ()
    """How it was abridged, a phrase each; none where it is the whole title."""
    now: bool = False
    """It is what the edges show."""


class Help(Value, frozen=True):
    """Something that makes a title read from farther."""

    words: str
    reads_at: float
    """The farthest distance from which it would then read, in mm."""
    reaches: bool
    """Whether that is the shelf's distance or more."""


class FarTitle(Value, frozen=True):
    """A title that does not read from the shelf's distance."""

    game: str
    title: str
    case: str
    edge: EdgeReport
    helps: tuple[Help, ...]
    """Best first."""


class EvenReport(Value, frozen=True):
    """The titles on one edge of a case kind, set alike."""

    case: str
    panel: str
    titles: int
    size: float
    """In points, of all but those set apart."""
    apart: dict[str, str]
    """Why a title is not set like the rest, by game."""


class Legibility(Value, frozen=True):
    """From how far the shelf reads."""

    distance: float
    """The shelf's, in mm."""
    titles: int
    """Edges looked at."""
    short: tuple[FarTitle, ...]
    """Those that do not read from there, the worst first."""
    even: tuple[EvenReport, ...] = ()
    """How even the shelf is; none where each title is as large as it can be."""
    notes: tuple[str, ...] = ()
    """What is wrong with the font, a sentence each."""


class Proposal(Value, frozen=True):
    """A game's design as it would be printed now: what was accepted, the rest proposed."""

    game: str
    title: str
    case: str
    stage: Stage
    sure: bool
    """Everything not yet accepted is above the threshold."""
    doubts: tuple[str, ...]
    """Why not, a sentence each."""
    accepted: tuple[Decision, ...]
    design: Design
    art: ArtReport
    contrast: float
    edges: tuple[EdgeReport, ...]
    group: str = ""
    """The group its colours come from; empty where they are its own."""


class LogoReport(Value, frozen=True):
    """What came of a logo on the edges of a game."""

    proposal: Proposal
    words: tuple[str, ...]
    """How high its letters are on each edge and what was made of it, a sentence each."""


class GameLine(Value, frozen=True):
    """A game in a list."""

    id: str
    title: str
    series: str
    maker: str
    genre: str
    year: str
    notes: str
    case: str
    stage: Stage
    sure: bool
    """A picture was matched above the threshold, or the art is already chosen."""
    reprint: bool
    """Its design changed after it was printed."""
    batch: bool
    """In today's batch."""


class Progress(Value, frozen=True):
    """How many games stand at each stage."""

    games: int
    stages: dict[Stage, int]
    reprints: int = 0
    """Games that wait in the queue again because their design changed after printing."""
    notes: tuple[str, ...] = ()
    """What the person should know of the step just taken."""


class SheetState(StrEnum):
    """Where a sheet is in its life."""

    READY = "ready"
    """Proposed and full."""
    OPEN = "open"
    """Proposed, with room for more."""
    PRESSED = "pressed"
    SETTLED = "settled"
    WITHDRAWN = "withdrawn"


class Lack(Value, frozen=True):
    """Inserts that an open sheet still needs to be full."""

    case: str
    count: int


class OffcutReport(Value, frozen=True):
    """A blank part of a settled sheet."""

    number: int
    """From 1, the largest first."""
    size: Size
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
    forme: Forme
    placements: tuple[Placement, ...]
    used: float
    """Part of the stock's area that finished inserts take, 0 to 1."""
    lacks: tuple[Lack, ...] = ()
    file: str | None = None
    pressed_at: datetime | None = None
    waiting_since: datetime | None = None
    """When the oldest of its inserts was finished, while it is only proposed."""
    offcuts: tuple[OffcutReport, ...] = ()
    """Blank parts of a settled sheet that are large enough to be printed on."""
    strip: Rect | None = None
    """Where a strip of the check page fills room on it."""


class PlanPart(Value, frozen=True):
    """How many sheets of one stock print everything that is left for it."""

    stock: Stock
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


class CutsReport(Value, frozen=True):
    """The cut order of a sheet."""

    cuts: tuple[Cut, ...]
    words: tuple[str, ...]
    """Each cut in words."""
    settings: int
    """How often a distance is set."""
    turns: int
    """How often the paper is turned."""
    fewest: bool
    """Whether no order of this layout has fewer of both together."""
    notes: tuple[str, ...] = ()
    """Why there is no order, or what to mind; then the cautions, a sentence each."""


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

    stock: Stock
    inserts: int
    wasted: float
    """Part of the stock's area that nothing uses, 0 to 1."""
    filled: float
    """The same with all fillers that fit."""
    fillers: tuple[Filler, ...]


class Outlook(Value, frozen=True):
    """What comes of today's batch once it is finished."""

    games: int
    """Games of it that are still to be finished."""
    sheets: int
    """Full sheets that can be pressed then."""
    waits: int
    """Inserts that wait for a later sheet then."""


class IntakeReport(Value, frozen=True):
    """What a list and a folder of pictures brought."""

    added: int
    known: int
    """Games of the list that the collection already had."""
    matched: int
    """Games whose picture was found above the threshold."""
    doubtful: int
    """Games whose picture is to be confirmed."""
    bare: int
    """Games without a picture."""
    notes: tuple[str, ...] = ()
    """Rows and pictures that could not be used, a sentence each."""


class Undecided(Value, frozen=True):
    """A game that was left for the person to decide."""

    game: str
    title: str
    doubts: tuple[str, ...]


class AcceptReport(Value, frozen=True):
    """What accepting did."""

    accepted: tuple[str, ...]
    left: tuple[Undecided, ...]


class PressReport(Value, frozen=True):
    """Sheets that were written."""

    sheets: tuple[SheetReport, ...]
    notes: tuple[str, ...] = ()
    """What a part-full sheet leaves, and the cautions for cutting."""


class KindLine(Value, frozen=True):
    """A case kind in a list."""

    id: str
    name: str
    games: int
    """Games of the collection in it."""
    cautions: tuple[str, ...] = ()
    """What to mind when this case is prepared, a sentence each."""
    own: bool = False
    """It is described by a file in the collection, new or in place of one that ships."""
    pose: str = "shelf"
    """How these cases are kept: shelf, drawer or stack."""
    left_out: tuple[str, ...] = ()
    """Panels that the setup leaves out of these inserts, sorted."""


class KindReport(Value, frozen=True):
    """A case kind with its net on the stock in use."""

    line: KindLine
    kind: CaseKind
    net: FlatNet
    folded: Folded


class KindDraft(Value, frozen=True):
    """A case of one's own while it is being described."""

    id: str
    flat: Size
    """Of its flat net, in mm."""
    folded: tuple[float, ...]
    """Width, height and depth of the folded insert over all, in mm."""
    doubts: tuple[str, ...]
    """What is implausible about the measurements, a sentence each."""
    net: bytes
    """A PNG of the flat net with its dimensions."""
    view: bytes
    """A PNG of the folded insert."""


class TrialSide(Value, frozen=True):
    """A length that can be read off a trial cut."""

    panel: str
    dimension: str
    """``width`` or ``height`` of the panel as it lies flat."""
    length: float
    """In mm, as drawn."""


class TrialReport(Value, frozen=True):
    """A trial cut that was written."""

    file: str
    sides: tuple[TrialSide, ...]
    notes: tuple[str, ...] = ()
    """The cautions for cutting and for this case, a sentence each."""


class Finding(Value, frozen=True):
    """Something the health check found."""

    what: str
    where: str
    mend: str


class Health(Value, frozen=True):
    """The collection's health."""

    findings: tuple[Finding, ...]

    @property
    def ok(self) -> bool:
        """Whether nothing was found."""
        return not self.findings


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
