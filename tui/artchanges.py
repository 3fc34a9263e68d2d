"""The changes to the art of a game, by the actions that make them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from engine import CROP_STEP, TURN_STEP, Art, Proposal, Trim, Workshop

SIDES = Trim._fields
SPINE = ("spine begins", "spine ends")
LINES = (*SIDES, *SPINE)
"""What can be moved, one at a time: a trimmed side, or where the spine begins or ends."""

ArtChange = Callable[[Workshop, str], Proposal]
"""A change to one game."""


def cropped(right: float, down: float) -> ArtChange:
    """Return what keeps more of a side in sight, by fractions of the picture."""
    return lambda workshop, game: workshop.art.move_crop(game, right, down)


def turned(degrees: float) -> ArtChange:
    """Return what turns the picture further, counter-clockwise."""
    return lambda workshop, game: workshop.art.turn(game, degrees)


def moved(line: str, by: float) -> ArtChange:
    """Return what moves a line of ``LINES`` by a fraction of the picture."""
    match line:
        case "spine begins":
            return lambda workshop, game: workshop.art.move_split(game, begins=by)
        case "spine ends":
            return lambda workshop, game: workshop.art.move_split(game, ends=by)
        case "left" | "top" | "right" | "bottom":
            return lambda workshop, game: workshop.art.move_trim(game, line, by)
    raise KeyError(line)


CHANGES: Mapping[str, ArtChange] = {
    "change_art": lambda workshop, game: workshop.art.next_fit(game),
    "crop_left": cropped(-CROP_STEP, 0),
    "crop_right": cropped(CROP_STEP, 0),
    "crop_up": cropped(0, -CROP_STEP),
    "crop_down": cropped(0, CROP_STEP),
    "go_plain": lambda workshop, game: workshop.designs.change_art(game, Art()),
    "next_trim": lambda workshop, game: workshop.art.next_trim(game),
    "split": lambda workshop, game: workshop.art.split_or_join(game),
    "turn_left": turned(TURN_STEP),
    "turn_right": turned(-TURN_STEP),
    "next_matte": lambda workshop, game: workshop.art.next_matte(game),
    "next_pattern": lambda workshop, game: workshop.art.next_pattern(game),
    "next_ink": lambda workshop, game: workshop.art.next_ink(game),
}
"""Those that take nothing but the game."""
