"""What is done with the collection as a whole, over whatever screen is in sight."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from textual.app import App

from engine import Cancel, DividersReport, Found, Health, InkSummary, Workshop
from tui.actions import SHELF
from tui.roomwords import divider_lines, ink_lines, place_words
from tui.screens.base import View, WorkScreen
from tui.screens.choosers import Search
from tui.screens.dialogs import Confirm, Report
from tui.screens.rooms import Rooms
from tui.screens.shelf import ShelfScreen
from tui.screens.supplies import Supplies
from tui.screens.writing import Writing
from tui.widgets.table import Column, Row
from tui.words import health_lines
from tui.work import Work

WHOLE = "whole"
"""The group of the work that reads for these dialogs."""


class WholeKeys(App[None]):
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

        def find(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            self.work.fetch(
                self,
                lambda workshop: workshop.room.where(words) if words.strip() else (),
                lambda found: then([_where(one) for one in found]),
                group=WHOLE,
            )

        columns = (Column("game", 20), Column("place"), Column("edge", 7))
        search = Search("Where", columns, find)
        search.add_class("-broad")
        self.push_screen(search, self._look_at)

    def _look_at(self, game: str | None) -> None:
        if game is not None:
            self.run_worker(self._go_to(game), group=WHOLE)

    async def _go_to(self, game: str) -> None:
        await self.switch_mode(SHELF)
        if isinstance(self.work_screen, ShelfScreen):
            self.work_screen.go_to(game)

    def action_room(self) -> None:
        """Describe shelves, drawers and boxes, and settle what goes where."""
        Rooms(self, self.work).open()

    def action_labels(self) -> None:
        """Add dividers and shelf labels."""
        self.work.fetch(
            self, lambda workshop: workshop.dividers.report(), self._ask_labels, group=WHOLE
        )

    def _ask_labels(self, report: DividersReport) -> None:
        lines = divider_lines(report, "Enter adds them")
        if not report.wanted:
            self.push_screen(Report("Dividers and labels", lines))
            return

        def add(added: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if added:
                self.work.change(
                    lambda workshop: workshop.dividers.add(),
                    lambda later: self.push_screen(
                        Report("Dividers and labels", divider_lines(later), wide=True)
                    ),
                )

        self.push_screen(Confirm("Dividers and labels", lines, "Add"), add)

    def action_supplies(self) -> None:
        """See what is still needed, and note what is in the house."""
        Supplies(self, self.work).open()

    def action_ink_use(self) -> None:
        """See how much ink the game and all sheets take."""
        game = self.work_screen.current_game
        self.work.long_fetch(
            self,
            partial(ink_of, [game] if game else []),
            lambda summary: self.push_screen(Report("Ink", ink_lines(summary), wide=True)),
            group=WHOLE,
            words="Measuring",
        )

    # --- files -------------------------------------------------------------------------

    def action_index_file(self) -> None:
        """Write the index."""
        Writing(self, self.work).index()

    def action_shelf_file(self) -> None:
        """Write the picture of the shelf."""
        Writing(self, self.work).shelf()

    def action_proof_file(self) -> None:
        """Write the picture of the game's insert."""
        Writing(self, self.work).proof(self.work_screen.current_game)

    def action_net_file(self) -> None:
        """Write the net of a case kind."""
        Writing(self, self.work).net()

    def action_export(self) -> None:
        """Write the collection out."""
        Writing(self, self.work).export()

    # --- health, and going back --------------------------------------------------------

    def action_health(self) -> None:
        """See whether all is well with the collection's folder, and mend what can be."""
        self.work.fetch(self, lambda workshop: workshop.check(), self._show_health, group="health")

    def _show_health(self, health: Health) -> None:
        lines = health_lines(health, "Enter, after a backup")
        if self.work.read_only or not any(one.mends for one in health.findings):
            self.push_screen(Report("Health", lines))
            return

        def mend(mended: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if mended:
                self.work.change(
                    lambda workshop: workshop.mend(), self._show_health, words="Mending"
                )

        self.push_screen(Confirm("Health", lines, "Mend"), mend)


def _where(one: Found) -> Row:
    return Row(one.game, (one.title, place_words(one), one.hue), patch=one.colour)


def ink_of(games: Sequence[str], workshop: Workshop, cancel: Cancel) -> InkSummary:  # noqa: ARG001  the engine asks no one
    """Return the ink of some games, of every sheet, and of what lies on them."""
    found = workshop.sheets.report()
    return workshop.ink.report(games, (*found.ready, *found.open, *found.pressed))
