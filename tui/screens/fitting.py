"""The keys that fit art, on the Bench and in the dialog in which art is worked on."""

from __future__ import annotations

from collections.abc import Callable

from engine import CROP_STEP, Proposal, Workshop

ArtChange = Callable[[Workshop, str], Proposal]
"""A change to the art of one game."""


class FittingKeys:
    """Screens and dialogs with the art of one game on them."""

    def change_it(self, change: ArtChange) -> None:
        """Make a change to the game."""
        raise NotImplementedError

    def action_change_art(self) -> None:
        """Fit the art in the next way."""
        self.change_it(lambda workshop, game: workshop.art.next_fit(game))

    def action_crop_left(self) -> None:
        """Keep more of the left."""
        self._move_crop(-CROP_STEP, 0)

    def action_crop_right(self) -> None:
        """Keep more of the right."""
        self._move_crop(CROP_STEP, 0)

    def action_crop_up(self) -> None:
        """Keep more of the head."""
        self._move_crop(0, -CROP_STEP)

    def action_crop_down(self) -> None:
        """Keep more of the foot."""
        self._move_crop(0, CROP_STEP)

    def _move_crop(self, right: float, down: float) -> None:
        self.change_it(lambda workshop, game: workshop.art.move_crop(game, right, down))
