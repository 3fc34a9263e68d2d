"""The check page: write it, type what was measured on it, see that all is true now."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from textual.app import App

from engine import CHECKED, CHECKED_ON_BACK, CheckFigures, CheckReport, Workshop, figure
from tui.screens.choosers import Pick
from tui.screens.dialogs import Confirm, Report
from tui.screens.forms import Form, FormLine, Outcome, Typed
from tui.widgets.table import Column, Row
from tui.work import Ended, Then, Work, nothing

CHECK = "check"
"""The group of the work on check pages."""

CHOICES = {
    "write": ("Write the page", "Print it at 100 %, as sheets are, and measure with a steel rule."),
    "duplex": ("Write it with a back", "For a printer that prints both sides: how they meet."),
    "measured": ("Type what was measured", "It is undone on every page from then on."),
    "corrected": ("Write it corrected", "Every length is to be as the page says it is."),
    "forget": ("Forget what was measured", "Pages come as the printer prints them again."),
}
"""What can be done, each with what comes of it."""


class CheckPages:
    """Asks what is to be done with the check page, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work

    def open(self, then: Then = nothing) -> None:
        """Show what can be done; ``then`` hears whether anything was done."""
        self._work.fetch(
            self._app,
            lambda workshop: workshop.printers.report(),
            partial(self._show, then),
            group=CHECK,
            failed=partial(then, Ended.LEFT),
        )

    def _show(self, then: Then, report: CheckReport) -> None:
        measured = report.calibration is not None
        rows = [
            Row(key, (label,))
            for key, (label, _) in CHOICES.items()
            if measured or key not in {"corrected", "forget"}
        ]
        known = f"\n{report.calibration.words}." if report.calibration else ""
        about = {key: f"{words}{known}" for key, (_, words) in CHOICES.items()}
        pick = Pick(f"Check page: {report.stock}", (Column(""),), rows, about=about)
        self._app.push_screen(pick, partial(self._chosen, then, report))

    def _chosen(self, then: Then, report: CheckReport, what: str | None) -> None:
        if what is None:
            then(Ended.LEFT)
        elif what == "measured":
            self._ask(then, report)
        elif what == "forget":
            self._change(then, lambda workshop: workshop.printers.forget())
        else:
            duplex, corrected = what == "duplex", what == "corrected"
            self._work.change(
                lambda workshop: workshop.printers.check_page(duplex=duplex, corrected=corrected),
                partial(self._written, then, what),
                failed=partial(then, Ended.LEFT),
                words="Drawing",
            )

    def _change(self, then: Then, do: Callable[[Workshop], CheckReport]) -> None:
        def done(report: CheckReport) -> None:
            known = report.calibration
            said = f"{known.words}. It is undone from now on." if known else "Nothing is undone."
            self._app.notify(said, title="Check page", markup=False)
            then(Ended.DONE)

        self._work.change(do, done, failed=partial(then, Ended.LEFT))

    def _written(self, then: Then, what: str, report: CheckReport) -> None:
        lines = [f"{report.file}", CHOICES[what][1], ""]
        for name, said in CHECKED.items():
            if what != "corrected" and (what == "duplex" or name not in CHECKED_ON_BACK):
                lines.append(said + to_be(report, name))
        self._app.push_screen(
            Report("The check page is written", lines), lambda _: then(Ended.DONE)
        )

    def _ask(self, then: Then, report: CheckReport) -> None:
        fields = [FormLine(name, said + to_be(report, name)) for name, said in CHECKED.items()]
        words = "In mm. What only a back has may stay empty."
        form = Form[CheckFigures]("Measured on the check page", fields, read_figures, words=words)

        def typed(figures: CheckFigures | None) -> None:
            if figures is None:
                then(Ended.LEFT)
                return
            self._work.fetch(
                self._app,
                lambda workshop: workshop.printers.doubts(figures),
                partial(self._confirm, then, figures),
                group=CHECK,
                failed=partial(then, Ended.LEFT),
            )

        self._app.push_screen(form, typed)

    def _confirm(self, then: Then, figures: CheckFigures, doubts: Mapping[str, str]) -> None:
        """Keep the figures; those that are doubted once the person has heard why."""

        def keep(anyway: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if anyway:
                self._change(then, lambda shop: shop.printers.measured(figures, anyway=True))
            else:
                then(Ended.LEFT)

        if doubts:
            self._app.push_screen(Confirm("Doubtful", tuple(doubts.values()), "Keep them"), keep)
        else:
            keep(anyway=True)


def to_be(report: CheckReport, name: str) -> str:
    """Return what a figure would be on a true printer: ' (190.0)'."""
    true = getattr(report.true, name)
    return f" ({true:.1f})" if true else ""


def read_figures(typed: Typed) -> Outcome[CheckFigures]:
    """Return what was measured, or what is wrong with what was typed."""
    figures: dict[str, float] = {}
    for name, said in CHECKED.items():
        value = figure(typed[name]) if typed[name] else None
        if typed[name] and value is None:
            return Outcome(None, f"{said}: {typed[name]} is no length in mm.")
        if value is None and name not in CHECKED_ON_BACK:
            return Outcome(None, f"{said}: give it.")
        if value is not None:
            figures[name] = value
    return Outcome(CheckFigures(**figures))
