"""A whole design for a game: what was accepted stands, everything else is proposed."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from zlib import crc32

import msgspec

from engine import artwork
from engine.artwork import Fitting, Surface, Wanted
from engine.cases import FlatNet, FlatPanel, Role
from engine.cases.casing import Casing
from engine.colours import contrast
from engine.colours.colouring import Colouring
from engine.lettering.titler import Titler
from engine.model import (
    Art,
    Decision,
    Design,
    EdgeTitle,
    Game,
    Loss,
    Match,
    Pattern,
    Picture,
)
from engine.model.settings import Settings
from engine.model.stages import Standing
from engine.state.beside import Beside, OwnPictures, with_others
from engine.state.proposal import ArtReport, PanelReport, Proposal

PLAIN = Fitting(art=Art(), loss=Loss(), ppi=0.0, words="plain, no picture")

NO_ART_PANEL = Fitting(art=Art(), loss=Loss(), ppi=0.0, words="no panel for art")


class Proposer:
    """Proposes designs for one state of the collection. It reads no file."""

    def __init__(
        self, casing: Casing, settings: Settings, pictures: Mapping[str, Picture], titler: Titler
    ) -> None:
        """Propose with these case kinds, settings and pictures, titles as ``titler`` does."""
        self.casing = casing
        self.titler = titler
        self._settings = settings
        self._pictures = pictures

    def fittings(self, game: Game, picture: str = "") -> tuple[Fitting, ...]:
        """Return the ways to fit the game's picture, or another, least loss first, plain last."""
        name, net = picture or self._picture_name(game), self.casing.net_of(game)
        wanted = self._wanted(game, net, name)
        if wanted is None:
            return (PLAIN,)
        found = artwork.fittings(self._pictures[name], wanted) if name else (self._lettered(game),)
        return tuple(self._whole(one, game, net)[0] for one in (*found, PLAIN))

    def shown_anew(self, game: Game, panel: str) -> Art | None:
        """Return accepted art with what the game's own pictures now give one panel besides."""
        art, net = game.accepted.art, self.casing.net_of(game)
        if art is None:
            return None
        proposed = with_others(PLAIN, self._own(game, net).proposed(art)).art.others
        others = (
            *(one for one in art.others if one.panel != panel),
            *(one for one in proposed if one.panel == panel),
        )
        changed = msgspec.structs.replace(art, others=others)
        says = art.back or not any(_is_bare(one, changed) for one in net.art[1:])
        return changed if says else self._worded(changed, game, net)

    def propose(self, game: Game, standing: Standing, colouring: Colouring) -> Proposal:
        """Return the design of a game as it would be printed now, with reasons to doubt it."""
        net = self.casing.net_of(game)
        fitting, beside, art_doubts = self._art(game, net)
        own = game.accepted.colours is not None and not game.accepted.colours_by
        colours = game.accepted.colours or colouring.proposed(
            game, self._coloured_by(game, fitting)
        )
        title = self.titler.titled(game, net)
        accepted = taken(game)
        doubts = (
            *filter(None, [self.casing.lacks_room(net)]),
            *(art_doubts if Decision.ART not in accepted else ()),
            *(title.doubts if Decision.TITLE not in accepted else ()),
        )
        shown = self._pictures.get(fitting.art.picture or "")
        return Proposal(
            game=game.id,
            title=game.title,
            case=net.kind,
            stage=standing.stage,
            sure=not doubts,
            doubts=doubts,
            accepted=accepted,
            design=Design(
                case=net.kind,
                art=fitting.art,
                colours=colours,
                title=title.titles,
                left_out=tuple(sorted(self.casing.left_out(game))),
                ink=game.accepted.ink,
            ),
            art=ArtReport(
                source=shown.source if shown else None,
                confidence=self._confidence(game, fitting.art),
                chance=fitting.chance,
                match=self._reason(game, fitting.art),
                fit=fitting.art.fit,
                loss=fitting.loss,
                ppi=fitting.ppi,
                words=fitting.words,
                warnings=fitting.warnings,
                trim=fitting.art.trim,
                split=fitting.art.split,
                others=tuple(self._panel_report(one) for one in beside if one.fitting.art.picture),
            ),
            contrast=contrast(colours.base, colours.text),
            edges=title.edges,
            group="" if own else colouring.group_of(game),
        )

    def art_is_sure(self, game: Game) -> bool:
        """Return whether a game's art was accepted or its picture found above the threshold."""
        if game.accepted.art is not None:
            return True
        match = self.casing.main_picture(game)
        return match is not None and match.confidence >= self._settings.threshold

    def is_pictured(self, game: Game) -> bool:
        """Return whether a game has a picture that is still in the collection."""
        if game.accepted.art is not None and game.accepted.art.picture is None:
            return False
        return self._picture_name(game) is not None

    def set_title(self, game: Game, lines: tuple[str, ...]) -> tuple[EdgeTitle, ...]:
        """Return these lines set as large as they can be on each edge of the game's case."""
        return self.titler.worded(game, self.casing.net_of(game), lines)

    def _picture_name(self, game: Game) -> str | None:
        """Return the picture a game would use, if it is still in the collection."""
        art, match = game.accepted.art, self.casing.main_picture(game)
        for name in (art.picture if art else None, match.picture if match else None):
            if name is not None and name in self._pictures:
                return name
        return None

    def _coloured_by(self, game: Game, fitting: Fitting) -> str | None:
        """Return the picture that gives a game its colour: one that no panel shows does, too."""
        return self._picture_name(game) if fitting is NO_ART_PANEL else fitting.art.picture

    def _art(self, game: Game, net: FlatNet) -> tuple[Fitting, tuple[Beside, ...], tuple[str, ...]]:
        """Return how the art lies, what the other panels show, and why all that may be wrong."""
        art, name = game.accepted.art, self._picture_name(game)
        wanted = self._wanted(game, net, name)
        if wanted is None:
            return NO_ART_PANEL, (), ()
        if art is not None:
            art = self._without_gone(art)
            picture = self._pictures.get(art.picture or "")
            found = artwork.judge(picture, art, *wanted.surface) if picture else unpictured(art)
            return found, self._own(game, net).accepted(art), ()
        if name is None:
            fitting, beside = self._whole(self._lettered(game), game, net)
            doubt = "No picture was found. Choose one, or accept its title set large."
            return fitting, beside, (doubt, *self._strangers(beside), *fitting.doubts)
        picture = self._pictures[name]
        fitting, beside = self._whole(artwork.fittings(picture, wanted)[0], game, net)
        doubts = (*self._strangers(beside), *fitting.doubts)
        if not self.art_is_sure(game):
            doubts = (f"{doubted(picture, self.casing.main_picture(game))}.", *doubts)
        return fitting, beside, doubts

    def _own(self, game: Game, net: FlatNet) -> OwnPictures:
        return OwnPictures(game, net, self.casing.art_panels(game), self._pictures)

    def _wanted(self, game: Game, net: FlatNet, name: str | None) -> Wanted | None:
        """Return what the main picture is fitted for, the panels left out that take another."""
        taken = self._own(game, net).takers(name) if name else frozenset()
        return wanted_of(game, net, taken)

    def _whole(
        self, fitting: Fitting, game: Game, net: FlatNet
    ) -> tuple[Fitting, tuple[Beside, ...]]:
        """Return a fitting of the main panel with what the others show, and say, and the former.

        What a person accepted on the others stays.
        """
        own, accepted = self._own(game, net), game.accepted.art
        if accepted is None:
            beside = own.proposed(fitting.art)
            whole = with_others(fitting, beside)
        else:
            art = msgspec.structs.replace(fitting.art, others=accepted.others)
            beside, whole = own.accepted(art), msgspec.structs.replace(fitting, art=art)
        if fitting.art.picture is None:
            return whole, beside
        return msgspec.structs.replace(whole, art=self._worded(whole.art, game, net)), beside

    def _without_gone(self, art: Art) -> Art:
        """Return art whose other panels show no picture that is no longer in the collection."""
        kept = tuple(
            one
            for one in art.others
            if one.art.picture is None or one.art.picture in self._pictures
        )
        return art if kept == art.others else msgspec.structs.replace(art, others=kept)

    def _strangers(self, beside: tuple[Beside, ...]) -> tuple[str, ...]:
        """Return for which panels it is not sure that their pictures are the game's."""
        return tuple(
            f"{doubted(self._pictures[one.match.picture], one.match)}."
            for one in beside
            if one.match is not None and one.match.confidence < self._settings.threshold
        )

    def _panel_report(self, beside: Beside) -> PanelReport:
        fitting, match = beside.fitting, beside.match
        return PanelReport(
            panel=beside.panel,
            source=self._pictures[fitting.art.picture or ""].source,
            confidence=match.confidence if match else 1.0,
            chance=fitting.chance,
            fit=fitting.art.fit,
            loss=fitting.loss,
            ppi=fitting.ppi,
            words=fitting.words,
            trim=fitting.art.trim,
            split=fitting.art.split,
            warnings=fitting.warnings,
        )

    def _lettered(self, game: Game) -> Fitting:
        """Return the title set large over a pattern: art where there is no picture."""
        words = (game.title, *said_of(game))
        art = Art(
            pattern=pattern_of(game),
            words=game.title,
            lines=said_of(game),
            back=back_of(game),
            stand_ins=self.titler.fonts.large(" ".join((*words, *back_of(game)))),
        )
        return unpictured(art)

    def _worded(self, art: Art, game: Game, net: FlatNet) -> Art:
        """Return art with what a back without a picture says, and the fonts for its words."""
        back = back_of(game) if any(_is_bare(panel, art) for panel in net.art[1:]) else ()
        words = " ".join((art.words, *art.lines, *back))
        if not words.strip():
            return art
        return msgspec.structs.replace(
            art,
            back=back,
            pattern=pattern_of(game) if back and art.picture else art.pattern,
            stand_ins=self.titler.fonts.large(words),
        )

    def _reason(self, game: Game, art: Art) -> str:
        """Return what speaks for the art's picture being this game's, where it was found."""
        match = self.casing.main_picture(game)
        if game.accepted.art is not None or match is None or art.picture != match.picture:
            return ""
        return match.words

    def _confidence(self, game: Game, art: Art) -> float:
        """Return how sure it is that the art is this game's; what the person chose is certain."""
        if game.accepted.art is not None:
            return 1.0
        match = self.casing.main_picture(game)
        return match.confidence if match and art.picture is not None else 0.0


