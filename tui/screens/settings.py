"""What is set for the whole collection, each asked for in a small dialog."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from textual.screen import ModalScreen

from engine import STOCKS, CaseKind, KindLine, Settings
from tui.aswords import POSES
from tui.screens.base import Snapshot, WorkScreen
from tui.screens.choosers import Pick
from tui.screens.forms import (
    Field,
    Form,
    Panels,
    read_caliper,
    read_count,
    read_kerf,
    read_margins,
)
from tui.screens.setupwords import MARGINS, RULES, SPINES, cautions_of, counted
from tui.widgets.table import Column, Row

T = TypeVar("T")

USUAL = ""
"""The row that takes a setting back."""


@dataclass(frozen=True, slots=True)
class SetupState(Snapshot):
    """The case kinds and what is set."""

    lines: tuple[KindLine, ...]
    settings: Settings

    def find(self, kind: str | None) -> KindLine | None:
        """Return a case kind."""
        return next((line for line in self.lines if line.id == kind), None)


class SettingsScreen(WorkScreen[SetupState]):
    """A screen on which settings are changed."""

    def _ask(self, dialog: ModalScreen[T], then: Callable[[T], None]) -> None:
        """Open a dialog; ``then`` takes what was chosen, unless it was left."""

        def chosen(value: T | None) -> None:
            if value is not None:
                then(value)

        self.app.push_screen(dialog, chosen)

    def _set(self, **changes: object) -> None:
        self.work.change(lambda workshop: workshop.setup.change(**changes))

    def _pick(
        self,
        title: str,
        choices: Mapping[str, str],
        at: str | None,
        then: Callable[[str], None],
        *,
        about: Mapping[str, str] | None = None,
    ) -> None:
        rows = [Row(key, (words,)) for key, words in choices.items()]
        self._ask(Pick(title, (Column(""),), rows, at=at or USUAL, about=about or {}), then)

    def _ask_pose(
        self, title: str, usual: str, present: str | None, then: Callable[[str | None], None]
    ) -> None:
        choices = {**POSES, USUAL: usual}
        self._pick(title, choices, present, lambda pose: then(pose or None))

    def action_all_panels(self) -> None:
        """Leave panels out of every kind."""
        self.fetch(
            lambda workshop: [workshop.kinds.kind(one.id) for one in workshop.kinds.lines()],
            self._ask_all_panels,
            group="panels",
        )

    def _ask_all_panels(self, every: Sequence[CaseKind]) -> None:
        found: dict[str, list[str]] = {}
        for kind in every:
            for panel in kind.panels:
                found.setdefault(panel.name, []).append(kind.name)
        panels = {name: counted(kinds) for name, kinds in found.items()}
        present = self.state.settings.left_out.get("", ()) if self.state else ()
        self._ask(
            Panels("Panels of every case kind", panels, present, whole=False),
            lambda left_out: self._set(left_out={"": left_out}),
        )

    def action_pose(self) -> None:
        """Say how all cases are stored."""
        if self.state is not None:
            self._ask_pose(
                "How all cases are stored",
                "as each case kind says",
                self.state.settings.pose,
                lambda pose: self._set(pose=pose),
            )

    def action_spine_habit(self) -> None:
        """Choose which way upright spines read."""
        if self.state is not None:
            present = self.state.settings.spine
            self._pick("Upright spines read", SPINES, present, lambda spine: self._set(spine=spine))

    def action_stock(self) -> None:
        """Choose the paper."""
        if self.state is not None:
            names = {stock.id: stock.name for stock in STOCKS.values()}
            present = self.state.settings.stock.id
            self._pick("Paper", names, present, lambda stock: self._set(stock_id=stock))

    def action_rule(self) -> None:
        """Choose how sheets are cut."""
        if self.state is not None:
            words = {rule: f"{rule}: {said}" for rule, said in RULES.items()}
            present = self.state.settings.rule
            self._pick("How sheets are cut", words, present, lambda rule: self._set(rule=rule))

    def action_margins(self) -> None:
        """Type the printer's margins."""
        if self.state is None:
            return
        margins = self.state.settings.stock.margins
        fields = [
            Field(side, f"{side.capitalize()}, mm", f"{getattr(margins, side):g}")
            for side in MARGINS
        ]
        words = "What the printer leaves white on each side of the sheet."
        form = Form[tuple[float, ...]]("Margins", fields, read_margins, words=words)
        self._ask(form, lambda sides: self._set(margins=sides))

    def action_caliper(self) -> None:
        """Type the measured thickness of the paper."""
        if self.state is not None:
            field = Field("caliper", "Thickness, mm", f"{self.state.settings.stock.caliper:g}")
            words = "Measure ten sheets with calipers and divide by ten."
            form = Form[float]("Caliper", [field], read_caliper, words=words)
            self._ask(form, lambda caliper: self._set(caliper=caliper))

    def action_patience(self) -> None:
        """Type after how many sheets the oldest insert must go."""
        if self.state is not None:
            field = Field("count", "Sheets", f"{self.state.settings.patience}")
            words = (
                "After so many sheets without it, the oldest insert is on the next one, "
                "even if others would leave less paper."
            )
            form = Form[int]("Patience", [field], read_count, words=words)
            self._ask(form, lambda count: self._set(patience=count))

    def action_kerf(self) -> None:
        """Type what the blade takes away."""
        if self.state is not None:
            field = Field("kerf", "Kerf, mm", f"{self.state.settings.kerf:g}")
            words = "What the blade takes away: 0 for a trimmer or a knife, more for a saw."
            form = Form[float]("Kerf", [field], read_kerf, words=words)
            self._ask(form, lambda kerf: self._set(kerf=kerf))

    def action_batch_size(self) -> None:
        """Type how many games a batch holds."""
        if self.state is not None:
            field = Field("count", "Games", f"{self.state.settings.batch_size}")
            form = Form[int]("Batch size", [field], read_count)
            self._ask(form, lambda count: self._set(batch_size=count))

    def action_usual_case(self) -> None:
        """Choose the kind of games whose list names none."""
        state = self.state
        if state is not None:
            self._pick(
                "Case of games whose list names none",
                {line.id: line.name for line in state.lines},
                state.settings.case,
                lambda kind: self._set(case=kind),
                about=cautions_of(state.lines),
            )
