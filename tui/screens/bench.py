"""Bench: today's batch, and the proof and the four decisions of the current game."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from engine import AcceptReport, Design, Proposal, SheetsReport, Stage, Workshop
from tui.actions import BENCH, BY_ID, EVERYWHERE, bindings
from tui.picturekind import SHARP
from tui.screens.base import View
from tui.screens.batchorder import BatchOrder
from tui.screens.deciding import LARGE, DecidingScreen
from tui.screens.games import Brought
from tui.screens.proofs import KeptProofs, draw, picture, same_print
from tui.screens.sheetwords import filling, filling_words
from tui.widgets.decisions import Decisions, Shown
from tui.widgets.proof import Proof
from tui.widgets.sheetmap import Drawn, SheetMap
from tui.widgets.table import Column, Row, Table

GANGING = "ganging"
"""The group of the work on the sheets."""

PROOF = "proof"
"""The group of the work on the proof."""

PROOF_REST = 0.06
"""How long the cursor rests on a game, in seconds, before its proof is drawn."""


PROOF_LEAST = 7
"""Lines that the proof has however much there is to say of a game."""

COARSE = (
    "This terminal shows pictures in half blocks. One that draws pictures dot by dot, by sixels "
    "say, shows the proof sharp; what is printed is sharp in any."
)


@dataclass(frozen=True, slots=True)
class BenchState(View):
    """Today's batch."""

    batch: tuple[Proposal, ...]
    undecided: int
    """Games with a decision to take that are not in the batch."""
    titles: Mapping[str, str]
    """Of all games, by id."""

    def find(self, game: str | None) -> Proposal | None:
        """Return the proposal of a game of the batch."""
        return next((p for p in self.batch if p.game == game), None)


