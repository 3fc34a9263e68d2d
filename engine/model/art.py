"""Pictures on panels, and the colours around them."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, NamedTuple

from engine.model.base import Hex, Value, make_plain
from engine.model.text import FontRef
from engine.model.units import DEGREES, rounded

Lost = Annotated[float, rounded(4)]
"""A part of a whole, 0 to 1."""


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
    MIRROR = "mirror"
    """The picture's own ground carried on: mirrored at its edges, out of focus."""


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
    turn: Annotated[float, DEGREES] = 0.0
    """How far the picture is turned before it is trimmed, in degrees counter-clockwise about its
    centre, its frame kept: what straightens a skewed scan."""
    matte: Matte = Matte.BASE
    pattern: Pattern = Pattern.PLAIN
    """What is drawn where ``picture`` is None."""
    stretch: float = 0.0
    """How much longer one side of the picture may be drawn than the other while the rest is cropped
    or left to a matte: 0.04 is 4 %."""
    band: float = 0.0
    """Part of the main panel that words take from the picture, on the base colour: below it, or,
    where negative, at its right."""
    words: str = ""
    """The title that is set large where there is no picture, or on the band."""
    lines: tuple[str, ...] = ()
    """What else the band says, none of it empty: series, maker, year."""
    back: tuple[str, ...] = ()
    """What a back without a picture says, none of it empty: title, series, maker, year, notes."""
    stand_ins: tuple[FontRef, ...] = ()
    """Fonts for characters of these; see ``EdgeTitle.stand_ins``."""
    others: tuple[PanelArt, ...] = ()
    """What panels besides the main one show of their own; the rest show their part of a split
    scan, or words."""

    def __post_init__(self) -> None:
        if self.words or self.lines or self.back:
            make_plain(self, "words", "lines", "back")

    @property
    def pictures(self) -> tuple[str, ...]:
        """Every picture that is shown, the main one first, each once."""
        named = (self.picture, *(one.art.picture for one in self.others))
        return tuple(dict.fromkeys(name for name in named if name is not None))

    def on(self, panel: str) -> Art | None:
        """Return what a panel besides the main one shows of its own, None where it has nothing."""
        return next((one.art for one in self.others if one.panel == panel), None)

    @property
    def is_cropped(self) -> bool:
        """Whether a part of its picture is out of sight, so that the crop can be moved."""
        return self.picture is not None and self.fit is Fit.FILL


class PanelArt(Value, frozen=True):
    """What a panel besides the main one shows of its own."""

    panel: str
    art: Art
    """Without a picture, what it says in words, though it could show a part of the main one's."""


class Colours(Value, frozen=True):
    """The colours of an insert as ``#rrggbb`` in sRGB."""

    base: Hex
    text: Hex
    sign: Sign = Sign.NONE
    """Drawn on the edges in the colour of the text."""


class Loss(Value, frozen=True):
    """What a picture loses by being fitted, each 0 for nothing."""

    distortion: Lost = 0.0
    """How much longer one side is drawn than the other: 0.06 is 6 %."""
    cropped: Lost = 0.0
    """Part of the picture's area that is cut off."""
    empty: Lost = 0.0
    """Part of the panel's area that shows no picture."""
