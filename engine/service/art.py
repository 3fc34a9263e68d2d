"""The finer choices of how a game's art lies: crop, trim, spine, turn, matte, pattern, ink."""

from __future__ import annotations

from collections.abc import Callable
from itertools import dropwhile
from typing import TypeVar

import msgspec

from engine import artwork
from engine.artwork.adjusting import PictureSide
from engine.model import Art, Fit, InkMode, Matte, Pattern, Picture, Trim
from engine.model.errors import RefusedError
from engine.service.designs import Designs
from engine.service.session import Session
from engine.state import Proposal

T = TypeVar("T")

ROUNDING = 4
"""Decimals kept of fractions that a person moves step by step."""


class Arts:
    """Each is the person's own decision: it takes the art as accepted."""

    def __init__(self, session: Session, designs: Designs) -> None:
        """Work in ``session``, through ``designs``."""
        self._session = session
        self._designs = designs

    def next_fit(self, game: str) -> Proposal:
        """Fit the art in the way after the present one, least loss first, plain last."""
        with self._session.lock:
            present, ways = self._designs.proposal(game).design.art, self._ways(game)
            looks, now = [_look(art) for art in ways], _look(present)
            place = looks.index(now) if now in looks else -1
            return self._designs.change_art(game, ways[(place + 1) % len(ways)])

    def move_crop(self, game: str, right: float, down: float) -> Proposal:
        """Move what is kept in sight of a picture, by fractions of it; it is cropped then."""

        def move(art: Art) -> Art:
            return artwork.move_focus(msgspec.structs.replace(art, fit=Fit.FILL), right, down)

        return self._adjust(game, move)

    def move_trim(self, game: str, side: PictureSide, by: float) -> Proposal:
        """Trim one side of the picture further in, by a fraction of the picture."""
        return self._adjust(game, lambda art: artwork.move_trim(art, side, by))

    def trims(self, game: str) -> tuple[Trim, ...]:
        """Return the trims that were found for a game's picture, none at all among them."""
        with self._session.lock:
            picture = self._picture_of(game)
            return tuple(dict.fromkeys((picture.trim, *picture.bars, Trim())))

    def next_trim(self, game: str) -> Proposal:
        """Take the next of the trims that were found: the border, each bar, nothing."""
        with self._session.lock:
            found = self.trims(game)
            return self._adjust(
                game, lambda art: msgspec.structs.replace(art, trim=_after(found, art.trim))
            )

    def move_split(self, game: str, begins: float = 0.0, ends: float = 0.0) -> Proposal:
        """Move where the spine of a flat cover begins and ends, by fractions of its width.

        A picture that was taken whole is split where a spine usually is.
        """
        return self._adjust(game, lambda art: artwork.move_split(art, begins, ends))

    def split_or_join(self, game: str) -> Proposal:
        """Split a picture into back, spine and front where that was found, or take it whole."""
        with self._session.lock:
            found = self._picture_of(game).split

            def change(art: Art) -> Art:
                if art.split is not None:
                    return artwork.join(art)
                if found is None:
                    return artwork.move_split(art)
                return msgspec.structs.replace(art, split=found)

            return self._adjust(game, change)

    def turn(self, game: str, degrees: float) -> Proposal:
        """Turn the picture further, in degrees counter-clockwise."""
        return self._adjust(game, lambda art: artwork.turn_by(art, degrees))

    def next_matte(self, game: str) -> Proposal:
        """Lay the next matte around a picture, which is shown whole if it was not."""

        def change(art: Art) -> Art:
            if art.fit not in {Fit.MATTE, Fit.PIXELS}:
                return msgspec.structs.replace(art, fit=Fit.MATTE)
            return msgspec.structs.replace(art, matte=_after(tuple(Matte), art.matte))

        return self._adjust(game, change)

    def choose_pattern(self, game: str, pattern: Pattern) -> Proposal:
        """Use no picture, but a pattern, or the title set large."""
        with self._session.lock:
            found = self._session.snapshot.game(game)
            others = self._designs.proposal(found.id).design.art.others
            if pattern is not Pattern.TITLE:
                return self._designs.change_art(found.id, Art(pattern=pattern, others=others))
            stand_ins = self._session.snapshot.proposer.titler.fonts.large(found.title)
            art = Art(pattern=pattern, words=found.title, stand_ins=stand_ins, others=others)
            return self._designs.change_art(found.id, art)

    def next_pattern(self, game: str) -> Proposal:
        """Use no picture, but the next pattern after the present one."""
        with self._session.lock:
            art = self._designs.proposal(game).design.art
            present = art.pattern if art.picture is None else tuple(Pattern)[-1]
            return self.choose_pattern(game, _after(tuple(Pattern), present))

    def next_ink(self, game: str) -> Proposal:
        """Print a game in the next ink mode."""
        with self._session.lock:
            present = self._designs.proposal(game)
            mode = _after(tuple(InkMode), present.design.ink)
            return self._designs.change_ink([present.game], mode)[0]

    def _ways(self, game: str) -> tuple[Art, ...]:
        found = self._session.snapshot.proposer.fittings(self._session.snapshot.game(game))
        return tuple(fitting.art for fitting in found)

    def _adjust(self, game: str, change: Callable[[Art], Art]) -> Proposal:
        """Change the art of a game that shows a picture; nothing is done where nothing moves.

        Raises RefusedError for one that shows none.
        """
        with self._session.lock:
            self._picture_of(game)
            present = self._designs.proposal(game)
            art = _rounded(change(present.design.art))
            return self._designs.change_art(game, art) if art != present.design.art else present

    def _picture_of(self, game: str) -> Picture:
        present = self._designs.proposal(game)
        picture = self._session.snapshot.pictures.get(present.design.art.picture or "")
        if picture is None:
            raise RefusedError(present.title, "shows no picture", "Choose one first")
        return picture


def _look(art: Art) -> tuple[str | None, Fit | None, bool]:
    """Return what tells a way to lay art apart from the others."""
    return art.picture, art.fit if art.picture else None, bool(art.band)


def _after(choices: tuple[T, ...], present: T) -> T:
    """Return the choice after the present one, going round; the first after a stranger."""
    following = tuple(dropwhile(lambda choice: choice != present, choices))
    return following[1] if len(following) > 1 else choices[0]


def _rounded(art: Art) -> Art:
    """Return the art without the dust of floating point from many small steps."""
    return msgspec.structs.replace(
        art,
        focus=(round(art.focus[0], ROUNDING), round(art.focus[1], ROUNDING)),
        trim=Trim(*(round(side, ROUNDING) for side in art.trim)),
        split=(round(art.split[0], ROUNDING), round(art.split[1], ROUNDING)) if art.split else None,
    )
