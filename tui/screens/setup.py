"""Setup: the case kinds, a case of one's own, and a list of all that is set."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.command import DiscoveryHit, Hit, Hits, Provider
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from engine import (
    SETTINGS,
    CaseShape,
    KindDraft,
    KindLine,
    KindReport,
    Legibility,
    Measured,
    SettingLine,
    SpineryError,
    TrialReport,
    TrialSide,
    Workshop,
)
from tui.actions import BY_ID, SETUP, bindings
from tui.gamewords import legibility_lines
from tui.screens.base import View, WorkScreen
from tui.screens.caseforms import CaseForm, Misfits, misfit_fields, read_misfits
from tui.screens.choosers import Pick
from tui.screens.dialogs import Closeup, Report
from tui.screens.forms import Form
from tui.screens.settings import Asking
from tui.screens.setupwords import about_words, setting_words
from tui.screens.trying import EFFECT, show_effect
from tui.widgets.effect import EffectView
from tui.widgets.proof import Proof
from tui.widgets.table import Column, Row, Table
from tui.words import SHAPES

KIND_REST = 0.06
"""How long the cursor rests on a kind, in seconds, before it is drawn."""

NEED_KIND = frozenset({"trial", "correct", "panels", "folded", "zoom"})
"""Actions that make no sense without a case kind."""

DRAFT_REST = 0.15
"""How long the typing rests, in seconds, before a case of one's own is drawn."""


@dataclass(frozen=True, slots=True)
class SetupState(View):
    """The case kinds and what is set."""

    lines: tuple[KindLine, ...]
    settings: tuple[SettingLine, ...]


@dataclass(frozen=True, slots=True)
class Seen:
    """A case kind that is looked at."""

    report: KindReport
    stock: str
    """The name of the paper it is printed on."""
    picture: bytes


class SettingCommands(Provider):
    """Every setting, in the command palette."""

    async def discover(self) -> Hits:
        """Offer all of them."""
        for name, ask in self._all():
            yield DiscoveryHit(SETTINGS[name].title, ask, help=SETTINGS[name].about)

    async def search(self, query: str) -> Hits:
        """Offer those that are like some words."""
        matcher = self.matcher(query)
        for name, ask in self._all():
            title = SETTINGS[name].title
            if score := matcher.match(title):
                yield Hit(score, matcher.highlight(title), ask, help=SETTINGS[name].about)

    def _all(self) -> list[tuple[str, Callable[[], None]]]:
        screen = self.screen
        if not isinstance(screen, SetupScreen) or screen.work.read_only:
            return []
        return [(name, partial(screen.asking.setting, one)) for name, one in SETTINGS.items()]


