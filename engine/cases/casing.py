"""Which case each game is in, and the net its insert has on the stock in use."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from engine import cases
from engine.cases import CaseKind, FlatNet, Folded, Panel, Pose, Role, Spine, taking
from engine.cases.flattening import main_art_first
from engine.model import Design, Forme, Game, Match, Stock
from engine.model.errors import CaseError
from engine.model.settings import Settings

DEFAULT_KIND = "snap-shell"
"""The case kind where neither the list nor the setup names one."""


class Casing:
    """The case kinds under one setup."""

    def __init__(self, kinds: Mapping[str, CaseKind], settings: Settings) -> None:
        """Take the kinds there are and what was set for the collection."""
        self._kinds = kinds
        self._settings = settings
        self._usually_left_out: dict[str, frozenset[str]] = {}
        self._nets: dict[tuple[str, frozenset[str]], FlatNet] = {}
        """By kind and what is left out: thousands of games share a few."""

    def case_of(self, game: Game) -> str:
        """Return the id of the case kind a game is in: accepted, listed, or the default."""
        for kind in (game.accepted.case, game.case):
            if kind is not None and kind in self._kinds:
                return kind
        return self.usual

    @cached_property
    def usual(self) -> str:
        """The id of the case kind of a game of which nothing is said."""
        wanted = (self._settings.case, DEFAULT_KIND, *self._kinds)
        return next(kind for kind in wanted if kind in self._kinds)

    def left_out(self, game: Game) -> frozenset[str]:
        """Return the panels that a game's insert goes without: its own choice, or the setup's."""
        kind = self.case_of(game)
        if game.accepted.left_out is not None and game.accepted.case == kind:
            return frozenset(game.accepted.left_out)
        return self.usually_left_out(kind)

    def usually_left_out(self, kind: str) -> frozenset[str]:
        """Return the panels that the setup leaves out of a kind, never all that it has."""
        if kind not in self._usually_left_out:
            setup = self._settings.left_out
            panels = {panel.name for panel in self._kinds[kind].panels}
            wanted = panels.intersection((*setup.get(kind, ()), *setup.get("", ())))
            self._usually_left_out[kind] = frozenset(() if wanted == panels else wanted)
        return self._usually_left_out[kind]

    def net_of(self, game: Game) -> FlatNet:
        """Return the flat net of a game's insert."""
        return self.net(self.case_of(game), self.left_out(game))

    def main_picture(self, game: Game) -> Match | None:
        """Return the picture that is proposed for a game's main panel."""
        if not game.sides:
            return game.match
        panels = self.art_panels(game)
        return taking.main_picture(game, taking.taken_by(panels[0])) if panels else game.match

    def art_panels(self, game: Game) -> tuple[Panel, ...]:
        """Return the art panels of a game's insert, the main one first."""
        kind, left_out = self._kinds[self.case_of(game)], self.left_out(game)
        kept = frozenset(panel.name for panel in kind.panels) - left_out
        return tuple(p for p in main_art_first(kind, kept) if p.role is Role.ART)

    def net(self, kind: str, left_out: frozenset[str] | None = None) -> FlatNet:
        """Return the flat net of a case kind on the stock in use, as the setup has it.

        Raises CaseError for an unknown kind or panel.
        """
        self._must_know(kind)
        without = self.usually_left_out(kind) if left_out is None else left_out
        if (kind, without) not in self._nets:
            self._nets[kind, without] = cases.flatten(
                self._kinds[kind],
                self.stock_of(kind).caliper,
                pose=self.pose(kind),
                spine=Spine(self._settings.spine),
                left_out=without,
            )
        return self._nets[kind, without]

    def folded(self, kind: str, left_out: frozenset[str] | None = None) -> Folded:
        """Return the insert of a case kind folded, as ``net`` has it flat. Raises as it does."""
        self._must_know(kind)
        return cases.fold(
            self._kinds[kind],
            self.stock_of(kind).caliper,
            pose=self.pose(kind),
            left_out=self.usually_left_out(kind) if left_out is None else left_out,
        )

    def pose(self, kind: str) -> Pose:
        """Return how the cases of a kind are kept: as set for it, for all, or as it says."""
        said = self._settings.poses.get(kind, self._settings.pose)
        return Pose(said) if said else self._kinds[kind].pose

    def stock_of(self, kind: str) -> Stock:
        """Return the stock that inserts of this kind are printed on."""
        return self._settings.stock_of(kind)

    def forme_of(self, kind: str) -> Forme:
        """Return how sheets with inserts of this kind are laid out."""
        return self._settings.forme_on(self.stock_of(kind))

    def turns(self, kind: str) -> bool:
        """Return whether inserts of this kind may be rotated on the sheet."""
        return not self._kinds[kind].grain

    def net_for(self, design: Design) -> FlatNet:
        """Return the flat net of a design's insert."""
        return self.net(design.case, frozenset(design.left_out))

    def lacks_room(self, net: FlatNet) -> str:
        """Return a sentence if an insert does not fit the stock, else ''."""
        stock = self.stock_of(net.kind)
        if self._fits(net, stock):
            return ""
        name = self._kinds[net.kind].name
        larger = (one for one in self._settings.papers if self._fits(net, one))
        found = min(larger, key=lambda one: (one.width * one.height, one.id), default=None)
        mend = "Set up margins your printer really has, a larger paper, or another case kind"
        if found is not None:
            mend = f"It fits on {found.name}: spinery setup --stock-of {net.kind}={found.id}"
        size = f"{net.size.width:.0f} × {net.size.height:.0f} mm"
        mends = ". ".join(filter(None, (mend, self._margins_for(net, stock))))
        return f"{name}: its insert of {size} does not fit on {stock.name}. {mends}."

    def _margins_for(self, net: FlatNet, stock: Stock) -> str:
        """Return which margins an insert would take on a stock; '' where none are enough."""
        turns, margins = self.turns(net.kind), stock.margins
        ways = self._settings.forme_on(stock).ways
        across, up = margins.left + margins.right, margins.top + margins.bottom
        lacks = (one.lacking(*net.size, turns=turns) for one in ways)
        enough = [one for one in lacks if one.width <= across and one.height <= up]
        if not enough:
            return ""
        least = min(enough, key=sum)
        said = " and ".join(
            f"{which} margins of {there - lack:.1f} mm together, where {there:g} mm are set"
            for which, there, lack in (
                ("top and bottom", up, least.height),
                ("left and right", across, least.width),
            )
            if lack
        )
        return f"This paper takes it with {said}"

    def _fits(self, net: FlatNet, stock: Stock) -> bool:
        """Return whether an insert fits a stock, its marks wherever there is room for them."""
        forme, turns = self._settings.forme_on(stock), self.turns(net.kind)
        return any(one.holds(*net.size, turns=turns) for one in forme.ways)

    def _must_know(self, kind: str) -> None:
        if kind not in self._kinds:
            raise CaseError(kind, "no such case kind", f"Kinds are {', '.join(self._kinds)}")
