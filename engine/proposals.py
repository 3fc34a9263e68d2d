"""A whole design for a game: what was accepted stands, everything else is proposed."""

from __future__ import annotations

from collections.abc import Mapping

from engine import artwork, cases, lettering
from engine.artwork import Fitting
from engine.cases import CaseKind, FlatNet, FlatPanel, Pose, Role, Spine
from engine.collection import Settings
from engine.errors import CaseError
from engine.reports import ArtReport, EdgeReport, Proposal
from engine.stages import Standing
from engine.values import (
    Art,
    Colours,
    Decision,
    Design,
    EdgeTitle,
    FontRef,
    Game,
    Loss,
    Picture,
    Size,
)

PLAIN_BASE = "#3d4f5c"
"""Base colour where no picture gives one: a slate on which white reads at 8.4 to 1."""

PLAIN = Fitting(art=Art(), loss=Loss(), ppi=0.0, words="plain, no picture")

DEFAULT_KIND = "snap-shell"
"""The case kind where neither the list nor the setup names one."""


class Proposer:
    """Proposes designs for one state of the collection. It reads no file."""

    def __init__(
        self, kinds: Mapping[str, CaseKind], settings: Settings, pictures: Mapping[str, Picture]
    ) -> None:
        """Propose with these case kinds, settings and pictures."""
        self._kinds = kinds
        self._settings = settings
        self._pictures = pictures
        self._nets: dict[str, FlatNet] = {}

    @property
    def font(self) -> FontRef:
        """The font that titles are set in."""
        return lettering.default_font()

    def case_of(self, game: Game) -> str:
        """Return the id of the case kind a game is in: accepted, listed, or the default."""
        wanted = (game.accepted.case, game.case, self._settings.case, DEFAULT_KIND)
        known = (kind for kind in wanted if kind is not None and kind in self._kinds)
        return next(known, next(iter(self._kinds)))

    def net(self, kind: str) -> FlatNet:
        """Return the flat net of a case kind on the stock in use.

        Raises CaseError for an unknown kind.
        """
        if kind not in self._kinds:
            raise CaseError(kind, "no such case kind", f"Kinds are {', '.join(self._kinds)}")
        if kind not in self._nets:
            s = self._settings
            self._nets[kind] = cases.flatten(
                self._kinds[kind],
                s.stock.caliper,
                pose=Pose(s.pose) if s.pose else None,
                spine=Spine(s.spine),
            )
        return self._nets[kind]

    def turns(self, kind: str) -> bool:
        """Return whether inserts of this kind may be rotated on the sheet."""
        return not self._kinds[kind].grain

    def fittings(self, game: Game) -> tuple[Fitting, ...]:
        """Return the ways to fit the game's picture, least loss first, plain last."""
        name = self._picture_name(game)
        if name is None:
            return (PLAIN,)
        panel = self.art_panel(self.case_of(game))
        found = artwork.fittings(self._pictures[name], reading_size(panel), panel.part)
        return (*found, PLAIN)

    def art_panel(self, kind: str) -> FlatPanel:
        """Return a kind's main art panel: the first of its art panels."""
        return next(panel for panel in self.net(kind).panels if panel.role is Role.ART)

    def propose(self, game: Game, standing: Standing) -> Proposal:
        """Return the design of a game as it would be printed now, with reasons to doubt it."""
        case = self.case_of(game)
        fitting, art_doubts = self._art(game, case)
        colours = game.accepted.colours or self._colours(fitting.art)
        edges, title_doubts = self._title(game, case)
        accepted = taken(game)
        doubts = (
            *self._room_on_paper(case),
            *(art_doubts if Decision.ART not in accepted else ()),
            *(title_doubts if Decision.TITLE not in accepted else ()),
        )
        picture = self._pictures.get(fitting.art.picture or "")
        return Proposal(
            game=game.id,
            title=game.title,
            case=case,
            stage=standing.stage,
            sure=not doubts,
            doubts=doubts,
            accepted=accepted,
            design=Design(
                case=case,
                art=fitting.art,
                colours=colours,
                title=tuple(EdgeTitle(panel=e.panel, lines=e.lines, size=e.size) for e in edges),
            ),
            art=ArtReport(
                source=picture.source if picture else None,
                confidence=self._confidence(game, fitting.art),
                fit=fitting.art.fit,
                loss=fitting.loss,
                ppi=fitting.ppi,
                words=fitting.words,
                warnings=fitting.warnings,
                trim=fitting.art.trim,
                split=fitting.art.split,
            ),
            contrast=artwork.contrast(colours.base, colours.text),
            edges=edges,
        )

    def art_is_sure(self, game: Game) -> bool:
        """Return whether a game's art was accepted or its picture found above the threshold."""
        if game.accepted.art is not None:
            return True
        return game.match is not None and game.match.confidence >= self._settings.threshold

    def set_title(self, game: Game, lines: tuple[str, ...]) -> tuple[EdgeTitle, ...]:
        """Return these lines set as large as they can be on each edge of the game's case."""
        edges = [p for p in self.net(self.case_of(game)).panels if p.role is Role.EDGE]
        return tuple(
            EdgeTitle(
                panel=panel.name,
                lines=lines,
                size=lettering.set_lines(lines, reading_size(panel), self.font).size,
            )
            for panel in edges
        )

    def _room_on_paper(self, case: str) -> tuple[str, ...]:
        """Return a sentence if a kind's insert does not fit the stock."""
        size, field = self.net(case).size, self._settings.forme.field
        ways = (size, size[::-1]) if self.turns(case) else (size,)
        if any(w <= field.width and h <= field.height for w, h in ways):
            return ()
        name, paper = self._kinds[case].name, self._settings.stock.name
        mend = "Set up margins your printer really has, another stock, or another case kind"
        return (f"{name}: its insert does not fit on {paper}. {mend}.",)

    def _picture_name(self, game: Game) -> str | None:
        """Return the picture a game would use, if it is still in the collection."""
        art = game.accepted.art
        for name in (art.picture if art else None, game.match.picture if game.match else None):
            if name is not None and name in self._pictures:
                return name
        return None

    def _art(self, game: Game, case: str) -> tuple[Fitting, tuple[str, ...]]:
        """Return how the art lies, and why that may be wrong."""
        panel, art = self.art_panel(case), game.accepted.art
        room = reading_size(panel)
        if art is not None:
            picture = self._pictures.get(art.picture or "")
            return (artwork.judge(picture, art, room, panel.part) if picture else PLAIN), ()
        name = self._picture_name(game)
        if name is None:
            return PLAIN, ("No picture was found. Choose one, or accept it plain.",)
        picture = self._pictures[name]
        fitting = artwork.propose_fit(picture, room, panel.part)
        doubts = () if fitting.sure else fitting.warnings
        if not self.art_is_sure(game):
            sure = game.match.confidence if game.match else 0.0
            doubts = (f"That {picture.source} is its picture is only {sure:.0%} sure.", *doubts)
        return fitting, doubts

    def _confidence(self, game: Game, art: Art) -> float:
        """Return how sure it is that the art is this game's; what the person chose is certain."""
        if game.accepted.art is not None:
            return 1.0
        if art.picture is None or game.match is None:
            return 0.0
        return game.match.confidence

    def _colours(self, art: Art) -> Colours:
        """Return the colours that a picture's side proposes, legible by WCAG 2.2."""
        picture = self._pictures.get(art.picture or "")
        base = artwork.legible(artwork.base_colour(picture)) if picture else PLAIN_BASE
        return Colours(base=base, text=artwork.ink_on(base))

    def _title(self, game: Game, case: str) -> tuple[tuple[EdgeReport, ...], tuple[str, ...]]:
        """Return how the title stands on each edge, and what is wrong with it."""
        given = {edge.panel: edge for edge in game.accepted.title or ()}
        edges: list[EdgeReport] = []
        doubts: list[str] = []
        for panel in self.net(case).panels:
            if panel.role is not Role.EDGE:
                continue
            room = reading_size(panel)
            edge = given.get(panel.name)
            setting = (
                lettering.judge(edge.lines, edge.size, room, self.font)
                if edge
                else lettering.propose_title(game.title, room, self.font)
            )
            edges.append(
                EdgeReport(
                    panel=panel.name,
                    lines=setting.lines,
                    size=setting.size,
                    cap_height=setting.cap_height,
                    reads_at=setting.reads_at,
                    turn=panel.turn,
                )
            )
            if not lettering.is_sure(setting):
                doubts.append(f"The title on {panel.name}: {', '.join(setting.notes)}.")
        return tuple(edges), tuple(doubts)


def reading_size(panel: FlatPanel) -> Size:
    """Return a panel's size as it is read: width along the reading direction."""
    width, height = panel.rect.width, panel.rect.height
    return Size(height, width) if panel.turn % 180 else Size(width, height)


def taken(game: Game) -> tuple[Decision, ...]:
    """Return the decisions the person has taken for a game, in order."""
    a = game.accepted
    values = {
        Decision.CASE: a.case,
        Decision.ART: a.art,
        Decision.COLOUR: a.colours,
        Decision.TITLE: a.title,
    }
    return tuple(decision for decision, value in values.items() if value is not None)
