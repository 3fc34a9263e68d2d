"""Setup: the case kinds, a case of one's own, the paper, and how cases are stored."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import ClassVar, TypeVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from engine import (
    STOCKS,
    KindDraft,
    KindLine,
    KindReport,
    Measured,
    Settings,
    Shape,
    SpineryError,
    TrialReport,
    TrialSide,
    Workshop,
)
from tui.actions import BY_ID, SETUP, bindings
from tui.asking import SHAPES
from tui.aswords import POSES
from tui.screens.base import Snapshot, WorkScreen
from tui.screens.choosers import Pick
from tui.screens.dialogs import Closeup, Report
from tui.screens.forms import (
    MARGINS,
    CaseForm,
    Field,
    Form,
    Misfits,
    Panels,
    misfit_fields,
    read_count,
    read_margins,
    read_misfits,
)
from tui.screens.setupwords import RULES, SPINES, about_words, cautions_of, counted, settings_of
from tui.widgets.proof import Proof
from tui.widgets.settingslist import SettingsList
from tui.widgets.table import Column, Row, Table

T = TypeVar("T")

KIND_PAUSE = 0.06
"""How long the cursor rests on a kind, in seconds, before it is drawn."""

DRAFT_PAUSE = 0.15
"""How long the typing rests, in seconds, before a case of one's own is drawn."""

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


@dataclass(frozen=True, slots=True)
class Seen:
    """A case kind that is looked at."""

    report: KindReport
    picture: bytes


class SetupScreen(WorkScreen[SetupState]):
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
                (("⚠ " if line.cautions else "") + line.name, f"{line.games or ''}"),
                faint=not line.games and not line.own,
            )
            for line in state.lines
        ]
        self.query_one(Table).show(rows, at=self._fresh)
        self._fresh = None
        self.query_one(SettingsList).settings = settings_of(state.settings, state.kinds)
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
        needs_kind = {"trial", "correct", "kind_pose", "panels", "folded", "zoom"}
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

    # --- asking ------------------------------------------------------------------------

    def _ask(self, dialog: ModalScreen[T], then: Callable[[T], None]) -> None:
        """Open a dialog; ``then`` takes what was chosen, unless it was left."""

        def chosen(value: T | None) -> None:
            if value is not None:
                then(value)

        self.app.push_screen(dialog, chosen)

    def _set(self, **changes: object) -> None:
        self.spinery.deed(lambda workshop: workshop.set_up(**changes))

    def _pick(
        self,
        act: str,
        choices: Mapping[str, str],
        at: str | None,
        then: Callable[[str], None],
        about: Mapping[str, str] | None = None,
    ) -> None:
        rows = [Row(key, (words,)) for key, words in choices.items()]
        title = BY_ID[act].label
        self._ask(Pick(title, (Column(""),), rows, at=at or USUAL, about=about or {}), then)

    def _ask_pose(
        self, act: str, usual: str, present: str | None, then: Callable[[str | None], None]
    ) -> None:
        choices = {**POSES, USUAL: usual}
        self._pick(act, choices, present, lambda pose: then(pose or None))

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
                "kind_pose",
                "as set for all cases",
                state.settings.poses.get(line.id),
                lambda pose: self._set(poses={line.id: pose}),
            )

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

    # --- the collection ----------------------------------------------------------------

    def action_all_panels(self) -> None:
        """Leave panels out of every kind."""
        state, workshop = self.state, self.spinery.workshop
        if state is None:
            return
        found: dict[str, list[str]] = {}
        for line in state.lines:
            for panel in workshop.kind(line.id).panels:
                found.setdefault(panel.name, []).append(line.name)
        panels = {name: counted(kinds) for name, kinds in found.items()}
        present = state.settings.left_out.get("", ())
        self._ask(
            Panels("Panels of every case kind", panels, present, whole=False),
            lambda left_out: self._set(left_out={"": left_out}),
        )

    def action_pose(self) -> None:
        """Say how all cases are stored."""
        if self.state is not None:
            self._ask_pose(
                "pose",
                "as each case kind says",
                self.state.settings.pose,
                lambda pose: self._set(pose=pose),
            )

    def action_spine_habit(self) -> None:
        """Choose which way upright spines read."""
        if self.state is not None:
            present = self.state.settings.spine
            self._pick("spine_habit", SPINES, present, lambda spine: self._set(spine=spine))

    def action_stock(self) -> None:
        """Choose the paper."""
        if self.state is not None:
            names = {stock.id: stock.name for stock in STOCKS.values()}
            present = self.state.settings.stock.id
            self._pick("stock", names, present, lambda stock: self._set(stock_id=stock))

    def action_rule(self) -> None:
        """Choose how sheets are cut."""
        if self.state is not None:
            words = {rule: f"{rule}: {said}" for rule, said in RULES.items()}
            present = self.state.settings.rule
            self._pick("rule", words, present, lambda rule: self._set(rule=rule))

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
                "usual_case",
                {line.id: line.name for line in state.lines},
                state.settings.case,
                lambda kind: self._set(case=kind),
                about=cautions_of(state.lines),
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