class BenchScreen(DecidingScreen[BenchState]):
    """The screen on which games are decided."""

    PLACE = BENCH
    CSS_PATH = "bench.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(BENCH)]

    def __init__(self) -> None:
        super().__init__()
        self._taking: dict[str, bool] = {}
        """Games being accepted; True once that is done and only to be read again."""
        self._bringing = False
        self._sought: str | None = None
        """The game that another screen was at, to put the cursor on."""
        self._order = BatchOrder()
        self._folded = False
        self._kept = {False: KeptProofs(), True: KeptProofs()}
        """Proofs of flat and of folded inserts."""
        self._sheets: SheetsReport | None = None
        """The sheets as they were when last ganged."""
        self._drawing: Proposal | None = None
        """The design whose proof is on its way."""
        self._said_coarse = SHARP

    def body(self) -> ComposeResult:
        """Lay out the batch at the left, the current game at the right."""
        with Horizontal():
            with Vertical(id="batch"):
                yield Table(
                    (Column("", 1), Column("Today's batch"), Column("Case", 20, least=44)),
                    empty="No batch yet.",
                )
                yield SheetMap()
                yield Static(id="hint", classes="note")
            with Vertical(id="game"):
                yield Proof()
                decisions = Decisions()
                decisions.beside = PROOF_LEAST
                yield decisions

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> BenchState:
        """Read the batch."""
        games = workshop.games.lines()
        return BenchState(
            progress=workshop.progress(),
            kinds=workshop.kinds.names(),
            batch=workshop.designs.proposals(workshop.batch.games()),
            undecided=sum(game.undecided and not game.batch for game in games),
            titles={game.id: game.title for game in games},
        )

    def arrived(self, state: BenchState) -> None:
        """Put what is in doubt first."""
        super().arrived(replace(state, batch=self._order.put(state.batch)))

    def show(self, state: BenchState) -> None:
        """Show the batch."""
        self._taking = {game: done for game, done in self._taking.items() if not done}
        self._show_rows(state, at=self._sought or self._order.begins(state.batch))
        self._sought = None
        self._show_game()
        self._gang()

    def follow(self) -> None:
        """Show what was found beside the person's work."""
        self._order.follow()
        super().follow()

    def on_key(self, event: events.Key) -> None:
        """Leave the cursor with the person from now on, unless the key only led elsewhere."""
        if self._order.touched:  # what is bound takes long to find, at every key
            return
        bound = self.active_bindings.get(event.key)
        act = BY_ID.get(bound.binding.id or "") if bound else None
        self._order.touched = act is None or EVERYWHERE not in act.screens

    def on_click(self) -> None:
        """Leave the cursor with the person from now on."""
        self._order.touched = True

    def _gang(self) -> None:
        """Ask for the sheets, which can take seconds: games are accepted meanwhile."""
        self.long_fetch(
            lambda workshop, cancel: workshop.sheets.report(cancel=cancel),
            self._show_filling,
            group=GANGING,
            words="Ganging",
        )

    def on_screen_resume(self) -> None:
        """Go to the game that the Shelf was at."""
        self._sought, self.app.looked_at = self.app.looked_at or self._sought, ""
        if self._sought is not None:
            self._order.touched = True

    def on_screen_suspend(self) -> None:
        """Forget the proof on its way, which is dropped with all that was to be read."""
        if not self.in_sight:
            self._drawing = None

    def _show_filling(self, report: SheetsReport) -> None:
        state = self.state
        if state is None:
            return
        self._sheets = report
        sheet = filling(report)
        titles = tuple(state.titles.get(p.game, p.game) for p in sheet.placements) if sheet else ()
        self.query_one(SheetMap).drawn = Drawn(sheet, titles) if sheet else None
        self._show_hint(state)

    def _show_rows(self, state: BenchState, at: str | None = None) -> None:
        rows = [
            Row(
                p.game,
                (self._sign(p), p.title, state.kinds.get(p.case, p.case)),
                faint=not self._is_open(p),
                patch=p.design.colours.base,
            )
            for p in state.batch
        ]
        self.query_one(Table).show(rows, at=at)
        self._show_hint(state)

    def _show_hint(self, state: BenchState) -> None:
        hint = self._hint(state) if state.batch else ""
        self.query_one("#hint", Static).update(Content(hint))

    def _sign(self, proposal: Proposal) -> str:
        if proposal.game in self._taking:
            return "…"
        if not self._is_open(proposal):
            return "✓"
        return "○" if proposal.sure else "?"

    def _is_open(self, proposal: Proposal) -> bool:
        return proposal.undecided and proposal.game not in self._taking

    def _hint(self, state: BenchState) -> str:
        done = sum(not self._is_open(p) for p in state.batch)
        key = BY_ID["accept"].shown
        if done < len(state.batch):
            return "\n".join(
                (
                    f"{done} of {len(state.batch)} done",
                    *(filling_words(self._sheets) if self._sheets else ()),
                    "○ sure  ? in doubt  ✓ done",
                )
            )
        if state.undecided:
            said = f"All {done} done. " if state.batch else ""
            return f"{said}{key} brings the next games; {state.undecided} are left."
        if not state.progress.games:
            return f"No games yet. {BY_ID['start'].shown} begins with a list."
        return f"Every game is decided. {BY_ID['sheets'].shown} shows the sheets."

    @property
    def _proofs(self) -> KeptProofs:
        return self._kept[self._folded]

    @property
    def current_game(self) -> str:
        """The game under the cursor."""
        return self.query_one(Table).current or ""

    @property
    def game(self) -> Proposal | None:
        """The game under the cursor."""
        return self.state.find(self.query_one(Table).current) if self.state else None

    def on_table_highlighted(self) -> None:
        """Show the game that the cursor came to."""
        self._show_game()
        self.refresh_bindings()

    def _show_game(self) -> None:
        game, state = self.game, self.state
        proof = self.query_one(Proof)
        if game is None or state is None:
            self.query_one(Decisions).shown = None
            proof.show(None, "" if state is None else self._hint(state))
            return
        self.query_one(Decisions).shown = Shown(game, state.kinds.get(game.case, game.case))
        kept = self._proofs.get(game)
        if kept is not None:
            proof.show(kept, of=game.game)
            return
        if proof.of != game.game:
            proof.show(None, "Drawing the proof…", of=game.game)
        if self._drawing is not None and same_print(self._drawing, game):
            return
        self._drawing = game
        folded = self._folded
        self.fetch(
            lambda workshop: draw(workshop, game.game, folded=folded),
            lambda drawn: self._drawn(*drawn, folded=folded),
            group=PROOF,
            rest=PROOF_REST,
            failed=self._not_drawn,
        )

    def _drawn(self, game: Proposal, png: bytes, *, folded: bool) -> None:
        self._kept[folded].keep(game, png)
        if folded is not self._folded:
            return
        self._drawing = None
        if self.game is not None and same_print(self.game, game):
            self.query_one(Proof).show(png, of=game.game)
            self._say_coarse()

    def _say_coarse(self) -> None:
        """Say once why a proof is not sharp."""
        if not self._said_coarse:
            self._said_coarse = True
            self.notify(COARSE, title="Proofs")

    def _not_drawn(self) -> None:
        self._drawing = None
        self.query_one(Proof).show(None, "No proof can be drawn.")

    def action_folded(self) -> None:
        """Show inserts as they look in the case, or flat again."""
        self._folded = not self._folded
        self._drawing = None
        self._show_game()

    def seen(self, games: Sequence[str]) -> Mapping[str, Design]:
        """Return the designs that are shown of games."""
        shown = map(self.state.find, games) if self.state else ()
        return {one.game: one.design for one in shown if one is not None}

    # --- accepting ---------------------------------------------------------------------

    def targets(self) -> tuple[str, ...]:
        """Return the current game."""
        return (self.game.game,) if self.game else ()

    def neighbours(self) -> Sequence[Proposal]:
        """Return the games of the batch."""
        return self.state.batch if self.state else ()

    def sure_targets(self) -> tuple[str, ...]:
        """Return the games of the batch that are not done."""
        return tuple(p.game for p in self.state.batch if self._is_open(p)) if self.state else ()

    def case_of(self, game: str) -> str:
        """Return the case kind of a game of the batch."""
        found = self.state.find(game) if self.state else None
        return found.case if found else ""

    def possible(self, act: str) -> bool:
        """Leave out what the current game does not allow."""
        game = self.game
        if act in {"accept", "next_batch", "record", "add_game"}:
            return True
        if act == "accept_sure":
            return bool(self.sure_targets())
        if game is None:
            return False
        if act.startswith("crop_"):
            return game.design.art.is_cropped
        if act == "fit":
            return game.stage is Stage.PRINTED
        return act != "reopen" or bool(game.accepted)

    def action_accept(self) -> None:
        """Accept the current game and go to the next open one; at the end, bring more."""
        if self.state is None or self._bringing:
            return
        game, left = self.game, self.sure_targets()
        if game is None or not left:
            self.action_next_batch()
            return
        if self._is_open(game):
            self._taking[game.game] = False
            self.accept_all((game.game,), sure_only=False)
        self._show_rows(self.state, at=self._next_open(game))
        self.refresh_bindings()

    def _next_open(self, game: Proposal) -> str | None:
        """Return the open game after this one, going round."""
        batch = self.state.batch if self.state else ()
        place = batch.index(game)
        around = (*batch[place + 1 :], *batch[:place])
        return next((p.game for p in around if self._is_open(p)), None)

    def accepted(self, report: AcceptReport) -> None:
        """Keep showing the games as taken until they are read again."""
        self._taking.update((game, True) for game in self._taking if game in report.accepted)
        for game in report.left:
            self._taking.pop(game.game, None)
        super().accepted(report)

    def not_accepted(self, games: Sequence[str]) -> None:
        """Show games as open again."""
        for game in games:
            self._taking.pop(game, None)

    def action_next_batch(self) -> None:
        """Bring the next games to decide into the batch."""
        self._bringing = True
        self.bring_next(None, self._brought, self._not_brought)

    def _not_brought(self) -> None:
        self._bringing = False

    def _brought(self, brought: Brought) -> None:
        self._bringing = False
        before = {p.game for p in self.state.batch} if self.state else set()
        came = frozenset(brought.batch) - before
        self._order.bring(came)
        if not came and brought.outlook is not None and not brought.outlook.games:
            sheets = BY_ID["sheets"].shown
            self.say(
                "No more games", [f"Nothing else is left to decide. {sheets} shows the sheets."]
            )
        else:
            self.notify(brought.words, markup=False)

    def large(self, workshop: Workshop, game: str) -> bytes:
        """Draw the insert flat, or folded where it is looked at so."""
        return picture(workshop, game, LARGE, folded=self._folded)
