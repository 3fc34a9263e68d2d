"""What a person sets for the whole collection: the one place where a setting is declared.

A field that ``setting`` marks can be set. The command line, the Setup, JSON, what undo says and
docs/settings.md follow from what stands here; those of the paper stand at ``Stock``.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Literal

import msgspec
from msgspec import Meta

from engine.model.art import InkMode
from engine.model.base import Value
from engine.model.calibration import Calibration
from engine.model.container import Container
from engine.model.house import House
from engine.model.naming import Of
from engine.model.paper import Forme, Rule, Stock
from engine.model.setting import Settable, declared, setting
from engine.model.sheet import Machine, Reverse
from engine.model.stocks import STOCKS
from engine.model.text import FontRef
from engine.model.title import End
from engine.model.units import Mm, Points

ORDERS = {
    "title": "by title",
    "series": "by series, then number; other games by title between them",
    "maker": "by maker, then title",
    "genre": "by genre, then title",
    "year": "by year, then title",
    "colour": "by the colour of the edge",
    "hand": "as you put them",
}
"""How games stand on the shelf."""
Order = Literal["title", "series", "maker", "genre", "year", "colour", "hand"]

LanguageId = Annotated[str, Meta(extra={"of": Of.LANGUAGE})]
KindId = Annotated[str, Meta(extra={"of": Of.KIND})]
StockId = Annotated[str, Meta(extra={"of": Of.STOCK})]
PanelName = Annotated[str, Meta(extra={"of": Of.PANEL})]
Pose = Literal["shelf", "drawer", "stack"]

POSES = {
    "shelf": "upright on a shelf",
    "drawer": "standing in a box or drawer",
    "stack": "stacked, face up",
}
"""How cases are stored."""

PICTURE = "picture"
"""In the place of a column: every insert is coloured from its own picture."""

_FORME = Forme(STOCKS["a4-card"])


class Lettering(Value, frozen=True):
    """How titles are set on edges, from now on: what was accepted stays."""

    font: Annotated[
        FontRef | None,
        setting("Font", "The font of titles.", usual="the font that ships"),
    ] = None
    """Its path is a name in the collection's ``fonts/``; None is the font that ships."""
    mode: Annotated[
        Literal["even", "free"],
        setting(
            "Lettering",
            "Whether titles of a case kind are set in one size.",
            option="lettering",
            said={
                "even": "one size for all titles of a kind, but for the few that do not fit it",
                "free": "each title as large as it can be",
            },
        ),
    ] = "even"
    lines: Annotated[Literal[1, 2], setting("Lines", "A title takes at most so many.")] = 2
    smallest: Annotated[Points, setting("Smallest type", "No type is smaller.", ge=3, le=72)] = 5.0
    largest: Annotated[Points, setting("Largest type", "No type is larger.", ge=3, le=72)] = 24.0
    narrowest: Annotated[
        float,
        setting(
            "Narrowest type",
            "How far type may be condensed where that helps; 1 is not at all. "
            "Below 0.85 it is harder to read.",
            ge=0.7,
            le=1,
        ),
    ] = 1.0
    distance: Annotated[
        Mm,
        setting(
            "Reading distance",
            "From how far the edges are to be read. Arm's length is 500 mm.",
            name="reads_at",
            ge=100,
            le=10_000,
        ),
    ] = 500.0
    upright: Annotated[
        tuple[KindId, ...],
        setting(
            "Upright titles",
            "Case kinds on whose turned edges ideographs and kana stand upright.",
        ),
    ] = ()
    dictionary: Annotated[
        dict[str, str],
        setting(
            "Short forms",
            "Your own short forms of words; no form takes one back.",
            name="short",
        ),
    ] = {}
    mark: Annotated[
        str,
        setting(
            "Mark",
            "A mark on every edge: what a column of the list says, or =★ for a sign of your own.",
            of=Of.MARK,
            usual="no mark",
            back="none",
        ),
    ] = ""
    mark_room: Annotated[
        Mm,
        setting("Room for the mark", "Kept for the mark, along the edge.", ge=2, le=40),
    ] = 6.0
    mark_end: Annotated[
        End,
        setting(
            "Place of the mark",
            "Where the mark stands.",
            said={"head": "where the title begins", "foot": "where the title ends"},
        ),
    ] = End.FOOT
    mark_across: Annotated[
        bool,
        setting(
            "Mark across",
            "Marks stand upright on turned edges: they also show which way is up.",
        ),
    ] = False
    stripe: Annotated[
        str,
        setting(
            "Stripe",
            "A stripe on every edge, in a colour for each thing that a column of the list says.",
            of=Of.COLUMN,
            usual="no stripe",
            back="none",
        ),
    ] = ""
    stripe_room: Annotated[
        Mm, setting("Width of the stripe", "How wide the stripe is.", ge=0.5, le=20)
    ] = 2.0


