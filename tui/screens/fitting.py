"""The keys that fit art, on the Bench and in the dialog in which art is worked on."""

from __future__ import annotations

from tui.artchanges import CHANGES, ArtChange


class FittingKeys:
    """Screens and dialogs with the art of one game on them."""

    def change_it(self, change: ArtChange) -> None:
        """Make a change to the game."""
        raise NotImplementedError

    def action_change_art(self) -> None:
        """Fit the art in the next way."""
        self.change_it(CHANGES["change_art"])

    def action_crop_left(self) -> None:
        """Keep more of the left."""
        self.change_it(CHANGES["crop_left"])

    def action_crop_right(self) -> None:
        """Keep more of the right."""
        self.change_it(CHANGES["crop_right"])

    def action_crop_up(self) -> None:
        """Keep more of the head."""
        self.change_it(CHANGES["crop_up"])

    def action_crop_down(self) -> None:
        """Keep more of the foot."""
        self.change_it(CHANGES["crop_down"])
