"""Covers are read beside the person's work, and what was found is told."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import App

from engine import Cancel, ReadingReport, Workshop
from tui.actions import BY_ID
from tui.words import found_lines
from tui.work import Work


class Reading:
    """Reads the pictures that were not read, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work
        self._unread = False
        """Pictures came while others were being read."""

    def go_on(self) -> None:
        """Read the pictures that were not read."""
        self._work.go_aside(read_on, self._was_read, stopped=self._stopped, words="Reading")

    def go_on_or_stop(self) -> None:
        """Stop where pictures are being read, else go on."""
        if self._work.aside:
            self._work.stop_aside()
        else:
            self.go_on()

    def take_up(self) -> None:
        """Read the pictures just taken in; where some are being read, once that is done."""
        self._unread = bool(self._work.aside)
        if not self._unread:
            self.go_on()

    def _was_read(self, report: ReadingReport) -> None:
        if self._unread and not report.lacking:
            self._app.call_later(self.take_up)
        if report.lacking:
            self._app.notify(report.lacking, markup=False)
        elif told := (*found_lines(report), *report.notes[:3]):
            self._app.notify("\n".join(told), title="Covers read", markup=False)

    def _stopped(self) -> None:
        if self._app.is_running:
            self._app.notify(f"What was read is kept. {BY_ID['read'].shown} goes on.", markup=False)


def read_on(workshop: Workshop, tell: Callable[[str], None], cancel: Cancel) -> ReadingReport:
    """Read the pictures that were not read, and tell how many are."""

    def told(report: ReadingReport) -> None:
        tell(f"Reading {report.read} of {report.pictures}")

    return workshop.readings.read(told, cancel=cancel)
