"""What is set for one case kind, each asked for in a small dialog."""

from __future__ import annotations

from abc import abstractmethod

from engine import STOCKS, CaseKind, KindLine
from tui.actions import BY_ID
from tui.aswords import POSES
from tui.screens.choosers import Pick
from tui.screens.forms import Panels
from tui.screens.lettering import LetteringScreen
from tui.screens.settings import USUAL
from tui.screens.setupwords import NO_PANEL
from tui.widgets.table import Column, Row

USUAL_POSE = "as set for all cases"


class KindSettings(LetteringScreen):
    """A screen on which a case kind is set apart from the others."""

    @property
    @abstractmethod
    def line(self) -> KindLine | None:
        """The kind under the cursor."""

    def change_kind(self) -> None:
        """Show what is set for the current kind, to change one of it."""
        line, state = self.line, self.state
        if line is None or state is None:
            return
        settings = state.settings
        upright = line.id in settings.lettering.upright
        changes = {
            "kind_stock": ("Paper", self._stock_words(line)),
            "kind_pose": ("Stored", POSES.get(settings.poses.get(line.id, ""), USUAL_POSE)),
            "panels": ("Left out", ", ".join(line.left_out) or NO_PANEL),
            "upright": ("Ideographs", "upright" if upright else "turned with the title"),
        }
        rows = [Row(act, cells) for act, cells in changes.items()]
        self._ask(Pick(line.name, (Column("", 10), Column("")), rows), self._change)

    def _change(self, act: str) -> None:
        self.call_later(self.run_action, BY_ID[act].name)

    def _stock_words(self, line: KindLine) -> str:
        if self.state is None or line.id not in self.state.settings.stocks:
            return "as for all"
        return self.state.settings.stock_of(line.id).name

    def action_kind_stock(self) -> None:
        """Choose the paper that inserts of the current kind are printed on."""
        line, state = self.line, self.state
        if line is None or state is None:
            return
        names = {stock.id: stock.name for stock in STOCKS.values()}
        self._pick(
            f"Paper of {line.name}",
            {**names, USUAL: f"as for all: {state.settings.stock.name}"},
            state.settings.stocks.get(line.id),
            lambda stock: self._set(stocks={line.id: stock or None}),
        )

    def action_kind_pose(self) -> None:
        """Say how the cases of this kind are stored."""
        line, state = self.line, self.state
        if line is not None and state is not None:
            self._ask_pose(
                f"Stored: {line.name}",
                USUAL_POSE,
                state.settings.poses.get(line.id),
                lambda pose: self._set(poses={line.id: pose}),
            )

    def action_upright(self) -> None:
        """Set ideographs upright on the edges of this kind, or turned again."""
        if self.line is not None:
            self.toggle_upright(self.line.id)

    def action_panels(self) -> None:
        """Leave panels out of this kind."""
        line = self.line
        if line is not None:
            self.fetch(
                lambda workshop: workshop.kinds.kind(line.id), self._ask_panels, group="panels"
            )

    def _ask_panels(self, kind: CaseKind) -> None:
        panels = {panel.name: panel.role.value for panel in kind.panels}
        present = self.state.settings.left_out.get(kind.id, ()) if self.state else ()
        self._ask(
            Panels(f"Panels of {kind.name}", panels, present),
            lambda left_out: self._set(left_out={kind.id: left_out}),
        )
