"""What the panels beside the main one show: pictures of their own, or a part of the main one's."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import takewhile
from typing import NamedTuple

import msgspec

from engine import artwork
from engine.artwork import Fitting, Surface, Wanted
from engine.cases import FlatNet, FlatPanel, Panel, taking
from engine.model import Art, Game, Loss, Match, PanelArt, Picture, PictureRole, bare
from engine.model.risk import Risk


class Beside(NamedTuple):
    """What a panel beside the main one shows of its own."""

    panel: str
    fitting: Fitting
    match: Match | None
    """Whose picture it is; None where that is accepted, or where it shows none."""


class OwnPictures:
    """Chooses and fits the pictures of the panels beside the main one of a game's insert."""

    def __init__(
        self, game: Game, net: FlatNet, panels: Sequence[Panel], pictures: Mapping[str, Picture]
    ) -> None:
        """Fit to ``net``, whose art panels are ``panels``, out of ``pictures``."""
        self._game = game
        self._pictures = pictures
        by_name = {panel.name: panel for panel in panels}
        self._panels = [(by_name[panel.name], panel) for panel in net.art[1:]]

    def proposed(self, main: Art) -> tuple[Beside, ...]:
        """Return what the panels show where the main one shows ``main``.

        Those that it leaves nothing to show, or a part of a split scan, are not among them.
        """
        return tuple(self._proposed(main))

    def accepted(self, art: Art) -> tuple[Beside, ...]:
        """Return what the panels show of art whose pictures are all there."""
        return tuple(
            Beside(panel.name, self._judged(own, flat), None)
            for panel, flat in self._panels
            if (own := art.on(panel.name)) is not None
        )

    def takers(self, main: str) -> frozenset[str]:
        """Return the panels that do not show their part of ``main``, were that a split scan."""
        return frozenset(
            panel.name
            for panel, flat in self._panels
            if self._match(panel, flat, main, split=True) is not None
        )

    def _proposed(self, main: Art) -> Iterator[Beside]:
        for panel, flat in self._panels:
            split = main.split is not None
            match = self._match(panel, flat, main.picture, split=split)
            if match is None:
                continue
            if match.picture:
                yield Beside(panel.name, self._fitted(match, flat), match)
            elif split and flat.part:
                yield Beside(panel.name, self._judged(Art(), flat), None)

    def _match(
        self, panel: Panel, flat: FlatPanel, main: str | None, *, split: bool
    ) -> Match | None:
        """Return the picture of its own that a panel takes, one without a name for none at all.

        None where it takes none: a split scan gives it a part, or it says words.
        """
        shown, takes = self._game.accepted.shown.get(panel.name), taking.taken_by(panel)
        parted = split and bool(flat.part)
        if shown == "" or shown in self._pictures:
            if parted and shown == main:
                return None
            return taking.other_picture(self._game, panel.name, takes) or Match("", 1.0)
        if parted:
            takes = tuple(takewhile(lambda role: role is not PictureRole.WRAP, takes))
        return taking.other_picture(self._game, panel.name, takes, self._unfit(main))

    def _unfit(self, main: str | None) -> frozenset[str]:
        """Return the game's pictures that no panel can show besides: a wrap not parted, too."""
        return frozenset(
            one.picture
            for one in taking.pictures_of(self._game)
            if one.picture == main
            or one.picture not in self._pictures
            or (
                one.role is PictureRole.WRAP
                and not artwork.is_parted(self._pictures[one.picture], self._game.title)
            )
        )

    def _fitted(self, match: Match, flat: FlatPanel) -> Fitting:
        picture = self._pictures[match.picture]
        if match.role is not PictureRole.WRAP:
            picture = msgspec.structs.replace(picture, split=None)
        surface = Surface(flat.reading, flat.part)
        wanted = Wanted(surface, title=self._game.title, titled=True, banded=False)
        return artwork.fittings(picture, wanted)[0]

    def _judged(self, art: Art, flat: FlatPanel) -> Fitting:
        picture = self._pictures.get(art.picture or "")
        if picture is None:
            return Fitting(art, Loss(), 0.0, "words, no picture")
        return artwork.judge(picture, art, flat.reading, flat.part)


def with_others(fitting: Fitting, beside: Sequence[Beside]) -> Fitting:
    """Return a fitting of the main panel with what the others show, and what may be wrong there."""
    if not beside:
        return fitting
    others = tuple(PanelArt(one.panel, bare(one.fitting.art)) for one in beside)
    risks = [*fitting.risks, *(risk for one in beside for risk in _named(one))]
    return msgspec.structs.replace(
        fitting,
        art=msgspec.structs.replace(fitting.art, others=others),
        risks=tuple(sorted(risks, key=lambda risk: -risk.chance)),
    )


def _named(beside: Beside) -> Iterator[Risk]:
    """Yield the risks of a panel, each saying which."""
    for risk in beside.fitting.risks:
        words = f"On the panel {beside.panel}: {risk.words[0].lower()}{risk.words[1:]}"
        yield msgspec.structs.replace(risk, words=words)
