"""Which titles do not read from the shelf's distance, and what would help."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from engine.cases import CaseKind, FlatPanel
from engine.cases.casing import Casing
from engine.lettering.abridging import Abridged
from engine.lettering.remedies import ANOTHER_CASE, Remedy, remedies
from engine.lettering.results import EdgeReport, EvenReport, FarTitle, Help, Legibility
from engine.lettering.setting import propose_title
from engine.lettering.titler import Titler, edges_of
from engine.model import Game, Size
from engine.model.game import LABEL_KINDS


class Reader:
    """Looks at the titles of one state of the collection."""

    def __init__(self, titler: Titler, casing: Casing, kinds: Mapping[str, CaseKind]) -> None:
        """Look at titles as ``titler`` sets them."""
        self._titler = titler
        self._casing = casing
        self._kinds = kinds

    def report(self, games: Mapping[str, Game], *, helps: bool = True) -> Legibility:
        """Return which titles of these games do not read from the shelf's distance.

        What would help is worked out where ``helps`` says so.
        """
        short: list[FarTitle] = []
        looked, other_font = 0, 0
        distance = self._titler.distance
        for game in games.values():
            net = self._casing.net_of(game)
            titled = self._titler.titled(game, net)
            other_font += any(one.font != self._titler.fonts.chosen for one in titled.titles)
            for panel, edge in zip(edges_of(net), titled.edges, strict=True):
                looked += 1
                if edge.reads_at < distance:
                    found = tuple(self._helps(game, net.kind, panel, edge)) if helps else ()
                    short.append(FarTitle(game.id, game.title, net.kind, edge, found))
        return Legibility(
            distance=distance,
            titles=looked,
            short=tuple(sorted(short, key=lambda one: one.edge.reads_at)),
            even=tuple(self._even(games)),
            notes=(*filter(None, [self._titler.fonts.note]), *_other_font(other_font)),
        )

    def _even(self, games: Mapping[str, Game]) -> Iterator[EvenReport]:
        nets = {net.kind: net for net in map(self._casing.net_of, games.values())}
        for case, net in sorted(nets.items()):
            for panel in edges_of(net):
                shelf = self._titler.shelf(case, panel)
                if shelf.size:
                    yield EvenReport(
                        case=case,
                        panel=panel.name,
                        titles=len(shelf.titles),
                        size=shelf.size,
                        apart=shelf.apart,
                    )

    def _helps(self, game: Game, case: str, panel: FlatPanel, edge: EdgeReport) -> Iterator[Help]:
        """Yield what makes one title read from farther, best first."""
        text = " ".join(edge.lines) if game.accepted.title else game.title
        style, font = self._titler.style(case, panel, text), self._titler.fonts.font
        free = propose_title(text, panel.reading, font, style)
        if free.reads_at > edge.reads_at:
            yield _help(Remedy("Set it as large as it can be", free), style.distance)
        seen_case = False
        others = {} if game.labels else self._others(case)
        for one in remedies(text, panel.reading, font, style, others):
            another_case = one.words.startswith(ANOTHER_CASE)
            if (another_case and seen_case) or one.setting.reads_at < edge.reads_at:
                continue
            seen_case = seen_case or another_case
            steps = one.setting.steps
            if not steps or self._titler.is_free(Abridged(steps[-1].after, steps)):
                yield _help(one, style.distance)

    def _others(self, case: str) -> dict[str, Size]:
        """Return the highest edge of each other kind that takes a cartridge, by its name."""
        found = {}
        for kind in self._kinds.values():
            passed = kind.id == case or kind.id in LABEL_KINDS.values()
            edges = () if passed else tuple(edges_of(self._casing.net(kind.id)))
            if edges:
                found[kind.name] = max((panel.reading for panel in edges), key=lambda s: s.height)
        return found


def _help(remedy: Remedy, distance: float) -> Help:
    return Help(
        words=remedy.words,
        reads_at=remedy.setting.reads_at,
        reaches=remedy.reaches(distance),
    )


def _other_font(games: int) -> tuple[str, ...]:
    """Return what to say of games whose accepted titles are in another font than the setup's."""
    if not games:
        return ()
    which = "1 accepted title is" if games == 1 else f"The accepted titles of {games} games are"
    return (f"{which} in another font than the setup says. Reopen to set anew.",)
