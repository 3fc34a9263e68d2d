"""Setup: the case kinds, a case of one's own, the paper, and how cases are stored."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from engine import (
    KindDraft,
    KindLine,
    KindReport,
    Measured,
    Shape,
    SpineryError,
    TrialReport,
    TrialSide,
    Workshop,
)
from tui.actions import BY_ID, SETUP, bindings
from tui.asking import SHAPES
from tui.screens.choosers import Pick
from tui.screens.coloursettings import ColourSettings
from tui.screens.dialogs import Closeup, Report
from tui.screens.forms import (
    CaseForm,
    Form,
    Misfits,
    Panels,
    misfit_fields,
    read_misfits,
)
from tui.screens.lettering import LetteringScreen, lettering_of
from tui.screens.settings import SetupState
from tui.screens.setupwords import about_words, settings_of
from tui.widgets.proof import Proof
from tui.widgets.settingslist import SettingsBand, SettingsList
from tui.widgets.table import Column, Row, Table

KIND_PAUSE = 0.06
"""How long the cursor rests on a kind, in seconds, before it is drawn."""

DRAFT_PAUSE = 0.15
"""How long the typing rests, in seconds, before a case of one's own is drawn."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A case kind that is looked at."""

    report: KindReport
    picture: bytes


class SetupScreen(ColourSettings, LetteringScreen):
    """The screen on which kinds and settings are looked at and changed."""

    PLACE = SETUP
    CSS_PATH = "setup.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(SETUP)]

    def __init__(self) -> None:
        super().__init__()
        self._folded = False
        self._fresh: str | None = None
        """The kind just added, to put the cursor on."""

    def body(self) -> ComposeResult:
        """Lay out kinds and settings at the left, the kind in hand at the right."""
        with Horizontal():
            with Vertical(id="list"):
                yield Table((Column("Case kinds"), Column("games", 5)), empty="No case kinds.")
                yield SettingsList()
            with Vertical(id="kind"):
                yield Proof()
                with VerticalScroll(can_focus=False):
                    yield Static(id="about")
        with VerticalScroll(id="band"):
            yield SettingsBand()

    def on_mount(self) -> None:
        """Begin on the kinds."""
        self.query_one(Table).focus()

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> SetupState:
        """Read the kinds and the settings."""
        lines = workshop.kinds()
        return SetupState(
            progress=workshop.progress(),
            kinds={line.id: line.name for line in lines},
            lines=lines,
            settings=workshop.settings(),
        )

    def show(self, state: SetupState) -> None:
        """Show the kinds and the settings."""
        rows = [
            Row(
                line.id,
                (("! " if line.cautions else "") + line.name, f"{line.games or ''}"),
                faint=not line.games and not line.own,
            )
            for line in state.lines
        ]
        self.query_one(Table).show(rows, at=self._fresh)
        self._fresh = None
        for shown in self.query(SettingsList):
            shown.settings = (
                *settings_of(state.settings, state.kinds),
                *lettering_of(state.settings.lettering, state.kinds),
            )
        self._show_kind()

    @property
    def line(self) -> KindLine | None:
        """The kind in hand: the one under the cursor."""
        return self.state.find(self.query_one(Table).current) if self.state else None

    def on_table_highlighted(self) -> None:
        """Show the kind that the cursor came to."""
        self._show_kind()
        self.refresh_bindings()

    def _show_kind(self) -> None:
        line, workshop, folded = self.line, self.spinery.workshop, self._folded
        if line is None:
            return
        proof = self.query_one(Proof)
        if proof.of != line.id:
            proof.show(None, "Drawing the net…", of=line.id)
            self.query_one("#about", Static).update("")
        self.spinery.fetch(
            lambda: look(workshop, line.id, folded=folded),
            self._seen,
            group="kind",
            pause=KIND_PAUSE,
        )

    def _seen(self, seen: Seen) -> None:
        if self.line is not None and self.line.id == seen.report.kind.id:
            self.query_one(Proof).show(seen.picture, of=seen.report.kind.id)
            self.query_one("#about", Static).update(Content(about_words(seen.report)))

    def failed(self, group: str) -> None:
        """Say that the kind cannot be drawn."""
        if group == "kind":
            self.query_one(Proof).show(None, "It cannot be drawn.")

    def possible(self, act: str) -> bool:
        """Leave out what needs a kind while there is none in hand."""
        needs_kind = {"trial", "correct", "kind_pose", "panels", "folded", "upright", "zoom"}
        return self.state is not None and (act not in needs_kind or self.line is not None)

    def action_folded(self) -> None:
        """Show the kind folded, or flat again."""
        self._folded = not self._folded
        self._show_kind()

    def action_zoom(self) -> None:
        """Show the kind as large as the screen."""
        line, workshop, folded = self.line, self.spinery.workshop, self._folded
        if line is None:
            return
        self.app.push_screen(
            Closeup(
                line.name,
                lambda then: self.spinery.fetch(
                    lambda: look(workshop, line.id, folded=folded).picture, then, group="closeup"
                ),
            )
        )

    # --- a case kind -------------------------------------------------------------------

    def action_new_case(self) -> None:
        """Choose a shape, then type what was measured."""
        rows = [Row(shape, (shape, words)) for shape, words in SHAPES.items()]
        pick = Pick("A case of your own", (Column("shape", 8), Column("")), rows)
        self._ask(pick, lambda shape: self._describe(Shape(shape)))

    def _describe(self, shape: Shape) -> None:
        workshop = self.spinery.workshop

        def drawn(measured: Measured, then: Callable[[KindDraft | str], None]) -> None:
            self.spinery.fetch(
                lambda: draft(workshop, measured), then, group="draft", pause=DRAFT_PAUSE
            )

        def keep(measured: Measured, then: Callable[[], None]) -> None:
            self.spinery.deed(lambda workshop: workshop.add_kind(measured), lambda _: then())

        self._ask(CaseForm(shape, drawn, keep), self._kept)

    def _kept(self, measured: Measured) -> None:
        self._fresh = measured.kind.id
        self.reload()
        self.notify(
            f"{measured.name} is kept, and can be chosen now. Undo leaves it alone: to be rid "
            f"of it, delete cases/{measured.kind.id}.toml. "
            f"{BY_ID['trial'].shown} writes a trial cut.",
            markup=False,
        )

    def action_trial(self) -> None:
        """Write a trial cut of the kind."""
        line = self.line
        if line is not None:
            self.spinery.deed(
                lambda workshop: workshop.trial(line.id), self._tried, words="Drawing"
            )

    def _tried(self, report: TrialReport) -> None:
        self.app.push_screen(
            Report(
                "Trial cut",
                (
                    f"{report.file}",
                    "Print it at 100 %, cut and fold it, and put it into the case.",
                    f"{BY_ID['correct'].shown} takes how much was too long or too short.",
                    "",
                    *report.notes,
                ),
            )
        )

    def action_correct(self) -> None:
        """Type how much was too long on the trial cut."""
        line, workshop = self.line, self.spinery.workshop
        if line is not None:
            self.spinery.fetch(
                lambda: workshop.trial_sides(line.id),
                partial(self._ask_misfits, line),
                group="sides",
            )

    def _ask_misfits(self, line: KindLine, sides: Sequence[TrialSide]) -> None:
        form = Form[Misfits](
            f"Too long on the trial cut: {line.name}",
            misfit_fields(sides),
            partial(read_misfits, sides),
            words="In mm; negative for too short. Undo leaves it alone: correct it back instead.",
            choice="Correct",
        )
        self._ask(
            form,
            lambda misfits: self.spinery.deed(
                lambda workshop: workshop.correct_kind(line.id, misfits)
            ),
        )

    def action_kind_pose(self) -> None:
        """Say how the cases of this kind are stored."""
        line, state = self.line, self.state
        if line is not None and state is not None:
            self._ask_pose(
                f"Stored: {line.name}",
                "as set for all cases",
                state.settings.poses.get(line.id),
                lambda pose: self._set(poses={line.id: pose}),
            )

    def action_upright(self) -> None:
        """Set ideographs upright on the edges of this kind, or turned again."""
        if self.line is not None:
            self.toggle_upright(self.line.id)

    def action_panels(self) -> None:
        """Leave panels out of this kind."""
        line, state, workshop = self.line, self.state, self.spinery.workshop
        if line is None or state is None:
            return
        panels = {panel.name: panel.role.value for panel in workshop.kind(line.id).panels}
        present = state.settings.left_out.get(line.id, ())
        self._ask(
            Panels(f"Panels of {line.name}", panels, present),
            lambda left_out: self._set(left_out={line.id: left_out}),
        )


def look(workshop: Workshop, kind: str, *, folded: bool) -> Seen:
    """Return a case kind with its picture."""
    (report,) = workshop.kind_reports(kind)
    picture = workshop.folded_picture(kind) if folded else workshop.net_picture(kind)
    return Seen(report, picture)


def draft(workshop: Workshop, measured: Measured) -> KindDraft | str:
    """Return how a case of one's own looks, or what is wrong with it."""
    try:
        return workshop.draft_kind(measured)
    except SpineryError as error:
        return str(error)
