"""Backlog: all games; filter, sort, mark several, act on all that are marked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, Static

from engine import GameLine, Progress, Proposal, Stage, Workshop
from tui.actions import BACKLOG, BY_ID, acts_of, bindings
from tui.roomwords import pace_lines
from tui.screens.base import View
from tui.screens.dialogs import Report
from tui.screens.games import GamesScreen
from tui.screens.listing import COLUMNS, SORTS, VIEWS, Listed, Wanted, after, entries
from tui.widgets.decisions import Decisions, Shown
from tui.widgets.table import Table

DETAIL_REST = 0.06
"""How long the cursor rests on a game, in seconds, before its decisions are read."""

NEEDS: Mapping[str, Callable[[GameLine], bool]] = {
    "accept": lambda game: game.undecided,
    "accept_sure": lambda game: game.undecided,
    "reopen": lambda game: game.stage is not Stage.LISTED,
    "bring": lambda game: not game.batch,
    "drop": lambda game: game.batch,
    "fit": lambda game: game.stage is Stage.PRINTED,
}
"""What one of the games has to be for an action to make sense."""

ALWAYS = frozenset({"filter", "stage", "sort", "next_batch", "pace", "record", "add_game"})
"""Actions that need no game."""


@dataclass(frozen=True, slots=True)
class BacklogState(View):
    """All games."""

    entries: Mapping[str, Listed]
    """By id, as listed."""


class BacklogScreen(GamesScreen[BacklogState]):
    """The screen on which games are found and marked."""

    PLACE = BACKLOG
    CSS_PATH = "backlog.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(BACKLOG)]
    AUTO_FOCUS = "Table"

    def __init__(self) -> None:
        super().__init__()
        self._marked: frozenset[str] = frozenset()
        self._finding = Wanted()
        self._found: list[Listed] = []
        """The games shown."""
        self._offered: frozenset[str] = frozenset()
        """The actions that make sense for the games they are for."""

    def body(self) -> ComposeResult:
        """Lay out the line to filter by, the table, and what it shows."""
        line = Input(placeholder="words that a game carries", id="filter")
        line.display = False
        yield line
        with Vertical():
            yield Table(COLUMNS, empty="No game is like that.", marks=True)
            yield Static(id="status", classes="note")
            yield Decisions()

    @property
    def entries(self) -> Mapping[str, Listed]:
        """All games by id, as listed."""
        return self.state.entries if self.state else {}

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> BacklogState:
        """Read all games; what was worked out for those that are as they were stays."""
        before, kinds = self.state, workshop.kinds.names()
        known = before.entries if before and before.kinds == kinds else {}
        listed = entries(workshop.games.lines(), kinds, known)
        return BacklogState(workshop.progress(), kinds, listed)

    def show(self, state: BacklogState) -> None:
        """Show the games that the filter lets through."""
        self._marked &= state.entries.keys()
        self._find()
        self._read_detail()

    def _find(self, **wanted: str) -> None:
        """Look for something else, and show what is found."""
        self._finding = self._finding._replace(**wanted)
        self._found = self._finding.of(self.entries.values())
        self.query_one(Table).show([entry.row for entry in self._found])
        self._mark(self._marked)

    def _mark(self, marked: frozenset[str]) -> None:
        """Mark these games and no others."""
        self._marked = self.query_one(Table).marked = marked
        self.query_one("#status", Static).update(Content(self._status()))
        self._offer()

    def _status(self) -> str:
        finding = self._finding
        parts = [f"{len(self._found)} of {len(self.entries)}", finding.view, finding.sort]
        if finding.words:
            parts.append(f"“{finding.words}”")
        if self._marked:
            hidden = len(self._marked.difference(entry.game.id for entry in self._found))
            out = f", {hidden} of them not shown" if hidden else ""
            parts.append(f"{len(self._marked)} marked{out}")
        return " · ".join(parts) + "    ◆ marked  ○ sure  ? in doubt  ✓ done  ↻ reprint  ▪ batch"

    def on_table_highlighted(self) -> None:
        """Show the decisions of the game that the cursor came to."""
        self._read_detail()
        self._offer()

    def _read_detail(self) -> None:
        detail, game = self.query_one(Decisions), self.query_one(Table).current
        if game is None or not detail.display:
            detail.shown = None
            return
        self.fetch(
            lambda workshop: workshop.designs.proposal(game),
            self._show_detail,
            group="detail",
            rest=DETAIL_REST,
        )

    def _show_detail(self, proposal: Proposal) -> None:
        kinds = self.state.kinds if self.state else {}
        self.query_one(Decisions).shown = Shown(proposal, kinds.get(proposal.case, proposal.case))

    # --- finding -----------------------------------------------------------------------

    def action_filter(self) -> None:
        """Type words to filter by."""
        line = self.query_one("#filter", Input)
        line.display = True
        line.focus()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Filter by the words typed so far."""
        if event.value != self._finding.words:
            self._find(words=event.value)

    def on_input_submitted(self) -> None:
        """Go back to the table, filtered."""
        self._leave_filter()

    def _leave_filter(self) -> None:
        self.query_one("#filter").display = bool(self._finding.words)
        self.query_one(Table).focus()

    def action_stage(self) -> None:
        """Show the next stage."""
        self._find(view=after(self._finding.view, VIEWS))

    def action_sort(self) -> None:
        """Sort by the next column."""
        self._find(sort=after(self._finding.sort, SORTS))

    def action_clear(self) -> None:
        """Clear the line being typed, else the marks, else the filter and the view."""
        line = self.query_one("#filter", Input)
        if not line.has_focus and self._marked:
            self._mark(frozenset())
        else:
            self._find(words="", view=Wanted().view)
            line.value = ""
        self._leave_filter()

    # --- how far it is -----------------------------------------------------------------

    def action_pace(self) -> None:
        """Show the games done week by week, and what is left."""
        self.long_fetch(
            lambda workshop, cancel: workshop.outlook(cancel),
            self._show_pace,
            group="pace",
            words="Planning",
        )

    def _show_pace(self, progress: Progress) -> None:
        if progress.pace is not None:
            lines = pace_lines(progress.pace, progress.sheets_left)
            self.app.push_screen(Report("Progress", lines))

    # --- marking -----------------------------------------------------------------------

    def action_mark(self) -> None:
        """Mark or unmark the game and go to the next."""
        table = self.query_one(Table)
        if table.current is not None:
            marked = self._marked ^ {table.current}
            table.action_move(1)
            self._mark(marked)

    def on_table_mark_clicked(self, message: Table.MarkClicked) -> None:
        """Mark or unmark the game whose mark was clicked."""
        self._mark(self._marked ^ {message.row})

    def action_mark_all(self) -> None:
        """Mark all games shown, or unmark them if all are."""
        shown = {entry.game.id for entry in self._found}
        self._mark(self._marked - shown if shown <= self._marked else self._marked | shown)

    # --- acting ------------------------------------------------------------------------

    def targets(self) -> tuple[str, ...]:
        """Return the games marked, as listed, else the one under the cursor."""
        if self._marked:
            return tuple(game for game in self.entries if game in self._marked)
        current = self.query_one(Table).current
        return (current,) if current is not None else ()

    @property
    def current_game(self) -> str:
        """The game under the cursor."""
        return self.query_one(Table).current or ""

    def case_of(self, game: str) -> str:
        """Return the case kind of a game."""
        entry = self.entries.get(game)
        return entry.game.case if entry else ""

    def _offer(self) -> None:
        """Work out which actions make sense for the games they are for."""
        listed = self.entries
        games = [listed[game].game for game in self.targets()]
        self._offered = frozenset(
            act.id
            for act in acts_of(BACKLOG)
            if (any(map(NEEDS[act.id], games)) if act.id in NEEDS else games)
        )
        self.refresh_bindings()

    def possible(self, act: str) -> bool:
        """Leave out what does nothing now."""
        if act == "clear":
            return self._can_clear() and not self.work.can_stop
        return act in ALWAYS or act in self._offered

    def _can_clear(self) -> bool:
        shown = self.query_one("#filter").display
        return bool(self._marked) or self._finding.is_narrow or shown

    def action_accept(self) -> None:
        """Accept what is proposed for the games; with none marked, go to the next."""
        games = self.targets()
        if games:
            self.accept_all(games, sure_only=False)
            if not self._marked:
                self.query_one(Table).action_move(1)

    def action_next_batch(self) -> None:
        """Bring those games that fill a sheet soonest, of the marked or of all shown."""
        shown = tuple(entry.game.id for entry in self._found)
        games = self.targets() if self._marked else shown
        self.bring_next(games, lambda brought: self.notify(brought.words, markup=False))

    def action_bring(self) -> None:
        """Bring the games into today's batch."""
        games = self.targets()
        bench = BY_ID["bench"].shown
        if games:
            self.work.change(
                lambda workshop: workshop.batch.add(games),
                lambda batch: self.say(
                    f"{len(batch)} games in the batch", [f"{bench} goes to the Bench."]
                ),
            )
