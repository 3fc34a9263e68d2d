"""Dialogs about the collection as a whole, over whatever screen is in sight."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from textual.app import App

from engine import Cancel, DividersReport, Found, Health, InkSummary, Workshop
from tui.roomwords import divider_lines, ink_lines, place_words
from tui.screens.choosers import Search
from tui.screens.dialogs import Confirm, Report
from tui.widgets.table import Column, Row
from tui.words import health_lines
from tui.work import Work

WHOLE = "whole"
"""The group of the work that reads for these dialogs."""


class WholeWork:
    """Finds games, adds labels, weighs ink, and looks after the folder."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work

    def find(self, then: Callable[[str | None], None]) -> None:
        """Find a game's place, and give the game to ``then``."""

        def find(words: str, found: Callable[[Sequence[Row]], None]) -> None:
            self._work.fetch(
                self._app,
                lambda workshop: workshop.room.where(words) if words.strip() else (),
                lambda places: found([_where(one) for one in places]),
                group=WHOLE,
            )

        columns = (Column("game", 20), Column("place"), Column("edge", 7))
        search = Search("Where", columns, find)
        search.add_class("-broad")
        self._app.push_screen(search, then)

    def add_labels(self) -> None:
        """Add dividers and shelf labels."""
        self._work.fetch(
            self._app, lambda workshop: workshop.dividers.report(), self._ask_labels, group=WHOLE
        )

    def weigh_ink(self, game: str) -> None:
        """Show how much ink a game, if one is named, and all sheets take."""
        self._work.long_fetch(
            self._app,
            partial(ink_of, [game] if game else []),
            lambda summary: self._app.push_screen(Report("Ink", ink_lines(summary), wide=True)),
            group=WHOLE,
            words="Measuring",
        )

    def look_after(self) -> None:
        """See whether all is well with the collection's folder, and mend what can be."""
        self._work.fetch(
            self._app, lambda workshop: workshop.check(), self._show_health, group="health"
        )

    def _ask_labels(self, report: DividersReport) -> None:
        lines = divider_lines(report, "Enter adds them")
        if not report.wanted:
            self._app.push_screen(Report("Dividers and labels", lines))
            return

        def add(added: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if added:
                self._work.change(
                    lambda workshop: workshop.dividers.add(),
                    lambda later: self._app.push_screen(
                        Report("Dividers and labels", divider_lines(later), wide=True)
                    ),
                )

        self._app.push_screen(Confirm("Dividers and labels", lines, "Add"), add)

    def _show_health(self, health: Health) -> None:
        lines = health_lines(health, "Enter, after a backup")
        if self._work.read_only or not any(one.mends for one in health.findings):
            self._app.push_screen(Report("Health", lines))
            return

        def mend(mended: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if mended:
                self._work.change(
                    lambda workshop: workshop.mend(), self._show_health, words="Mending"
                )

        self._app.push_screen(Confirm("Health", lines, "Mend"), mend)


def _where(one: Found) -> Row:
    return Row(one.game, (one.title, place_words(one), one.hue), patch=one.colour)


def ink_of(games: Sequence[str], workshop: Workshop, cancel: Cancel) -> InkSummary:  # noqa: ARG001  the engine asks no one
    """Return the ink of some games, of every sheet, and of what lies on them."""
    found = workshop.sheets.report()
    return workshop.ink.report(games, (*found.ready, *found.open, *found.pressed))
