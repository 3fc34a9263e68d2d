"""The values that the rooms hand each other: frozen, checked on reading, lengths in mm.

What a person decided and what happened is stored in these structs; everything else
(stages, proposals, full sheets) is worked out from them when it is asked for.
"""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from hashlib import sha256
from typing import Annotated, NamedTuple, TypeVar

import msgspec

Instant = Annotated[datetime, msgspec.Meta(tz=True)]
"""A time with its zone: a file that leaves the zone out is faulty."""


class Value(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A frozen record. Unknown fields in a file are a fault, never silently dropped."""


V = TypeVar("V", bound=Value)


def bare(record: V) -> V:
    """Return a record equal to this one, whose fields are left out where they have defaults.

    Writing leaves out only what nobody set: two equal records could be written, and so
    fingerprinted, in two ways.
    """
    given = {}
    for field in msgspec.structs.fields(record):
        value = getattr(record, field.name)
        if value != field.default:
            given[field.name] = bare(value) if isinstance(value, Value) else value
    return type(record)(**given)


class Size(NamedTuple):
    """A width and a height in mm."""

    width: float
    height: float


class Rect(NamedTuple):
    """A rectangle in mm, from its lower left corner; y grows upwards."""

    x: float
    y: float
    width: float
    height: float

    def inset(self, by: float) -> Rect:
        """Return the rectangle that lies ``by`` mm inside this one on each side."""
        return Rect(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)


# --- Paper ------------------------------------------------------------------------------


class Margins(Value, frozen=True):
    """What a printer leaves white on each side of the stock, in mm."""

    left: float = 6.0
    right: float = 6.0
    top: float = 6.0
    bottom: float = 12.0


class Stock(Value, frozen=True):
    """Paper as it lies in the printer, upright."""

    id: str
    name: str
    width: float
    height: float
    grammage: float = 200.0
    """g/m2 (ISO 536)."""
    caliper: float = 0.25
    """Thickness in mm (ISO 534)."""
    margins: Margins = Margins()


class Rule(StrEnum):
    """How a sheet is cut into inserts."""

    TRIMMER = "trimmer"
    """Every cut goes edge to edge of the piece in hand (guillotine)."""
    KNIFE = "knife"
    """Free placement."""


class Forme(Value, frozen=True):
    """How a sheet is laid out: the stock, the cutting rule, and the room between things."""

    stock: Stock
    rule: Rule = Rule.TRIMMER
    bleed: float = 1.0
    """How far colour runs past a cut, in mm; home trimmers err by 0.5 to 1 mm (common
    practice, no published source)."""
    gutter: float = 2.0
    """Between two finished inserts, in mm; twice the bleed, so that no bleed is overprinted."""
    foot: float = 8.0
    """A strip along the foot, inside the printable area, for the sheet's number, names and
    the level check bar, in mm."""
    side: float = 6.0
    """A strip along the left side for the upright check bar, in mm."""
    kerf: float = 0.0
    """What the blade takes away, in mm: nothing for a trimmer or a knife, more for a saw."""

    @property
    def printable(self) -> Rect:
        """The rectangle of the stock that the printer reaches."""
        m = self.stock.margins
        return Rect(
            m.left,
            m.bottom,
            self.stock.width - m.left - m.right,
            self.stock.height - m.bottom - m.top,
        )

    @property
    def field(self) -> Rect:
        """The rectangle in which finished inserts may lie, so that their bleed still prints."""
        area = self.printable
        return Rect(
            area.x + self.side,
            area.y + self.foot,
            area.width - self.side,
            area.height - self.foot,
        ).inset(self.bleed)


# --- Decisions --------------------------------------------------------------------------


class Decision(StrEnum):
    """What has to be decided for a game before its insert can be printed."""

    CASE = "case"
    ART = "art"
    COLOUR = "colour"
    TITLE = "title"


class Fit(StrEnum):
    """How a picture is made to suit a panel of another shape."""

    STRETCH = "stretch"
    """Both sides scaled to the panel's, each by its own factor."""
    MATTE = "matte"
    """Whole, with a matte around it."""
    FILL = "fill"
    """The panel filled, what stands over cropped."""
    PIXELS = "pixels"
    """Whole, every pixel drawn as a square of the same whole number of dots, with a matte around:
    for screenshots."""


class Matte(StrEnum):
    """What is laid around a picture that does not cover its panel."""

    BASE = "base"
    """The insert's base colour."""
    COMPLEMENT = "complement"
    """The base colour's hue turned by 180 degrees."""
    ANALOGOUS = "analogous"
    """The base colour's hue turned by 30 degrees."""
    EXTEND = "extend"
    """The picture's own outermost pixels, drawn out."""
    BLUR = "blur"
    """The picture itself, filling the panel, out of focus."""


class Pattern(StrEnum):
    """What is drawn on an art panel that shows no picture."""

    PLAIN = "plain"
    STRIPES = "stripes"
    DOTS = "dots"
    CHEQUERS = "chequers"
    WAVES = "waves"
    TITLE = "title"
    """The title set large on the base colour."""


class Sign(StrEnum):
    """A second sign on the edges, for groups whose colours cannot be told apart."""

    NONE = "none"
    STRIPE = "stripe"
    TWO_STRIPES = "two stripes"
    DOT = "dot"
    TWO_DOTS = "two dots"
    CORNER = "corner"


class InkMode(StrEnum):
    """How much ink an insert is printed with."""

    FULL = "full"
    """All in colour."""
    GREY = "grey"
    """All in greys."""
    EDGES = "edges"
    """The edges in colour, the art panels left white."""
    LETTERS = "letters"
    """Black titles on white edges, the art panels left white."""
    DRAFT = "draft"
    """All in colour, half as dense; the titles as black as ever."""


class Trim(NamedTuple):
    """What is cut off a picture before it is fitted, as fractions of its width and height."""

    left: float = 0.0
    top: float = 0.0
    right: float = 0.0
    bottom: float = 0.0


class Art(Value, frozen=True):
    """The art of an insert and how it lies on its art panels."""

    picture: str | None = None
    """A name in the collection's ``pictures/``; None is plain: base colour, no picture."""
    fit: Fit = Fit.FILL
    focus: tuple[float, float] = (0.5, 0.5)
    """The point kept in sight when cropping: fractions of the trimmed picture, from top left."""
    trim: Trim = Trim()
    split: tuple[float, float] | None = None
    """Where the spine of a flat cover scan begins and ends, as fractions of the trimmed width."""
    turn: float = 0.0
    """How far the picture is turned before it is trimmed, in degrees counter-clockwise about its
    centre, its frame kept: what straightens a skewed scan."""
    matte: Matte = Matte.BASE
    pattern: Pattern = Pattern.PLAIN
    """What is drawn where ``picture`` is None."""
    words: str = ""
    """The title that is set large where the pattern is one."""


class Colours(Value, frozen=True):
    """The colours of an insert as ``#rrggbb`` in sRGB."""

    base: str
    text: str
    sign: Sign = Sign.NONE
    """Drawn on the edges in the colour of the text."""


class End(StrEnum):
    """An end of an edge, by the way its title is read."""

    HEAD = "head"
    """Where the title begins."""
    FOOT = "foot"
    """Where it ends."""


class Furniture(Value, frozen=True):
    """The room kept on an edge beside its title, in mm along the line."""

    mark: float = 0.0
    """For a series mark, a shelf number, a year or a symbol; 0 for none."""
    mark_end: End = End.FOOT
    mark_across: bool = False
    """The mark stands upright on a turned spine: it also shows which way is up."""
    stripe: float = 0.0
    """For a stripe of colour right at the edge's end; 0 for none."""
    stripe_end: End = End.HEAD
    sign: float = 0.0
    """For the second sign of a group, where the title begins, after a stripe; 0 for none."""


class Logo(Value, frozen=True):
    """A picture of the title on an edge."""

    picture: str
    """A name in the collection's ``pictures/``."""
    shape: float
    """Its width over its height."""
    beside: bool = False
    """It stands in the room kept for a mark, the title beside it; else it is the title."""
    share: float = 0.0
    """The part of its height that its letters take, where a person measured it; else 0."""


class EdgeTitle(Value, frozen=True):
    """How the title is set on one edge, and what stands beside it."""

    panel: str
    lines: tuple[str, ...]
    """None where a logo is the title."""
    size: float
    """Type size in points."""
    width: float = 1.0
    """How far the type is condensed; 1 is its natural width."""
    font: FontRef | None = None
    """Its path is a name in the collection's ``fonts/``; None is the font that ships."""
    upright: bool = False
    """Ideographs and kana stand upright, one below the other."""
    furniture: Furniture = Furniture()
    mark: str = ""
    """What stands in the mark's room."""
    stripe: str = ""
    """The stripe's colour, ``#rrggbb``."""
    logo: Logo | None = None


class Design(Value, frozen=True):
    """Everything that decides what an insert looks like."""

    case: str
    art: Art
    colours: Colours
    title: tuple[EdgeTitle, ...]
    left_out: tuple[str, ...] = ()
    """Panels of the net that this insert goes without, by name, sorted."""
    ink: InkMode = InkMode.FULL

    @property
    def fingerprint(self) -> str:
        """Sixteen hex digits that change when anything about the design does."""
        return sha256(msgspec.json.encode(self, order="deterministic")).hexdigest()[:16]


class Accepted(Value, frozen=True):
    """The decisions a person has taken for a game, and when; None is not yet taken."""

    case: str | None = None
    art: Art | None = None
    art_at: Instant | None = None
    colours: Colours | None = None
    title: tuple[EdgeTitle, ...] | None = None
    title_at: Instant | None = None
    left_out: tuple[str, ...] | None = None
    """Panels left out of this game's insert; None leaves it to the setup."""
    colours_by: str = ""
    """The column whose group the colours were taken from. They follow the group until the insert
    is printed; empty where they are the game's own."""
    ink: InkMode = InkMode.FULL
    own_ink: bool = False
    """``ink`` was chosen for this game. Otherwise it follows the setup until it is printed."""


class Loss(Value, frozen=True):
    """What a picture loses by being fitted, each 0 for nothing."""

    distortion: float = 0.0
    """How much longer one side is drawn than the other: 0.06 is 6 %."""
    cropped: float = 0.0
    """Part of the picture's area that is cut off."""
    empty: float = 0.0
    """Part of the panel's area that shows no picture."""


# --- Games and pictures -----------------------------------------------------------------


class Match(Value, frozen=True):
    """The picture that intake found for a game."""

    picture: str
    """A name in the collection's ``pictures/``."""
    confidence: float
    """0 to 1; see ``intake.matching``."""


class Fitted(Value, frozen=True):
    """An insert was put into its case."""

    design: str
    """The fingerprint of the design that was fitted."""
    at: Instant


class Game(Value, frozen=True):
    """One cartridge to be cased."""

    id: str
    """Short and stable, made from the title: what a person types on the command line."""
    title: str
    added_at: Instant
    series: str = ""
    maker: str = ""
    genre: str = ""
    year: str = ""
    notes: str = ""
    case: str = ""
    """The case kind the list asks for; empty where it does not say."""
    extra: dict[str, str] = {}
    """Other columns of the list, as they came."""
    match: Match | None = None
    accepted: Accepted = Accepted()
    fitted: Fitted | None = None


class Picture(Value, frozen=True):
    """A picture of the collection, as found when it was taken in."""

    name: str
    """Its file in ``pictures/``: the content's hash and the format's suffix."""
    source: str
    """The file name it came with."""
    width: int
    """In pixels, the right way up."""
    height: int
    side: str
    """The colour of its left edge strip, ``#rrggbb``."""
    notes: tuple[str, ...] = ()
    """What opening it had to say: 'first of 3 pages'."""
    turn: float = 0.0
    """What straightens it, in degrees counter-clockwise; 0 where it is straight."""
    trim: Trim = Trim()
    """The uniform border or scanner background around it, after it is straightened."""
    bars: tuple[Trim, ...] = ()
    """Trims that also cut a side bar or a banner off, each with the border in it."""
    split: tuple[float, float] | None = None
    """Where the spine of a flat cover scan begins and ends, as fractions of the trimmed width;
    None where it is no such scan."""
    palette: tuple[str, ...] = ()
    """Its main colours as ``#rrggbb``, the most striking first."""
    dot: int = 0
    """Pixels to a side of one dot of a screenshot; 0 where it is no pixel art."""


# --- Sheets -----------------------------------------------------------------------------


class Placement(Value, frozen=True):
    """One insert on a sheet: the finished insert without its bleed, from the stock's lower left."""

    game: str
    case: str
    design: str
    """The fingerprint of the design that is printed here."""
    x: float
    y: float
    width: float
    """As it lies on the sheet, after any rotation."""
    height: float
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


# --- Stages -----------------------------------------------------------------------------


class Stage(StrEnum):
    """Where a game stands, in order; derived, never stored."""

    LISTED = "listed"
    ART_CHOSEN = "art chosen"
    TITLE_SET = "title set"
    PRINTED = "printed"
    FITTED = "fitted"


# --- Drawing ----------------------------------------------------------------------------


class FontRef(Value, frozen=True):
    """A font as it is found again: a file, the face in it, and a place in its design space."""

    path: str
    face: int = 0
    axes: tuple[tuple[str, float], ...] = ()
    """Variable axes by tag, e.g. (("wght", 600.0),); empty for a static font."""


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
