"""Backlog: all games; filter, sort, mark several, act on all that are marked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any, ClassVar

from natsort import natsort_keygen, ns
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, Static

from engine import GameLine, Proposal, Stage, Workshop
from tui.actions import BACKLOG, BY_ID, bindings
from tui.screens.base import Snapshot, kind_names
from tui.screens.games import GamesScreen, is_unfinished
from tui.widgets.decisions import Decisions, Shown
from tui.widgets.table import Column, Row, Table

DETAIL_PAUSE = 0.06
"""How long the cursor rests on a game, in seconds, before its decisions are read."""

COLUMNS = (
    Column("", 2),
    Column("Title"),
    Column("Stage", 11),
    Column("Case", 22, least=64),
    Column("Series", 18, least=96),
    Column("Maker", 16, least=116),
    Column("Year", 6, least=124),
)

natural = natsort_keygen(alg=ns.IGNORECASE)
STAGES = tuple(Stage)


def has_stage(stage: Stage, game: GameLine) -> bool:
    """Return whether a game stands at a stage."""
    return game.stage is stage


SORTS: dict[str, Callable[[GameLine], Any]] = {
    "as listed": lambda _: 0,
    "by title": lambda game: natural(game.title),
    "by stage": lambda game: STAGES.index(game.stage),
    "by case": lambda game: natural(game.case),
    "by series": lambda game: (not game.series, natural(game.series)),
    "by maker": lambda game: (not game.maker, natural(game.maker)),
}
"""The orders, in which equals stay as listed."""

VIEWS: dict[str, Callable[[GameLine], bool]] = {
    "all stages": lambda _: True,
    **{str(stage): partial(has_stage, stage) for stage in Stage},
    "in doubt": lambda game: is_unfinished(game) and not game.sure,
    "to reprint": lambda game: game.reprint,
    "in the batch": lambda game: game.batch,
}
"""What the stage key shows, one after the other."""

NEEDS: dict[str, Callable[[GameLine], bool]] = {
    "accept": is_unfinished,
    "accept_sure": is_unfinished,
    "reopen": lambda game: game.stage is not Stage.LISTED,
    "bring": lambda game: not game.batch,
    "drop": lambda game: game.batch,
    "fit": lambda game: game.stage is Stage.PRINTED,
}
"""What one of the games has to be for an action to make sense."""


@dataclass(frozen=True, slots=True)
class BacklogState(Snapshot):
    """All games."""

    games: tuple[GameLine, ...]
    by_id: Mapping[str, GameLine]


class BacklogScreen(GamesScreen[BacklogState]):
    """The screen on which games are found and marked."""

    PLACE = BACKLOG
    CSS_PATH = "backlog.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(BACKLOG)]

    def __init__(self) -> None:
        super().__init__()
        self._marked: set[str] = set()
        self._words = ""
        self._view = next(iter(VIEWS))
        self._sort = next(iter(SORTS))

    def body(self) -> ComposeResult:
        """Lay out the line to filter by, the table, and what it shows."""
        yield Input(placeholder="words that a game carries", id="filter")
        with Vertical():
            yield Table(COLUMNS, empty="No game is like that.", marks=True)
            yield Static(id="status", classes="note")
            yield Decisions()

    def on_mount(self) -> None:
        """Begin on the table."""
        self.query_one("#filter").display = False
        self.query_one(Table).focus()

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> BacklogState:
        """Read all games."""
        games = workshop.games.lines()
        return BacklogState(
            workshop.progress(), kind_names(workshop), games, {game.id: game for game in games}
        )

    def show(self, state: BacklogState) -> None:
        """Show the games that the filter lets through."""
        self._marked &= state.by_id.keys()
        self._show_rows()
        self._read_detail()

    def _shown(self) -> list[GameLine]:
        """Return the games that the view and the filter let through, in order."""
        games = self.state.games if self.state else ()
        words = self._words.casefold().split()
        found = [
            game
            for game in games
            if VIEWS[self._view](game) and all(word in self._text(game) for word in words)
        ]
        return sorted(found, key=SORTS[self._sort])

    def _text(self, game: GameLine) -> str:
        kind = self.state.kinds.get(game.case, "") if self.state else ""
        fields = (game.title, game.series, game.maker, game.genre, game.year, game.notes, kind)
        return " ".join((*fields, game.id)).casefold()

    def _show_rows(self, at: str | None = None) -> None:
        games, state = self._shown(), self.state
        if state is None:
            return
        rows = [
            Row(
                game.id,
                (
                    sign(game) + ("▪" if game.batch else " "),
                    game.title,
                    f"{game.stage}",
                    state.kinds.get(game.case, game.case),
                    game.series,
                    game.maker,
                    game.year,
                ),
                marked=game.id in self._marked,
                faint=game.stage is Stage.FITTED,
            )
            for game in games
        ]
        self.query_one(Table).show(rows, at=at)
        hidden = len(self._marked - {game.id for game in games})
        self.query_one("#status", Static).update(Content(self._status(len(games), hidden)))
        self.refresh_bindings()

    def _status(self, shown: int, hidden: int) -> str:
        total = len(self.state.games) if self.state else 0
        parts = [f"{shown} of {total}", self._view, self._sort]
        if self._words:
            parts.append(f"“{self._words}”")
        if self._marked:
            out = f", {hidden} of them not shown" if hidden else ""
            parts.append(f"{len(self._marked)} marked{out}")
        return " · ".join(parts) + "    ◆ marked  ○ sure  ? in doubt  ✓ done  ↻ reprint  ▪ batch"

    def on_table_highlighted(self) -> None:
        """Show the decisions of the game that the cursor came to."""
        self._read_detail()
        self.refresh_bindings()

    def _read_detail(self) -> None:
        detail, game = self.query_one(Decisions), self.query_one(Table).current
        if game is None or not detail.display:
            detail.shown = None
            return
        workshop = self.spinery.workshop
        self.spinery.fetch(
            lambda: workshop.designs.proposal(game),
            self._show_detail,
            group="detail",
            pause=DETAIL_PAUSE,
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
        self._words = event.value
        self._show_rows()

    def on_input_submitted(self) -> None:
        """Go back to the table, filtered."""
        self._leave_filter()

    def _leave_filter(self) -> None:
        self.query_one("#filter").display = bool(self._words)
        self.query_one(Table).focus()

    def action_stage(self) -> None:
        """Show the next stage."""
        self._view = after(self._view, VIEWS)
        self._show_rows()

    def action_sort(self) -> None:
        """Sort by the next column."""
        self._sort = after(self._sort, SORTS)
        self._show_rows()

    def action_clear(self) -> None:
        """Clear the line being typed, else the marks, else the filter and the view."""
        line = self.query_one("#filter", Input)
        if not line.has_focus and self._marked:
            self._marked.clear()
        else:
            line.value = self._words = ""
            self._view = next(iter(VIEWS))
        self._leave_filter()
        self._show_rows()

    # --- marking -----------------------------------------------------------------------

    def action_mark(self) -> None:
        """Mark or unmark the game and go to the next."""
        table = self.query_one(Table)
        if table.current is not None:
            self._marked ^= {table.current}
            table.action_move(1)
            self._show_rows()

    def on_table_mark_clicked(self, message: Table.MarkClicked) -> None:
        """Mark or unmark the game whose mark was clicked."""
        self._marked ^= {message.row}
        self._show_rows()

    def action_mark_all(self) -> None:
        """Mark all games shown, or unmark them if all are."""
        shown = {game.id for game in self._shown()}
        self._marked = self._marked - shown if shown <= self._marked else self._marked | shown
        self._show_rows()

    # --- acting ------------------------------------------------------------------------

    def targets(self) -> tuple[str, ...]:
        """Return the games marked, as listed, else the one under the cursor."""
        if self._marked and self.state is not None:
            return tuple(game.id for game in self.state.games if game.id in self._marked)
        current = self.query_one(Table).current
        return (current,) if current is not None else ()

    def case_of(self, game: str) -> str:
        """Return the case kind of a game."""
        line = self.state.by_id.get(game) if self.state else None
        return line.case if line else ""

    def possible(self, act: str) -> bool:
        """Leave out what does nothing now."""
        if act == "clear":
            return self._can_clear() and not self.spinery.can_stop
        if act in {"filter", "stage", "sort", "next_batch"}:
            return True
        lines = [self.state.by_id[game] for game in self.targets()] if self.state else []
        needs = NEEDS.get(act)
        return any(map(needs, lines)) if needs else bool(lines)

    def _can_clear(self) -> bool:
        return (
            bool(self._marked or self._words)
            or self.query_one("#filter").display
            or self._view != next(iter(VIEWS))
        )

    def action_accept(self) -> None:
        """Accept what is proposed for the games; with none marked, go to the next."""
        games = self.targets()
        if games:
            self.accept_all(games, sure_only=False)
            if not self._marked:
                self.query_one(Table).action_move(1)

    def action_next_batch(self) -> None:
        """Bring those games that fill a sheet soonest, of the marked or of all shown."""
        games = self.targets() if self._marked else tuple(game.id for game in self._shown())
        self.bring_next(games, lambda brought: self.notify(brought.words, markup=False))

    def action_bring(self) -> None:
        """Bring the games into today's batch."""
        games = self.targets()
        bench = BY_ID["bench"].shown
        if games:
            self.spinery.deed(
                lambda workshop: workshop.batch.add(games),
                lambda batch: self.say(
                    f"{len(batch)} games in the batch", [f"{bench} goes to the Bench."]
                ),
            )


def sign(game: GameLine) -> str:
    """Return the sign for what is left to do for a game."""
    if game.reprint:
        return "↻"
    if is_unfinished(game):
        return "○" if game.sure else "?"
    return "✓"


def after(present: str, choices: Mapping[str, object]) -> str:
    """Return the choice after the present one, going round."""
    names = list(choices)
    return names[(names.index(present) + 1) % len(names)]
