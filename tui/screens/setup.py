"""Setup: the case kinds, a case of one's own, the paper, and how cases are stored."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
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
    misfit_fields,
    read_misfits,
)
from tui.screens.kindsettings import KindSettings
from tui.screens.lettering import lettering_of
from tui.screens.settings import SetupState
from tui.screens.setupwords import Setting, about_words, setting_words, settings_of
from tui.widgets.proof import Proof
from tui.widgets.table import Column, Row, Table

KIND_REST = 0.06
"""How long the cursor rests on a kind, in seconds, before it is drawn."""

NEED_KIND = frozenset(
    {"trial", "correct", "kind_stock", "kind_pose", "panels", "folded", "upright", "zoom"}
)
"""Actions that make no sense without a current kind."""

DRAFT_REST = 0.15
"""How long the typing rests, in seconds, before a case of one's own is drawn."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A case kind that is looked at."""

    report: KindReport
    picture: bytes


class SetupScreen(ColourSettings, KindSettings):
    """The screen on which kinds and settings are looked at and changed."""

    PLACE = SETUP
    CSS_PATH = "setup.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(SETUP)]

    def __init__(self) -> None:
        super().__init__()
        self._folded = False
        self._shown: dict[str, Setting] = {}
        """What is set, by the action that changes it."""
        self._fresh: str | None = None
        """The kind just added, to put the cursor on."""

    def body(self) -> ComposeResult:
        """Lay out kinds and settings at the left, what the cursor is on at the right."""
        with Horizontal():
            with Vertical(id="list"):
                yield Table(
                    (Column("Case kinds"), Column("games", 5)), empty="No case kinds.", id="kinds"
                )
                yield Table((Column("", 1), Column("Settings", 13), Column("")), id="settings")
            with Vertical(id="kind"):
                yield Proof()
                with VerticalScroll(can_focus=False):
                    yield Static(id="about")
            with VerticalScroll(id="setting", can_focus=False):
                yield Static(id="words")

    def on_mount(self) -> None:
        """Begin on the kinds."""
        self._kinds.focus()

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> SetupState:
        """Read the kinds and the settings."""
        lines = workshop.kinds.lines()
        return SetupState(
            progress=workshop.progress(),
            kinds={line.id: line.name for line in lines},
            lines=lines,
            settings=workshop.setup.settings(),
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
        self._kinds.show(rows, at=self._fresh)
        self._fresh = None
        before = self._shown
        self._shown = {
            setting.act: setting
            for setting in (
                *settings_of(state.settings, state.kinds),
                *lettering_of(state.settings.lettering, state.kinds),
            )
        }
        self._settings.show(
            [
                Row(act, (BY_ID[act].shown, BY_ID[act].label, setting.value))
                for act, setting in self._shown.items()
            ],
            at=changed(before, self._shown),
        )
        self._show_current()

    @property
    def _kinds(self) -> Table:
        return self.query_one("#kinds", Table)

    @property
    def _settings(self) -> Table:
        return self.query_one("#settings", Table)

    @property
    def line(self) -> KindLine | None:
        """The kind under the cursor."""
        return self.state.find(self._kinds.current) if self.state else None

    @property
    def setting(self) -> Setting | None:
        """The setting under the cursor, while that is among them."""
        return self._shown.get(self._settings.current or "") if self._settings.has_focus else None

    def on_table_highlighted(self) -> None:
        """Show what the cursor came to."""
        self._show_current()
        self.refresh_bindings()

    def on_descendant_focus(self) -> None:
        """Show what the cursor is on in the other list."""
        self._show_current()
        self.refresh_bindings()

    def _show_current(self) -> None:
        setting = self.setting
        self.query_one("#kind").display = setting is None
        self.query_one("#setting").display = setting is not None
        if setting is None:
            self._show_kind()
        else:
            self.query_one("#words", Static).update(Content(setting_words(setting)))

    def _show_kind(self) -> None:
        line, folded = self.line, self._folded
        if line is None:
            return
        proof = self.query_one(Proof)
        if proof.of != line.id:
            proof.show(None, "Drawing the net…", of=line.id)
            self.query_one("#about", Static).update("")
        self.fetch(
            lambda workshop: look(workshop, line.id, folded=folded),
            self._seen,
            group="kind",
            rest=KIND_REST,
            failed=self._not_seen,
        )

    def _seen(self, seen: Seen) -> None:
        state = self.state
        if state and self.line is not None and self.line.id == seen.report.kind.id:
            stock = state.settings.stock_of(self.line.id).name
            self.query_one(Proof).show(seen.picture, of=seen.report.kind.id)
            self.query_one("#about", Static).update(Content(about_words(seen.report, stock)))

    def _not_seen(self) -> None:
        self.query_one(Proof).show(None, "It cannot be drawn.")

    def possible(self, act: str) -> bool:
        """Leave out what needs a kind while the cursor is on none."""
        if self.state is None:
            return False
        if act == "change_setting":
            return self.setting is not None or self.line is not None
        return act not in NEED_KIND or self.line is not None

    def action_other_list(self) -> None:
        """Go to the settings, or back to the case kinds."""
        (self._kinds if self._settings.has_focus else self._settings).focus()

    async def action_change_setting(self) -> None:
        """Change the current setting, or what is set for the current kind."""
        setting = self.setting
        if setting is None:
            self.change_kind()
        else:
            await self.run_action(BY_ID[setting.act].name)

    def action_folded(self) -> None:
        """Show the kind folded, or flat again."""
        self._folded = not self._folded
        self._show_kind()

    def action_zoom(self) -> None:
        """Show the kind as large as the screen."""
        line, folded = self.line, self._folded
        if line is None:
            return
        self.app.push_screen(
            Closeup(
                line.name,
                lambda then: self.fetch(
                    lambda workshop: look(workshop, line.id, folded=folded).picture,
                    then,
                    group="closeup",
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

        def drawn(measured: Measured, then: Callable[[KindDraft | str], None]) -> None:
            self.fetch(
                lambda workshop: draft(workshop, measured), then, group="draft", rest=DRAFT_REST
            )

        def keep(measured: Measured, then: Callable[[], None]) -> None:
            self.work.change(lambda workshop: workshop.kinds.add(measured), lambda _: then())

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
            self.work.change(
                lambda workshop: workshop.kinds.trial(line.id), self._tried, words="Drawing"
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
        line = self.line
        if line is not None:
            self.fetch(
                lambda workshop: workshop.kinds.trial_sides(line.id),
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
            lambda misfits: self.work.change(
                lambda workshop: workshop.kinds.correct(line.id, misfits)
            ),
        )


def changed(before: Mapping[str, Setting], after: Mapping[str, Setting]) -> str | None:
    """Return the setting that was changed last, so that it comes in sight."""
    return next((act for act in before if before[act] != after[act]), None)


def look(workshop: Workshop, kind: str, *, folded: bool) -> Seen:
    """Return a case kind with its picture."""
    (report,) = workshop.kinds.reports(kind)
    picture = workshop.kinds.folded_picture(kind) if folded else workshop.kinds.net_picture(kind)
    return Seen(report, picture)


def draft(workshop: Workshop, measured: Measured) -> KindDraft | str:
    """Return how a case of one's own looks, or what is wrong with it."""
    try:
        return workshop.kinds.draft(measured)
    except SpineryError as error:
        return str(error)
