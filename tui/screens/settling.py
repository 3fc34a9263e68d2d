"""Settling a pressed sheet: its inserts looked at one by one, then put into their cases."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence

from engine import SheetReport, SheetState
from tui.actions import BY_ID
from tui.screens.dialogs import Confirm
from tui.screens.fitlist import FitList
from tui.screens.pressing import PressingScreen
from tui.words import settling_words

FITTING = "fitting"
"""The group of the work that reads what goes into its case."""


class SettlingScreen(PressingScreen):
    """A screen on which pressed sheets are settled."""

    def __init__(self) -> None:
        super().__init__()
        self._spoiled: dict[int, frozenset[int]] = {}
        """Places marked as spoiled, by the number of the sheet."""
        self._checked: dict[int, frozenset[int]] = {}
        """Places that were looked at, by the number of the sheet."""
        self.place = 0
        """The insert, or the offcut, highlighted on the current sheet."""

    @property
    @abstractmethod
    def sheet(self) -> SheetReport | None:
        """The sheet under the cursor."""

    @abstractmethod
    def show_sheet(self) -> None:
        """Show the sheet under the cursor."""

    @abstractmethod
    def go_to_insert(self, place: int) -> None:
        """Put the cursor on an insert of the sheet."""

    def spoiled_of(self, sheet: SheetReport) -> frozenset[int]:
        """Return the places marked as spoiled, and of a settled sheet those that are."""
        if sheet.state is SheetState.SETTLED:
            return frozenset(n for n, one in enumerate(sheet.placements) if one.spoiled)
        return self._spoiled.get(sheet.number or 0, frozenset())

    def checked_of(self, sheet: SheetReport) -> frozenset[int]:
        """Return the places that were looked at."""
        return self._checked.get(sheet.number or 0, frozenset())

    def _forget(self, number: int) -> None:
        self._spoiled.pop(number, None)
        self._checked.pop(number, None)

    # --- actions -----------------------------------------------------------------------

    def action_spoil(self) -> None:
        """Mark the insert as spoiled, or as good again."""
        sheet = self.sheet
        if sheet is not None and sheet.number is not None:
            self._spoiled[sheet.number] = self.spoiled_of(sheet) ^ {self.place}
            self.show_sheet()

    def check_off(self) -> None:
        """Check off the insert as it is marked and go to the next; settle after the last."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        checked = self._checked[sheet.number] = self.checked_of(sheet) | {self.place}
        places = range(len(sheet.placements))
        later = (*places[self.place :], *places[: self.place])
        following = next((place for place in later if place not in checked), None)
        self.show_sheet()
        if following is not None:
            self.go_to_insert(following)
            return
        spoiled, titles = self.spoiled_of(sheet), self.state.titles if self.state else {}
        again = [titles.get(sheet.placements[n].game, "") for n in sorted(spoiled)]
        lines = settling_words(len(sheet.placements) - len(spoiled), again)
        self.app.push_screen(
            Confirm(f"Settle sheet {sheet.number}", lines, BY_ID["settle"].label),
            lambda yes: self.action_settle() if yes else None,
        )

    def action_settle(self) -> None:
        """Settle the current sheet."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        number, spoiled = sheet.number, tuple(n + 1 for n in sorted(self.spoiled_of(sheet)))
        good = len(sheet.placements) > len(spoiled)
        self.work.change(
            lambda workshop: workshop.sheets.settle(number, spoiled),
            lambda notes: self._settled(number, len(spoiled), notes, good=good),
        )

    def _settled(self, number: int, spoiled: int, notes: Sequence[str], *, good: bool) -> None:
        self._forget(number)
        back = f"; {spoiled} spoiled, they wait again" if spoiled else ""
        shown = self.state.sheets.values() if self.state else ()
        more = any(one.state is SheetState.PRESSED and one.number != number for one in shown)
        fit = []
        if good and not more:  # else the next pressed sheet comes first
            self.wanted = f"settled {number}"
            fit = [f"{BY_ID['fitting'].shown} lists what goes into its case."]
        lines = (f"Sheet {number} is settled{back}.", *notes, *fit)
        self.notify("\n".join(lines), markup=False)

    def action_fitting(self) -> None:
        """List what goes into its case of the current sheet."""
        sheet = self.sheet
        if sheet is not None and sheet.number is not None:
            self.app.push_screen(
                FitList(
                    sheet.number,
                    lambda get, then: self.fetch(get, then, group=FITTING),
                    self.work.change,
                    read_only=self.work.read_only,
                )
            )

    def action_keep_offcut(self) -> None:
        """Keep the highlighted offcut, or let it go."""
        sheet = self.sheet
        if sheet is None or sheet.number is None or not sheet.offcuts:
            return
        number = sheet.number
        kept = {one.number for one in sheet.offcuts if one.kept}
        kept ^= {sheet.offcuts[self.place].number}
        self.work.change(lambda workshop: workshop.sheets.keep_offcuts(number, sorted(kept)))

    def action_print(self) -> None:
        """Print the current sheet."""
        if self.sheet is not None and self.sheet.number is not None:
            self.ask_for_printer(self.sheet.number)

    def action_withdraw(self) -> None:
        """Withdraw the current sheet."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        number = sheet.number
        self.work.change(
            lambda workshop: workshop.sheets.withdraw(number),
            lambda _: self._withdrawn(number),
        )

    def _withdrawn(self, number: int) -> None:
        self._forget(number)
        undo = BY_ID["undo"].shown
        self.notify(f"Sheet {number} is withdrawn; its inserts wait again. {undo} undoes it.")


def allows(sheet: SheetReport, act: str) -> bool:
    """Return whether an action makes sense for a sheet."""
    settled = sheet.state is SheetState.SETTLED
    if act in {"last_insert", "next_insert"}:
        return len(sheet.offcuts if settled and sheet.offcuts else sheet.placements) > 1
    if act == "keep_offcut":
        return settled and bool(sheet.offcuts)
    if act == "fitting":
        return settled
    if act == "cuts":
        return True
    return sheet.state is SheetState.PRESSED or (settled and act == "zoom")