def doubted(picture: Picture, match: Match | None) -> str:
    """Return how sure it is that a picture is its game's, and what speaks for it."""
    sure, words = (match.confidence, match.words) if match else (0.0, "")
    said = f"That {picture.source} is its picture is only {sure:.0%} sure"
    return f"{said}: {words}" if words else said


def wanted_of(game: Game, net: FlatNet, taken: Collection[str] = ()) -> Wanted | None:
    """Return what a picture of a game is fitted for on a net; None for a net without art.

    The panels of ``taken`` show another picture.
    """
    art = net.art
    if not art:
        return None
    main, *others = art
    return Wanted(
        surface=Surface(main.reading, main.part),
        beside=tuple(
            Surface(panel.reading, panel.part)
            for panel in others
            if panel.part and panel.name not in taken
        ),
        title=game.title,
        lines=said_of(game),
        titled=any(panel.role is Role.EDGE for panel in net.panels),
    )


def _is_bare(panel: FlatPanel, art: Art) -> bool:
    """Return whether a panel besides the main one shows no picture."""
    own = art.on(panel.name)
    return own.picture is None if own else art.split is None or not panel.part


def said_of(game: Game) -> tuple[str, ...]:
    """Return what is said of a game below its title: series, maker, year."""
    return tuple(filter(None, (game.series, game.maker, game.year)))


def back_of(game: Game) -> tuple[str, ...]:
    """Return what a back says that shows no picture: title, series, maker, year, notes."""
    return (game.title, *said_of(game), *filter(None, (game.notes,)))


def pattern_of(game: Game) -> Pattern:
    """Return the pattern behind a game's words, one for each series."""
    patterns = (Pattern.WAVES, Pattern.STRIPES, Pattern.DOTS)
    return patterns[crc32((game.series or game.maker).encode()) % len(patterns)]


def unpictured(art: Art) -> Fitting:
    """Return how art without a picture lies, also where that is no longer in the collection."""
    words = {Pattern.PLAIN: PLAIN.words, Pattern.TITLE: "no picture, the title set large"}
    said = words.get(art.pattern, f"no picture, {art.pattern}")
    if art.words and art.pattern is not Pattern.TITLE:
        said = f"no picture, the title set large over {art.pattern}"
    return msgspec.structs.replace(
        PLAIN, art=msgspec.structs.replace(art, picture=None), words=said
    )


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