class Settings(Value, frozen=True):
    """The paper, the cutting rule, the habits; lengths in mm."""

    stock: Annotated[
        Stock, setting("Paper", "The paper that inserts are printed on.", of=Of.STOCK)
    ] = STOCKS["a4-card"]
    stocks: Annotated[
        dict[KindId, StockId],
        setting(
            "Paper of a case kind",
            "The paper of one kind's inserts, where it is another.",
            name="stock",
            usual="as for all",
        ),
    ] = {}
    own_papers: dict[str, Stock] = {}
    """The person's own stocks by id, each with margins of its own."""
    printer: Annotated[
        str,
        setting(
            "Printer",
            "The printer that sheets go to: what the check page told of it is undone.",
            usual="the only one",
            back="none",
        ),
    ] = ""
    calibrations: tuple[Calibration, ...] = ()
    """What was measured on check pages, one for a printer and a stock."""
    rule: Annotated[
        Rule,
        setting(
            "Cutting rule",
            "How sheets are cut.",
            said={
                "trimmer": "every cut goes edge to edge",
                "knife": "free placement, cut along a rule",
            },
        ),
    ] = Rule.TRIMMER
    patience: Annotated[
        int,
        setting(
            "Patience",
            "After so many sheets without it the oldest insert is on the next one, "
            "even if others would leave less paper.",
            ge=1,
            counts="sheet",
        ),
    ] = 4
    bleed: Annotated[
        Mm,
        setting(
            "Bleed",
            "How far colour runs past a cut: more than your trimmer errs.",
            ge=0,
            le=3,
        ),
    ] = _FORME.bleed
    """Pieces of one insert lie twice 3 mm apart; see ``cases.layout``."""
    gutter: Annotated[
        Mm,
        setting(
            "Gutter",
            "Between two inserts: twice the bleed at least, so that none is printed over.",
            ge=0,
            le=20,
        ),
    ] = _FORME.gutter
    free_bleed: Annotated[
        Mm,
        setting(
            "Bleed where free",
            "How far colour runs past a cut on sheets that have room for it.",
            ge=0,
            le=3,
        ),
    ] = 2.0
    """Twice what home trimmers err by at most (common practice, no published source)."""
    free_gutter: Annotated[
        Mm,
        setting(
            "Gutter where free",
            "How far apart inserts lie on sheets that have room for it.",
            ge=0,
            le=20,
        ),
    ] = 6.0
    """Twice 2 mm of bleed, and room for the number of a cut."""
    foot: Annotated[Mm, Meta(ge=0)] = _FORME.foot
    side: Annotated[Mm, Meta(ge=0)] = _FORME.side
    kerf: Annotated[
        Mm,
        setting(
            "Kerf",
            "What the blade takes away: 0 for a trimmer or a knife, more for a saw.",
            ge=0,
        ),
    ] = 0.0
    least_distance: Annotated[
        Mm,
        setting(
            "Least distance",
            "The nearest that your trimmer's fence comes to its blade. "
            "What is closer is cut from the other side.",
            ge=0,
            le=100,
        ),
    ] = _FORME.least_distance
    least_edge: Annotated[
        Mm,
        setting(
            "Least edge",
            "The shortest edge that lies square against the trimmer's fence.",
            ge=0,
            le=200,
        ),
    ] = _FORME.least_edge
    stack: Annotated[
        Mm,
        setting(
            "Stack",
            "How thick a stack your trimmer cuts: ten sheets of 80 g/m² are 1 mm. "
            "0 cuts every piece alone.",
            ge=0,
            le=50,
        ),
    ] = _FORME.stack
    reverse: Annotated[
        Reverse,
        setting(
            "Reverse side",
            "The back of each sheet: where to cut, score and fold, mirrored.",
            said={
                "none": "backs stay empty",
                "long": "turned over the long edge of the paper",
                "short": "turned over the short edge",
            },
        ),
    ] = "none"
    machine: Annotated[
        Machine,
        setting(
            "Cutting machine",
            "A file of each sheet's cuts and scores, and registration marks on its print.",
            said={
                "none": "sheets are cut by hand",
                "svg": "as SVG, in groups",
                "dxf": "as DXF, on layers",
            },
        ),
    ] = "none"
    batch_size: Annotated[
        int, setting("Batch size", "A batch holds so many.", ge=1, counts="game")
    ] = 6
    batch: tuple[str, ...] = ()
    """The games being worked on today, by id."""
    threshold: Annotated[
        float,
        setting(
            "Sure from",
            "A picture whose match is less sure than this is left for you to confirm. "
            "1 leaves every one.",
            ge=0,
            le=1,
        ),
    ] = 0.85
    case: Annotated[
        str,
        setting(
            "Usual case",
            "The case kind of games whose list names none.",
            of=Of.KIND,
            usual="as the list says",
        ),
    ] = ""
    pose: Annotated[
        Pose | None,
        setting(
            "Storage",
            "How the cases are stored, which turns their titles.",
            name="stored",
            said=POSES,
            usual="as each case kind says",
        ),
    ] = None
    poses: Annotated[
        dict[KindId, Pose],
        setting(
            "Storage of a case kind",
            "How the cases of one kind are stored, where it is otherwise.",
            name="stored",
            said=POSES,
            usual="as set for all cases",
        ),
    ] = {}
    spine: Annotated[
        Literal["descending", "ascending"],
        setting(
            "Spines",
            "Which way titles on upright spines read.",
            name="spines",
            said={"descending": "from top to bottom", "ascending": "from bottom to top"},
        ),
    ] = "descending"
    left_out: Annotated[
        dict[KindId, tuple[PanelName, ...]],
        setting(
            "Panels left out",
            "Panels that inserts go without, of every case kind or of one.",
            option="without",
            every=True,
        ),
    ] = {}
    """By the kind's id; those under "" count for every kind."""
    colour_by: Annotated[
        str,
        setting(
            "Colour groups",
            "The column of the list whose groups have one colour each.",
            of=Of.GROUPS,
            usual="each insert from its own picture",
            back=PICTURE,
        ),
    ] = PICTURE
    pins: Annotated[
        dict[str, dict[str, Annotated[str, Meta(pattern="^#[0-9a-f]{6}$")]]],
        setting("Colours of groups", "The colours that you gave to groups.", option=""),
    ] = {}
    """``#rrggbb`` by column, then by group."""
    ink: Annotated[
        InkMode,
        setting(
            "Ink",
            "How much ink inserts are printed with that say nothing else.",
            said={
                "full": "full colour",
                "grey": "greys",
                "edges": "edges in colour, art left white",
                "letters": "black titles on white, art left white",
                "draft": "draft, half as dense",
            },
        ),
    ] = InkMode.FULL
    order: Annotated[Order, setting("Order", "How games stand on the shelf.", said=ORDERS)] = (
        "title"
    )
    alphabet: Annotated[
        str,
        setting(
            "Alphabet",
            "The language that gives the order of letters, and the word for the sign &.",
            of=Of.LANGUAGE,
        ),
    ] = "en"
    articles: Annotated[
        tuple[LanguageId, ...],
        setting(
            "Articles",
            "Languages whose article at the head of a title is passed over in filing.",
        ),
    ] = ("en",)
    by_hand: tuple[str, ...] = ()
    """Games by id as the person put them."""
    dividers: Annotated[
        bool, setting("Dividers", "Whether a divider stands before each group on the shelf.")
    ] = False
    lettering: Lettering = Lettering()
    """How titles are set on edges."""
    house: House = House()
    """Supplies in the house, and what they cost."""
    containers: tuple[Container, ...] = ()
    """The shelves, drawers and boxes that cases are kept in, in order."""
    case_sizes: dict[KindId, tuple[Mm, Mm, Mm]] = {}
    """Closed cases over all as the person measured them: width, height and depth."""

    @property
    def forme(self) -> Forme:
        """How a sheet of the usual stock is laid out under these settings."""
        return self.forme_on(self.stock)

    def forme_on(self, stock: Stock) -> Forme:
        """Return how a sheet of this stock is laid out."""
        return Forme(
            stock=stock,
            rule=self.rule,
            bleed=self.bleed,
            gutter=self.gutter,
            foot=self.foot,
            side=self.side,
            kerf=self.kerf,
            least_distance=self.least_distance,
            least_edge=self.least_edge,
            stack=self.stack,
            registered=self.machine != "none",
        )

    def calibration_on(self, stock: str, printer: str | None = None) -> Calibration | None:
        """Return what was measured of a printer, by default the one in use, on a stock."""
        name = self.printer if printer is None else printer
        found = (c for c in self.calibrations if (c.printer, c.stock) == (name, stock))
        return next(found, None)

    def stock_of(self, kind: str) -> Stock:
        """Return the stock that inserts of a kind are printed on.

        The margins set for the usual stock hold for every stock: they are the printer's.
        """
        return self.paper(self.stocks.get(kind, "")) or self.stock

    @property
    def papers(self) -> tuple[Stock, ...]:
        """All stocks there are, with the margins of the printer or their own."""
        found = (self.paper(stock) for stock in (*STOCKS, *self.own_papers))
        return tuple(one for one in found if one is not None)

    def paper(self, stock: str) -> Stock | None:
        """Return a stock by its id, with the margins of the printer; None for one not there.

        A person's own stocks have their own margins.
        """
        if stock == self.stock.id:
            return self.stock
        if stock in self.own_papers:
            return self.own_papers[stock]
        wanted = STOCKS.get(stock)
        return wanted and msgspec.structs.replace(wanted, margins=self.stock.margins)


SETTINGS: Mapping[str, Settable] = MappingProxyType({one.id: one for one in declared(Settings)})
"""All that can be set, by its field."""
