"""The titles on the edges of a game: what was accepted stands, the rest is proposed."""

from __future__ import annotations

from typing import NamedTuple

from engine import lettering
from engine.cases import FlatNet, FlatPanel, Role
from engine.lettering import Setting
from engine.reports import EdgeReport
from engine.values import EdgeTitle, FontRef, Game


class Titled(NamedTuple):
    """How a game's title stands on its edges."""

    titles: tuple[EdgeTitle, ...]
    """What its design carries."""
    edges: tuple[EdgeReport, ...]
    """The same in numbers."""
    doubts: tuple[str, ...]
    """What is wrong with it, a sentence each."""


class Titler:
    """Proposes titles for one state of the collection."""

    @property
    def font(self) -> FontRef:
        """The font that titles are set in."""
        return lettering.default_font()

    def titled(self, game: Game, net: FlatNet) -> Titled:
        """Return how a game's title stands on each edge of its net."""
        given = {edge.panel: edge for edge in game.accepted.title or ()}
        titles: list[EdgeTitle] = []
        edges: list[EdgeReport] = []
        doubts: list[str] = []
        for panel in edges_of(net):
            title = given.get(panel.name)
            setting = self._judged(title, panel) if title else self._proposed(game, panel)
            titles.append(title or _title(panel, setting))
            edges.append(_report(panel, setting))
            if not lettering.is_sure(setting):
                doubts.append(f"The title on {panel.name}: {', '.join(setting.notes)}.")
        return Titled(tuple(titles), tuple(edges), tuple(doubts))

    def worded(self, net: FlatNet, lines: tuple[str, ...]) -> tuple[EdgeTitle, ...]:
        """Return these lines set as large as they can be on each edge of a net."""
        return tuple(
            _title(panel, lettering.set_lines(lines, panel.reading, self.font))
            for panel in edges_of(net)
        )

    def _proposed(self, game: Game, panel: FlatPanel) -> Setting:
        return lettering.propose_title(game.title, panel.reading, self.font)

    def _judged(self, title: EdgeTitle, panel: FlatPanel) -> Setting:
        return lettering.judge(title.lines, title.size, panel.reading, self.font, width=title.width)


def edges_of(net: FlatNet) -> tuple[FlatPanel, ...]:
    """Return the edges of a net, in its order."""
    return tuple(panel for panel in net.panels if panel.role is Role.EDGE)


def _title(panel: FlatPanel, setting: Setting) -> EdgeTitle:
    return EdgeTitle(panel=panel.name, lines=setting.lines, size=setting.size, width=setting.width)


def _report(panel: FlatPanel, setting: Setting) -> EdgeReport:
    return EdgeReport(
        panel=panel.name,
        lines=setting.lines,
        size=setting.size,
        cap_height=setting.cap_height,
        reads_at=setting.reads_at,
        turn=panel.turn,
    )
