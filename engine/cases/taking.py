"""Which of a game's pictures each panel shows."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from engine.cases.model import Panel
from engine.model import Game, Match, PictureRole

USUAL: Mapping[str, tuple[PictureRole, ...]] = {
    "front": (
        PictureRole.FRONT,
        PictureRole.WRAP,
        PictureRole.SCREEN,
        PictureRole.CARTRIDGE,
        PictureRole.LOGO,
    ),
    "back": (PictureRole.BACK, PictureRole.WRAP, PictureRole.SCREEN),
    "spine": (PictureRole.SPINE, PictureRole.WRAP),
}
"""What a panel takes by its part; one without a part takes what a front does."""


def taken_by(panel: Panel) -> tuple[PictureRole, ...]:
    """Return the sides of a game that a panel may show, the first of them before the others."""
    return panel.takes or USUAL[panel.part or "front"]


def pictures_of(game: Game) -> tuple[Match, ...]:
    """Return all pictures that a game owns, its match first."""
    others = (Match(one.picture, one.confidence, role=one.role) for one in game.sides)
    return (*((game.match,) if game.match else ()), *others)


def main_picture(game: Game, takes: Sequence[PictureRole]) -> Match | None:
    """Return the picture that is proposed for a game's main panel.

    Its match, where none of its pictures is of a side that the panel takes: better than none.
    """
    return _first(pictures_of(game), takes) or game.match


def other_picture(
    game: Game, panel: str, takes: Sequence[PictureRole], but: Collection[str] = ()
) -> Match | None:
    """Return the picture of another panel than the main one, by name.

    That is what a person chose, or the first of the game's own that it takes, ``but`` those that
    will not do: the one that the main panel shows whole.
    """
    chosen = game.accepted.shown.get(panel)
    if chosen is not None:
        return Match(chosen, 1.0, "chosen by hand", _role(game, chosen)) if chosen else None
    return _first([one for one in pictures_of(game) if one.picture not in but], takes)


def _first(pictures: Sequence[Match], takes: Sequence[PictureRole]) -> Match | None:
    return next((one for role in takes for one in pictures if one.role is role), None)


def _role(game: Game, picture: str) -> PictureRole:
    """Return the side that a picture shows of a game, OTHER where it is not known for one."""
    known = (one.role for one in pictures_of(game) if one.picture == picture)
    return next(known, PictureRole.OTHER)
