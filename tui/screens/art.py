"""The dialog in which the art of one insert is worked on, its proof beside the choices."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll

from engine import Fit, InkReport, Proposal, Workshop
from tui.actions import ART, BY_ID, bindings
from tui.actions.footer import FooterItem
from tui.screens.dialogs import Dialog
from tui.widgets.artlist import ArtList, ArtShown
from tui.widgets.proof import Proof

CROP_STEP = 0.1
"""How far one key moves the crop, as a fraction of the picture."""

LINE_STEP = 0.005
"""How far one key moves a trimmed side or a line of the spine."""

TURN_STEP = 0.25
"""How far one key turns the picture, in degrees."""

SIDES = ("left", "top", "right", "bottom")
SPINE = ("spine begins", "spine ends")
LINES = (*SIDES, *SPINE)
"""What ``line_in`` and ``line_out`` move, one at a time."""

PICTURED = {"next_trim", "line_in", "line_out", "split", "turn_left", "turn_right", "next_matte"}
"""Actions that need a picture."""

Change = Callable[[Workshop, str], Proposal]
Work = Callable[[Change, Callable[[Proposal], None]], None]
"""Does a change to the game in hand, and hands on what came of it."""


class ArtDialog(Dialog[bool]):
    """Every key changes the art at once and draws the proof anew; undo takes it back."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(ART)]

    def __init__(
        self,
        game: Proposal,
        work: Work,
        draw: Callable[[Callable[[bytes], None]], None],
        weigh: Callable[[Callable[[InkReport], None]], None],
        *,
        read_only: bool = False,
    ) -> None:
        """Ask ``draw`` for the proof and ``weigh`` for the ink of the game as it stands."""
        super().__init__(f"Art of {game.title}", "")
        self._game = game
        self._work = work
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
        undo = BY_ID["undo"]
        return (FooterItem(undo.shown, undo.label, undo.id, enabled=True), *super().keys())

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's signature
        """Turn off what the art does not allow."""
        act = BY_ID.get(action)
        if act is not None and act.changes and self._read_only:
            return None
        art = self._game.design.art
        if action.startswith("crop_"):
            return True if art.picture is not None and art.fit is Fit.FILL else None
        if action in PICTURED:
            return True if art.picture is not None else None
        return True

    def _do(self, change: Change) -> None:
        self._work(change, self._changed)

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

    def action_change_art(self) -> None:
        """Fit the art in the next way."""
        self._do(lambda workshop, game: workshop.art.next_fit(game))

    def action_crop_left(self) -> None:
        """Keep more of the left."""
        self._do(lambda workshop, game: workshop.art.move_crop(game, -CROP_STEP, 0))

    def action_crop_right(self) -> None:
        """Keep more of the right."""
        self._do(lambda workshop, game: workshop.art.move_crop(game, CROP_STEP, 0))

    def action_crop_up(self) -> None:
        """Keep more of the head."""
        self._do(lambda workshop, game: workshop.art.move_crop(game, 0, -CROP_STEP))

    def action_crop_down(self) -> None:
        """Keep more of the foot."""
        self._do(lambda workshop, game: workshop.art.move_crop(game, 0, CROP_STEP))

    def action_next_trim(self) -> None:
        """Take the next trim that was found."""
        self._do(lambda workshop, game: workshop.art.next_trim(game))

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
        if line == SPINE[0]:
            self._do(lambda workshop, game: workshop.art.move_split(game, begins=by))
        elif line == SPINE[1]:
            self._do(lambda workshop, game: workshop.art.move_split(game, ends=by))
        else:
            self._do(lambda workshop, game: workshop.art.move_trim(game, line, by))

    def action_split(self) -> None:
        """Split the picture, or take it whole."""
        self._do(lambda workshop, game: workshop.art.split_or_join(game))

    def action_turn_left(self) -> None:
        """Turn the picture counter-clockwise."""
        self._do(lambda workshop, game: workshop.art.turn(game, TURN_STEP))

    def action_turn_right(self) -> None:
        """Turn the picture clockwise."""
        self._do(lambda workshop, game: workshop.art.turn(game, -TURN_STEP))

    def action_next_matte(self) -> None:
        """Lay the next matte around the picture."""
        self._do(lambda workshop, game: workshop.art.next_matte(game))

    def action_next_pattern(self) -> None:
        """Use the next pattern in place of a picture."""
        self._do(lambda workshop, game: workshop.art.next_pattern(game))

    def action_next_ink(self) -> None:
        """Print with the next amount of ink."""
        self._do(lambda workshop, game: workshop.art.next_ink(game))

    def action_undo(self) -> None:
        """Take back the last thing done."""

        def undo(workshop: Workshop, game: str) -> Proposal:
            workshop.undo()
            return workshop.designs.proposal(game)

        self._do(undo)