class SetupScreen(WorkScreen[SetupState]):
    """The screen on which kinds and settings are looked at and changed."""

    PLACE = SETUP
    CSS_PATH = "setup.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(SETUP)]
    COMMANDS: ClassVar = {SettingCommands}

    def __init__(self) -> None:
        super().__init__()
        self._folded = False
        self._fresh: str | None = None
        """The kind just added, to put the cursor on."""

    @cached_property
    def asking(self) -> Asking:
        """What asks for settings."""
        return Asking(self)

    def body(self) -> ComposeResult:
        """Lay out kinds and settings at the left, what the cursor is on at the right."""
        with Horizontal():
            with Vertical(id="list"):
                yield Table(
                    (Column("Case kinds"), Column("games", 5)), empty="No case kinds.", id="kinds"
                )
                yield Table((Column("Settings", 22), Column("")), id="settings")
            with Vertical(id="kind"):
                yield Proof()
                with VerticalScroll(can_focus=False):
                    yield Static(id="about")
            with Vertical(id="setting"):
                yield Static(id="words")
                yield EffectView()

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
            settings=workshop.setup.lines(),
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
        before = {row.id: row.cells[-1] for row in self._settings.rows}
        settings = [
            Row(line.setting.id, (line.setting.title, line.words)) for line in state.settings
        ]
        # What was changed last comes in sight, wherever it was changed.
        changed = (row.id for row in settings if before.get(row.id, row.cells[-1]) != row.cells[-1])
        self._settings.show(settings, at=next(changed, None))
        self._show_current()

    @property
    def _kinds(self) -> Table:
        return self.query_one("#kinds", Table)

    @property
    def _settings(self) -> Table:
        return self.query_one("#settings", Table)

    @property
    def line(self) -> KindLine | None:
        """The case kind that the cursor is on."""
        lines = self.state.lines if self.state else ()
        return next((line for line in lines if line.id == self._kinds.current), None)

    @property
    def setting(self) -> SettingLine | None:
        """The setting that the cursor is on, while it is among them."""
        lines = self.state.settings if self.state and self._settings.has_focus else ()
        return next((one for one in lines if one.setting.id == self._settings.current), None)

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
            self.workers.cancel_group(self, EFFECT)
            self._show_kind()
        else:
            self.query_one("#words", Static).update(Content(setting_words(setting)))
            self._show_effect(setting)

    def _show_effect(self, line: SettingLine) -> None:
        """Show what the setting does as it is, once the keys rest and the room is known."""
        view, name = self.query_one(EffectView), line.setting.id
        view.clear(of=name)
        self.call_after_refresh(show_effect, self.work, self, view, name, {})

    def _show_kind(self) -> None:
        line, folded = self.line, self._folded
        self.asking.kind = self._kinds.current
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
        if self.line is not None and self.line.id == seen.report.kind.id:
            self.query_one(Proof).show(seen.picture, of=seen.report.kind.id)
            self.query_one("#about", Static).update(Content(about_words(seen.report, seen.stock)))

    def _not_seen(self) -> None:
        self.query_one(Proof).show(None, "It cannot be drawn.")

    def possible(self, act: str) -> bool:
        """Leave out what needs a kind while there is none."""
        if self.state is None:
            return False
        if act == "change_setting":
            return self.setting is not None or self.line is not None
        return act not in NEED_KIND or self.line is not None

    def action_other_list(self) -> None:
        """Go to the settings, or back to the case kinds."""
        (self._kinds if self._settings.has_focus else self._settings).focus()

    def action_change_setting(self) -> None:
        """Change the setting that the cursor is on, or what is set for the case kind."""
        setting, line = self.setting, self.line
        if setting is not None:
            self.asking.setting(setting.setting)
        elif line is not None:
            self.fetch(
                lambda workshop: (workshop.setup.settings(), workshop.setup.there()),
                lambda present: self.asking.of_kind(line.id, *present),
                group="setting",
            )

    def action_panels(self) -> None:
        """Leave panels out of this kind."""
        if self.line is not None:
            self.asking.setting(SETTINGS["left_out"], self.line.id)

    def action_far_titles(self) -> None:
        """List the titles that fall short."""

        def show(report: Legibility) -> None:
            self.app.push_screen(Report("Far titles", legibility_lines(report)))

        self.fetch(lambda workshop: workshop.titles.report(), show, group="titles")

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
        self.asking.open(pick, lambda shape: self._describe(CaseShape(shape)))

    def _describe(self, shape: CaseShape) -> None:
        def drawn(measured: Measured, then: Callable[[KindDraft | str], None]) -> None:
            self.fetch(
                lambda workshop: draft(workshop, measured), then, group="draft", rest=DRAFT_REST
            )

        def keep(measured: Measured, then: Callable[[], None]) -> None:
            self.work.change(lambda workshop: workshop.kinds.add(measured), lambda _: then())

        self.asking.open(CaseForm(shape, drawn, keep), self._kept)

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
        self.asking.open(
            form,
            lambda misfits: self.work.change(
                lambda workshop: workshop.kinds.correct(line.id, misfits)
            ),
        )


def look(workshop: Workshop, kind: str, *, folded: bool) -> Seen:
    """Return a case kind with its picture."""
    (report,) = workshop.kinds.reports(kind)
    picture = workshop.kinds.folded_picture(kind) if folded else workshop.kinds.net_picture(kind)
    return Seen(report, workshop.setup.settings().stock_of(kind).name, picture)


def draft(workshop: Workshop, measured: Measured) -> KindDraft | str:
    """Return how a case of one's own looks, or what is wrong with it."""
    try:
        return workshop.kinds.draft(measured)
    except SpineryError as error:
        return str(error)
