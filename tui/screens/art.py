"""The dialog in which the art of one insert is worked on, its proof beside the choices."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll

from engine import LINE_STEP, InkReport, Proposal, Workshop
from tui.actions import ART, BY_ID, bindings
from tui.actions.footer import FooterItem
from tui.artchanges import CHANGES, LINES, SIDES, SPINE, ArtChange, moved
from tui.screens.dialogs import Dialog
from tui.screens.fitting import FittingKeys
from tui.widgets.artlist import ArtList, ArtShown
from tui.widgets.proof import Proof

PICTURED = {"next_trim", "line_in", "line_out", "split", "turn_left", "turn_right", "next_matte"}
"""Actions that need a picture."""

ARROWS = ("left", "right", "up", "down")
"""Keys that move the picture; one that is shown whole is cropped then."""

Make = Callable[[ArtChange, Callable[[Proposal], None]], None]
"""Makes a change to the game, and hands on what came of it."""


class ArtDialog(FittingKeys, Dialog[bool]):
    """Every key changes the art at once and draws the proof anew; undo takes it back."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(ART),
        *(Binding(way, f"arrow('{way}')", show=False) for way in ARROWS),
    ]

    def __init__(
        self,
        game: Proposal,
        make: Make,
        draw: Callable[[Callable[[bytes], None]], None],
        weigh: Callable[[Callable[[InkReport], None]], None],
        *,
        read_only: bool = False,
    ) -> None:
        """Ask ``draw`` for the proof and ``weigh`` for the ink of the game as it stands."""
        super().__init__(f"Art of {game.title}", "")
        self._game = game
        self._make = make
        self._draw = draw
        self._weigh = weigh
        self._read_only = read_only
        self._line = 0
        self._ink: InkReport | None = None

    def body(self) -> ComposeResult:
        """Lay out the proof and the choices."""
        with Horizontal(id="work"):
            yield Proof()
            with VerticalScroll(can_focus=False):
                yield ArtList()

    def on_mount(self) -> None:
        """Show the art as it stands."""
        self._take(self._game)

    def keys(self) -> tuple[FooterItem, ...]:
        """Return what the choices do not show already."""
        steps = (BY_ID["undo"], BY_ID["redo"])
        items = (FooterItem(one.shown, one.label, one.id) for one in steps)
        return (*items, *super().keys())

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's signature
        """Turn off what the art does not allow."""
        act = BY_ID.get(action)
        if act is not None and act.changes and self._read_only:
            return None
        art = self._game.design.art
        if action == "arrow":
            return art.picture is not None and not self._read_only
        if action.startswith("crop_"):
            return True if art.is_cropped else None
        if action in PICTURED:
            return True if art.picture is not None else None
        return True

    def change_it(self, change: ArtChange) -> None:
        """Make a change to the game."""
        self._make(change, self._changed)

    def _changed(self, game: Proposal) -> None:
        if self.in_sight:
            self._take(game)

    def _take(self, game: Proposal) -> None:
        """Show a game as it stands now."""
        self._game, self._ink = game, None
        self._show()
        self.refresh_bindings()
        self._draw(self._drawn)
        self._weigh(self._weighed)

    def _show(self) -> None:
        self.query_one(ArtList).shown = ArtShown(self._game, LINES[self._line], self._ink)

    def _drawn(self, png: bytes) -> None:
        if self.in_sight:
            self.query_one(Proof).show(png)

    def _weighed(self, ink: InkReport) -> None:
        if self.in_sight:
            self._ink = ink
            self._show()

    # --- the keys ------------------------------------------------------------------------

    def action_arrow(self, way: str) -> None:
        """Move the picture."""
        getattr(self, f"action_crop_{way}")()

    def action_next_trim(self) -> None:
        """Take the next trim that was found."""
        self.change_it(CHANGES["next_trim"])

    def action_next_line(self) -> None:
        """Go to the next line to move; those of the spine only where there is one."""
        count = len(LINES) if self._game.design.art.split else len(SIDES)
        self._line = (self._line + 1) % count
        self._show()

    def action_line_in(self) -> None:
        """Trim more, or move the spine's line to the right."""
        self._move(LINE_STEP)

    def action_line_out(self) -> None:
        """Give some back, or move the spine's line to the left."""
        self._move(-LINE_STEP)

    def _move(self, by: float) -> None:
        line = LINES[self._line]
        if line in SPINE and self._game.design.art.split is None:
            self._line = 0
            line = LINES[0]
        self.change_it(moved(line, by))

    def action_split(self) -> None:
        """Split the picture, or take it whole."""
        self.change_it(CHANGES["split"])

    def action_turn_left(self) -> None:
        """Turn the picture counter-clockwise."""
        self.change_it(CHANGES["turn_left"])

    def action_turn_right(self) -> None:
        """Turn the picture clockwise."""
        self.change_it(CHANGES["turn_right"])

    def action_next_matte(self) -> None:
        """Lay the next matte around the picture."""
        self.change_it(CHANGES["next_matte"])

    def action_next_pattern(self) -> None:
        """Use the next pattern in place of a picture."""
        self.change_it(CHANGES["next_pattern"])

    def action_next_ink(self) -> None:
        """Print with the next amount of ink."""
        self.change_it(CHANGES["next_ink"])

    def action_undo(self) -> None:
        """Take back the last thing done."""

        def undo(workshop: Workshop, game: str) -> Proposal:
            workshop.undo()
            return workshop.designs.proposal(game)

        self.change_it(undo)

    def action_redo(self) -> None:
        """Do again what was taken back last."""

        def redo(workshop: Workshop, game: str) -> Proposal:
            workshop.history.redo()
            return workshop.designs.proposal(game)

        self.change_it(redo)
