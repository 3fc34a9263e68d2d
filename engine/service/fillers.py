"""Pressing part-full on purpose: what could use the room, and the sheet when it is chosen."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import NamedTuple

import msgspec

from engine import ganging, press
from engine.cases.casing import Casing
from engine.ganging import Filled, Item, Offer, Why
from engine.ganging.inserts import LONG_AGO
from engine.ganging.papers import Proposed
from engine.ganging.results import Filler, PartFull
from engine.lettering.titler import edges_of
from engine.model import Art, Decision, Design, Game, Placement, Rect, Sheet
from engine.model.errors import CaseError, InputError
from engine.model.stages import Place, Standing, accepted_design
from engine.service import deciding
from engine.state import Proposal

OF_A_KIND = 6
"""Fillers of one kind that are offered: more than a sheet has room for are of no use."""
STRIP = "strip"


class Candidate(NamedTuple):
    """A filler, and what is printed if it is chosen."""

    filler: str
    """Its id."""
    offer: Offer
    words: str
    design: Design | None = None
    game: Game | None = None
    """The game with everything accepted, where choosing it finishes one."""
    of: str = ""
    """The game that the print is of."""

    def report(self, *, fits: bool) -> Filler:
        """Return it as it is shown."""
        return Filler(id=self.filler, why=self.offer.why, words=self.words, fits=fits)


class Room:
    """What there is to fill sheets with, in one state of the collection."""

    def __init__(
        self,
        games: Mapping[str, Game],
        standing: Mapping[str, Standing],
        casing: Casing,
        sheets: Collection[Sheet],
        propose: Callable[[str], Proposal],
    ) -> None:
        """Look at these games; ``propose`` gives the design of one that is not finished."""
        self._games = games
        self._standing = standing
        self._casing = casing
        self._sheets = sheets
        self._propose = propose

    def game(self, key: str) -> Game:
        """Return a game by its id."""
        return self._games[key]

    def candidates(self, sheet: Proposed) -> tuple[Candidate, ...]:
        """Return what could fill a sheet, the most useful first."""
        stock, own = sheet.forme.stock.id, [laid.key for laid in sheet.layout.laid]
        return (
            *self._spares(own, stock),
            *islice(self._games_next(stock), OF_A_KIND),
            *islice(self._labels(own), OF_A_KIND),
            _strip(),
        )

    def report(self, sheet: Proposed) -> PartFull:
        """Return what a part-full sheet wastes, and what could fill it."""
        candidates = self.candidates(sheet)
        filled = self.fill(sheet, candidates)
        taken = {offer.item.key for offer in filled.taken} if filled else set()
        return PartFull(
            stock=sheet.forme.stock,
            inserts=len(sheet.layout.laid),
            wasted=1 - sheet.layout.used,
            filled=filled.wasted if filled else 1 - sheet.layout.used,
            fillers=tuple(one.report(fits=one.filler in taken) for one in candidates),
        )

    def fill(self, sheet: Proposed, chosen: Sequence[Candidate]) -> Filled | None:
        """Return the sheet with as many of ``chosen`` as find room, in their order."""
        items = [self._item(laid.key) for laid in sheet.layout.laid]
        return ganging.fill(items, [one.offer for one in chosen], sheet.forme)

    def _item(self, key: str) -> Item:
        design = self._standing[key].design
        if design is None:
            raise InputError(key, "is not finished", "Accept its design first")
        return self._as_item(key, design)

    def _as_item(self, key: str, design: Design) -> Item:
        size = self._casing.net_for(design).size
        turns = self._casing.turns(design.case)
        return Item(key, design.case, size.width, size.height, turns, LONG_AGO)

    def _on(self, stock: str, games: Iterable[str]) -> Iterator[str]:
        for key in games:
            case = self._casing.case_of(self._games[key])
            if self._casing.stock_of(case).id == stock:
                yield key

    def _spares(self, own: Sequence[str], stock: str) -> list[Candidate]:
        """Return second prints of what lies on the sheet or is printed already."""
        done = [key for key, one in self._standing.items() if one.place is Place.DONE]
        items = [self._item(key) for key in dict.fromkeys((*own, *self._on(stock, done)))]
        return [
            self._candidate(Why.SPARE, offer.item.key, self._standing[offer.item.key].design)
            for offer in ganging.spares(items, self._sheets)[:OF_A_KIND]
        ]

    def _games_next(self, stock: str) -> Iterator[Candidate]:
        """Yield games that only wait to be accepted, the nearest to finished first."""
        backlog = [key for key, one in self._standing.items() if one.place is Place.BACKLOG]
        nearest = sorted(self._on(stock, backlog), key=lambda key: -_taken(self._games[key]))
        for key in nearest[: 4 * OF_A_KIND]:
            proposal = self._propose(key)
            if not proposal.sure:
                continue
            game = deciding.accept(self._games[key], proposal.design, frozenset(Decision), LONG_AGO)
            yield self._candidate(Why.GAME, key, accepted_design(game.accepted), game)

    def _labels(self, own: Iterable[str]) -> Iterator[Candidate]:
        """Yield the edges alone of what lies on the sheet, without a picture."""
        for key in own:
            design = self._standing[key].design
            label = self._label(design) if design else None
            if label is not None:
                yield self._candidate(Why.LABEL, key, label)

    def _label(self, design: Design) -> Design | None:
        """Return the first edge of a design alone; None where it has none or is no more."""
        net = self._casing.net_for(design)
        panels, edge = net.panels, next((panel.name for panel in edges_of(net)), None)
        title = tuple(title for title in design.title if title.panel == edge)
        if edge is None or not title or len(panels) == 1:
            return None
        left_out = {*design.left_out, *(panel.name for panel in panels if panel.name != edge)}
        label = msgspec.structs.replace(
            design, art=Art(), title=title, left_out=tuple(sorted(left_out))
        )
        try:
            self._casing.net_for(label)
        except CaseError:
            return None
        return label

    def _candidate(
        self, why: Why, key: str, design: Design | None, game: Game | None = None
    ) -> Candidate:
        if design is None:
            raise InputError(key, "is not finished", "Accept its design first")
        filler, title = f"{why.value}:{key}", self._games[key].title
        words = {
            Why.SPARE: f"spare of {title}",
            Why.GAME: f"{title}, accepted as proposed",
            Why.LABEL: f"edge label of {title}",
        }[why]
        return Candidate(
            filler, Offer(self._as_item(filler, design), why), words, design, game, of=key
        )


def _taken(game: Game) -> int:
    a = game.accepted
    return sum(part is not None for part in (a.case, a.art, a.colours, a.title))


def _strip() -> Candidate:
    item = Item(STRIP, STRIP, *press.STRIP_SIZE, turns=True, since=LONG_AGO)
    return Candidate(STRIP, Offer(item, Why.STRIP), "strip of the check page")


def placements(
    filled: Filled, chosen: Sequence[Candidate], standing: Mapping[str, Standing]
) -> tuple[tuple[Placement, ...], Rect | None]:
    """Return what lies on a filled sheet from the top left down, and where a strip lies."""
    fillers = {one.filler: one for one in chosen}
    strip: Rect | None = None
    placed: list[Placement] = []
    for laid in filled.layout.from_top:
        filler = fillers.get(laid.key)
        if laid.key == STRIP:
            strip = Rect(laid.x, laid.y, laid.width, laid.height)
            continue
        design = filler.design if filler else standing[laid.key].design
        spare = filler is not None and filler.game is None
        placed.append(laid.placed(filler.of if filler else laid.key, design, spare=spare))
    return tuple(placed), strip
