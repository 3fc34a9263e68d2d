"""What is done with the collection as a whole, over whatever screen is in sight."""

from __future__ import annotations

from tui import screens
from tui.actions import SHELF
from tui.onscreen import OnScreen
from tui.screens.base import View, WorkScreen
from tui.work import Work


class WholeKeys(OnScreen[None]):
    """An app whose actions are about the collection as a whole."""

    work: Work
    looked_at: str
    """The game that the screen before was at, for the one that is gone to."""

    @property
    def work_screen(self) -> WorkScreen[View]:
        """The screen in sight, or the one under the dialog in sight."""
        return next(s for s in reversed(self.screen_stack) if isinstance(s, WorkScreen))

    # --- the shelf ---------------------------------------------------------------------

    def action_where(self) -> None:
        """Find a game's place, and go to it on the Shelf."""
        screens.WholeWork(self, self.work).find(self._look_at)

    def _look_at(self, game: str | None) -> None:
        if game is not None:
            self.run_worker(self._go_to(game), group=SHELF)

    async def _go_to(self, game: str) -> None:
        await self.switch_mode(SHELF)
        if isinstance(self.work_screen, screens.ShelfScreen):
            self.work_screen.go_to(game)

    def action_room(self) -> None:
        """Describe shelves, drawers and boxes, and settle what goes where."""
        screens.Rooms(self, self.work).open()

    def action_labels(self) -> None:
        """Add dividers and shelf labels."""
        screens.WholeWork(self, self.work).add_labels()

    def action_supplies(self) -> None:
        """See what is still needed, and note what is in the house."""
        screens.Supplies(self, self.work).open()

    def action_ink_use(self) -> None:
        """See how much ink the game and all sheets take."""
        screens.WholeWork(self, self.work).weigh_ink(self.work_screen.current_game)

    # --- files -------------------------------------------------------------------------

    def action_index_file(self) -> None:
        """Write the index."""
        screens.Writing(self, self.work).index()

    def action_shelf_file(self) -> None:
        """Write the picture of the shelf."""
        screens.Writing(self, self.work).shelf()

    def action_proof_file(self) -> None:
        """Write the picture of the game's insert."""
        screens.Writing(self, self.work).proof(self.work_screen.current_game)

    def action_net_file(self) -> None:
        """Write the net of a case kind."""
        screens.Writing(self, self.work).net()

    def action_export(self) -> None:
        """Write the collection out."""
        screens.Writing(self, self.work).export()

    # --- health, and going back --------------------------------------------------------

    def action_health(self) -> None:
        """See whether all is well with the collection's folder, and mend what can be."""
        screens.WholeWork(self, self.work).look_after()
