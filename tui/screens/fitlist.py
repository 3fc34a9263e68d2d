"""The dialog in which the inserts of a settled sheet go into their cases, one after the other."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from engine import FittingReport, ToFit, Workshop
from tui.actions import BY_ID
from tui.actions.footer import FooterItem
from tui.screens.dialogs import Dialog
from tui.widgets.table import Column, Row, Table

Ask = Callable[[Callable[[Workshop], FittingReport], Callable[[FittingReport], None]], None]
"""Asks the workshop for the list, after a change or without, and hands it on."""

_TALLEST = 8
"""Rows of the list at most: what is told below it has to go on a screen of 24 lines."""


class FitList(Dialog[bool]):
    """A list of inserts to check off, with how each goes in and what to mind."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(BY_ID["undo"].key, "undo", show=False, id="undo")
    ]

    def __init__(self, number: int, read: Ask, change: Ask, *, read_only: bool = False) -> None:
        """Ask ``read`` for the list of a sheet, and ``change`` for what changes it."""
        super().__init__(f"Fit sheet {number} into its cases", "" if read_only else "Fitted")
        self._number = number
        self._read = read
        self._change = change
        self._read_only = read_only
        self._inserts: dict[str, ToFit] = {}
        self._noted = 0
        """How many were noted here: so many can be taken back here."""

    def body(self) -> ComposeResult:
        """Lay out the list, how the highlighted one goes in, and the cautions."""
        yield Table((Column("", 1), Column("", 2), Column("Insert"), Column("Case", 26)))
        with VerticalScroll():
            yield Static(id="how")
            yield Static(id="cautions", classes="note")

    def on_mount(self) -> None:
        """Ask for the list."""
        super().on_mount()
        number = self._number
        self._read(lambda workshop: workshop.finishing.fitting(number), self._take)

    def keys(self) -> tuple[FooterItem, ...]:
        """Return the keys at the foot."""
        undo = BY_ID["undo"]
        mine = () if self._read_only else (FooterItem(undo.shown, undo.label, undo.id),)
        return (*super().keys(), *mine)

    def _take(self, report: FittingReport) -> None:
        """Show the list as it stands now, the cursor on the next that is not in."""
        if not self.in_sight:
            return
        self._inserts = {one.game: one for one in report.inserts}
        table = self.query_one(Table)
        left = [one.game for one in report.inserts if not one.fitted]
        rows = [
            Row(
                one.game,
                ("✓" if one.fitted else "○", f"{one.place + 1}", one.title, one.case),
                faint=one.fitted,
            )
            for one in report.inserts
        ]
        stays = table.current in left
        table.styles.height = min(len(rows), _TALLEST) + 1
        table.show(rows, at=None if stays else self._after(table.current, left))
        self.query_one("#cautions", Static).update(
            Content("\n".join(f"! {line}" for line in report.cautions))
        )
        self._show_how()

    def _after(self, current: str | None, left: list[str]) -> str | None:
        """Return the next insert that is left, from the current one on, going round."""
        listed = list(self._inserts)
        at = listed.index(current) if current in listed else 0
        later = (game for game in (*listed[at:], *listed[:at]) if game in left)
        return next(later, current)

    def on_table_highlighted(self) -> None:
        """Say how the insert goes in that the cursor came to."""
        self._show_how()

    def _show_how(self) -> None:
        one = self._inserts.get(self.query_one(Table).current or "")
        how = self.query_one("#how", Static)
        if one is None:
            how.update(Content("No insert of this sheet goes into a case."))
        elif all(insert.fitted for insert in self._inserts.values()):
            how.update(Content("All are in their cases."))
        else:
            steps = [f"{n}  {step}" for n, step in enumerate(one.steps, start=1)]
            how.update(Content("\n".join(steps or ["It goes in as it is cut."])))

    def action_choose(self) -> None:
        """Note that the highlighted insert is in its case."""
        one = self._inserts.get(self.query_one(Table).current or "")
        if self._read_only or one is None or one.fitted:
            return
        number, game = self._number, one.game

        def fit(workshop: Workshop) -> FittingReport:
            workshop.sheets.fit([game])
            return workshop.finishing.fitting(number)

        self._change(fit, self._fitted)

    def _fitted(self, report: FittingReport) -> None:
        self._noted += 1
        self._take(report)

    def action_undo(self) -> None:
        """Take back what was noted last."""
        if not self._noted:
            return
        number = self._number
        self._noted -= 1

        def undo(workshop: Workshop) -> FittingReport:
            workshop.undo()
            return workshop.finishing.fitting(number)

        self._change(undo, self._take)
