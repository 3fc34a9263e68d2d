"""Backlog: all games; filter, sort, mark several, act on all that are marked."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.widgets import Input

from engine import (
    Finder,
    Listed,
    Order,
    Progress,
    Proposal,
    Trait,
    Wanted,
    Workshop,
    conditions,
    listed,
)
from tui.actions import BACKLOG, BY_ID, acts_of, bindings
from tui.roomwords import pace_lines
from tui.screens.base import View
from tui.screens.choosers import Search
from tui.screens.dialogs import Confirm, Report
from tui.screens.games import GamesScreen
from tui.screens.listing import (
    ALL,
    COLUMNS,
    CONDITION_COLUMNS,
    Able,
    FoundRows,
    Status,
    able,
    after,
    condition_of,
    condition_rows,
    rows,
    wanted_words,
)
from tui.widgets.decisions import Decisions, Shown
from tui.widgets.table import Row, Table
from tui.words import count

DETAIL_REST = 0.06
"""How long the cursor rests on a game, in seconds, before its decisions are read."""

EMPTY = "No game is like that."

JUDGING = "judging"
"""The group of the work that judges the games for the traits that take it."""

ALWAYS = frozenset({"filter", "only", "sort", "next_batch", "pace", "record", "add_game"})
"""Actions that need no game."""


@dataclass(frozen=True)
class BacklogState(View):
    """All games."""

    entries: Mapping[str, Listed]
    """By id, as listed."""
    rows: Mapping[str, Row]
    able: Able
    """For which games each action makes sense that does not for all."""

    @cached_property
    def places(self) -> Mapping[str, int]:
        """The place of each game in the list."""
        return {game: place for place, game in enumerate(self.entries)}


class BacklogScreen(GamesScreen[BacklogState]):
    """The screen on which games are found and marked."""

    PLACE = BACKLOG
    CSS_PATH = "backlog.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(BACKLOG)]
    AUTO_FOCUS = "Table"

    def __init__(self) -> None:
        super().__init__()
        self._marked: frozenset[str] = frozenset()
        self._finder = Finder()
        self._anchor: str | None = None
        """The game last marked by itself, from which a range is marked."""
        self._offered: frozenset[str] = frozenset()
        """The actions that make sense for the games they are for."""

    def body(self) -> ComposeResult:
        """Lay out the line to filter by, the table, and what it shows."""
        line = Input(placeholder="words that a game carries", id="filter")
        line.display = False
        yield line
        with Vertical():
            yield Table(COLUMNS, empty=EMPTY, marks=True)
            yield Status(id="status", classes="note")
            yield Decisions()

    @property
    def entries(self) -> Mapping[str, Listed]:
        """All games by id, as listed."""
        return self.state.entries if self.state else {}

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> BacklogState:
        """Read all games; what was worked out for those that are as they were stays."""
        before, kinds = self.state, workshop.kinds.names()
        known = before if before and before.kinds == kinds else None
        entries = listed(workshop.games.lines(), kinds, known.entries if known else {})
        return BacklogState(
            workshop.progress(),
            kinds,
            entries,
            rows(entries, known.rows if known else {}),
            able(entries, known.entries if known else {}, known.able if known else None),
        )

    def show(self, state: BacklogState) -> None:
        """Show the games that the filter lets through."""
        self._marked &= state.entries.keys()
        self._finder.take(state.entries.values())
        self._judge()
        self._find()
        self._read_detail()

    def _want(self, wanted: Wanted) -> None:
        """Look for something else, and show what is found."""
        before = self._finder.wanted
        self._finder.want(wanted)
        if wanted.judged - before.judged:
            self._judge()
        self._find()

    def _find(self) -> None:
        """Show what is found."""
        self.__dict__.pop("_shown", None)
        table, found = self.query_one(Table), self._finder.found
        current = self.entries.get(table.current or "")
        place = next((at for at, one in enumerate(found) if one is current), table.cursor)
        table.show(FoundRows(found, self.state.rows if self.state else {}), place=place)
        self._mark(self._marked)

    def _judge(self) -> None:
        """Judge the games that are left by all else that is wanted, where that takes it."""
        games = self._finder.to_judge
        if not games:
            return
        self.query_one(Table).empty = "The games are judged: this takes a while once."
        self.long_fetch(
            lambda workshop, cancel: workshop.games.traits(games, cancel=cancel),
            self._was_judged,
            group=JUDGING,
            words="Judging",
            stopped=self._judging_stopped,
        )

    def _was_judged(self, judged: Mapping[str, frozenset[Trait]]) -> None:
        self.query_one(Table).empty = EMPTY
        self._finder.judge(judged)
        self._find()

    def _judging_stopped(self) -> None:
        self.query_one(Table).empty = EMPTY
        self._want(self._finder.wanted.unjudged)

    def _mark(self, marked: frozenset[str]) -> None:
        """Mark these games and no others."""
        self._marked = self.query_one(Table).marked = marked
        self.query_one(Status).said = self._said()
        self._offer()

    def _said(self) -> str:
        parts = [
            f"{len(self._finder.found)} of {len(self.entries)}",
            wanted_words(self._finder.wanted),
        ]
        if self._marked:
            hidden = self._hidden()
            out = f", {hidden} of them not shown" if hidden else ""
            parts.append(f"{len(self._marked)} marked{out}")
        return " · ".join(parts)

    def _hidden(self) -> int:
        """Return how many of the games marked are not shown."""
        return len(self._marked - self._shown)

    @cached_property
    def _shown(self) -> frozenset[str]:
        """The games shown, by id."""
        return frozenset(one.game.id for one in self._finder.found)

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
        self.set_focus(line)  # at once: letters may be on their way

    def on_input_changed(self, event: Input.Changed) -> None:
        """Filter by the words typed so far."""
        if event.value != self._finder.wanted.words:
            self._want(self._finder.wanted._replace(words=event.value))

    def on_input_submitted(self) -> None:
        """Go back to the table, filtered."""
        self._leave_filter()

    def _leave_filter(self) -> None:
        self.query_one("#filter").display = bool(self._finder.wanted.words)
        self.query_one(Table).focus()

    def action_only(self) -> None:
        """Choose one more condition, or take one back."""
        counts = conditions(self._finder.sorted)

        def find(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            self.call_later(then, condition_rows(counts, self._finder.wanted, words))

        def chosen(said: str | None) -> None:
            if said == ALL:
                self._want(self._finder.wanted._replace(only=frozenset()))
            elif said is not None:
                self._want(self._finder.wanted.toggled(condition_of(said)))

        self.app.push_screen(Search("Show only", CONDITION_COLUMNS, find), chosen)

    def action_sort(self) -> None:
        """Sort by the next column."""
        order = Order(after(self._finder.wanted.order, [*Order]))
        self._want(self._finder.wanted._replace(order=order))

    def action_clear(self) -> None:
        """Clear the line being typed, else the marks, else the filter and the view."""
        line = self.query_one("#filter", Input)
        if not line.has_focus and self._marked:
            self._mark(frozenset())
        else:
            self._want(self._finder.wanted._replace(words="", only=frozenset()))
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
            self._anchor = table.current
            marked = self._marked ^ {table.current}
            table.action_move(1)
            self._mark(marked)

    def on_table_mark_clicked(self, message: Table.MarkClicked) -> None:
        """Mark or unmark the game whose mark was clicked."""
        self._mark(self._marked ^ {message.row})

    def action_mark_all(self) -> None:
        """Mark all games shown, or unmark them if all are."""
        shown = self._shown
        self._mark(self._marked - shown if shown <= self._marked else self._marked | shown)

    def action_mark_to(self) -> None:
        """Mark every game from the one last marked to the one under the cursor."""
        table = self.query_one(Table)
        places = [at for at, one in enumerate(self._finder.found) if one.game.id == self._anchor]
        first, last = sorted((places[0] if places else table.cursor, table.cursor))
        self._mark(self._marked.union(one.game.id for one in self._finder.found[first : last + 1]))
        self._anchor = table.current

    # --- acting ------------------------------------------------------------------------

    def targets(self) -> tuple[str, ...]:
        """Return the games marked, as listed, else the one under the cursor."""
        if self._marked and self.state:
            return tuple(sorted(self._marked, key=self.state.places.__getitem__))
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
        able = self.state.able if self.state else {}
        games = self._marked or {*filter(None, (self.query_one(Table).current,))}
        self._offered = frozenset(
            act.id
            for act in acts_of(BACKLOG)
            if games and (act.id not in able or not able[act.id].isdisjoint(games))
        )
        self.refresh_bindings()

    def ask_all(self, act: str, do: Callable[[Sequence[str]], None]) -> None:
        """Do something to the games for which it makes sense; of several, ask first."""
        games, needed = self.targets(), self.state.able.get(act) if self.state else None
        wanted = [game for game in games if needed is None or game in needed]
        if not wanted:
            return
        if len(games) == 1:
            do(wanted)
            return
        label, hidden, left = BY_ID[act].label, self._hidden(), len(games) - len(wanted)
        lines = [f"{count(len(games), 'game')} marked."]
        lines += [f"{hidden} of them not shown: the filter hides them."] if hidden else []
        lines += [f"{left} of them left as they are: it does nothing for them."] if left else []

        def chosen(yes: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if yes:
                do(wanted)

        title = f"{label}: {count(len(wanted), 'game')}"
        self.app.push_screen(Confirm(title, lines, f"{label} {len(wanted)}"), chosen)

    def possible(self, act: str) -> bool:
        """Leave out what does nothing now."""
        if act == "clear":
            return self._can_clear() and not self.work.can_stop
        return act in ALWAYS or act in self._offered

    def _can_clear(self) -> bool:
        shown = self.query_one("#filter").display
        return bool(self._marked) or self._finder.wanted.is_narrow or shown

    def action_accept(self) -> None:
        """Accept what is proposed for the games; with none marked, go to the next."""
        self.ask_all("accept", lambda games: self.accept_all(games, sure_only=False))
        if not self._marked:
            self.query_one(Table).action_move(1)

    def action_next_batch(self) -> None:
        """Bring those games that fill a sheet soonest, of the marked or of all shown."""
        shown = tuple(entry.game.id for entry in self._finder.found)
        games = self.targets() if self._marked else shown
        self.bring_next(games, lambda brought: self.notify(brought.words, markup=False))

    def action_bring(self) -> None:
        """Bring the games into today's batch."""
        bench = BY_ID["bench"].shown
        self.ask_all(
            "bring",
            lambda games: self.work.change(
                lambda workshop: workshop.batch.add(games),
                lambda batch: self.say(
                    f"{len(batch)} games in the batch", [f"{bench} goes to the Bench."]
                ),
            ),
        )
