"""A workshop in memory that answers as the real one does, for driving the terminal program."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from threading import Event

from msgspec.structs import replace as altered

from engine import (
    AcceptReport,
    GameLine,
    Lack,
    PressReport,
    Progress,
    Proposal,
    SheetReport,
    SheetsReport,
    SheetState,
    Undecided,
)
from engine.model import (
    Art,
    Decision,
    Fit,
    Forme,
    Placement,
    Stage,
)
from engine.model.errors import InputError, ReadOnlyError, RefusedError
from engine.model.waiting import Cancel
from tests.tui.fake_art import FakeArt
from tests.tui.fake_setup import FakeSetup
from tests.tui.fake_sheets import PATIENCE, FakeSheets, opened, with_offcut
from tests.tui.made_up import (
    A_SHEETFUL,
    BATCH,
    SIZES,
    STOCK,
    FakeGame,
    State,
    drawn,
    made_up,
    source,
)

ALL = frozenset(Decision)


@dataclass
class FakeWorkshop(FakeArt, FakeSheets, FakeSetup):
    """Sixty games by default, each with a picture matched for certain.

    ``doubtful`` gives the numbers of games whose picture is in doubt, ``bare`` of those
    without one. ``calls`` names every change asked for; ``fault`` is raised by the next one.
    Deeds, proofs, and what takes long wait while their gate is closed.
    """

    count: int = 60
    doubtful: Collection[int] = ()
    bare: Collection[int] = ()
    mixed: bool = False
    read_only: bool = False
    name: str = "Harbour Street lending shelf"
    folder: Path = Path("harbour-street")
    fault: Exception | None = None
    proof_fault: Exception | None = None
    deed_gate: Event = field(default_factory=opened)
    proof_gate: Event = field(default_factory=opened)
    gang_gate: Event = field(default_factory=opened)
    press_gate: Event = field(default_factory=opened)
    batch_gate: Event = field(default_factory=opened)
    calls: list[str] = field(default_factory=list)
    proofs: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._state = State({g.id: g for g in map(self._made, range(self.count))})
        self._past: list[tuple[str, State]] = []

    def _made(self, n: int) -> FakeGame:
        return made_up(
            n,
            case="soft-cassette" if self.mixed and n % 4 == 3 else "snap-shell",
            confidence=0.0 if n in self.bare else 0.62 if n in self.doubtful else 0.97,
        )

    # --- what stands -------------------------------------------------------------------

    def close(self) -> None:
        self.calls.append("close")

    def progress(self) -> Progress:
        stages = [g.stage for g in self._state.games.values()]
        return Progress(
            games=len(stages),
            stages={stage: stages.count(stage) for stage in Stage},
            reprints=sum(g.reprint for g in self._state.games.values()),
        )

    def games(self) -> tuple[GameLine, ...]:
        return tuple(
            GameLine(
                id=g.id,
                title=g.title,
                series=g.series,
                maker=g.maker,
                genre="",
                year="",
                notes="",
                case=g.case,
                stage=g.stage,
                sure=Decision.ART in g.accepted or g.confidence >= 0.85,
                reprint=g.reprint,
                batch=g.id in self._state.batch,
            )
            for g in self._state.games.values()
        )

    def _game(self, game_id: str) -> FakeGame:
        if game_id not in self._state.games:
            raise InputError(game_id, "no such game", "Look in the backlog")
        return self._state.games[game_id]

    # --- proposals ---------------------------------------------------------------------

    def proposal(self, game_id: str) -> Proposal:
        return self._game(game_id).proposal

    def proposals(self, ids: Sequence[str] | None = None) -> tuple[Proposal, ...]:
        return tuple(self.proposal(i) for i in (self._state.games if ids is None else ids))

    def arts(self, game_id: str) -> tuple[Art, ...]:
        game = self._game(game_id)
        name = game.chosen_art.picture or game.picture
        plain = Art(picture=None)
        if name is None:
            return (plain,)
        return (*(Art(picture=name, fit=f) for f in (Fit.FILL, Fit.STRETCH, Fit.MATTE)), plain)

    def pictures(self, query: str) -> tuple[tuple[str, str], ...]:
        named = [(f"p{n:03}.png", source(f"p{n:03}.png")) for n in range(self.count)]
        words = query.lower().split()
        return tuple(p for p in named if all(word in p[1] for word in words))[:20]

    # --- deeds -------------------------------------------------------------------------

    def _deed(self, words: str, change: Callable[[State], State]) -> None:
        if self.read_only:
            raise ReadOnlyError(str(self.folder), "open in another program", "Close it there")
        if self.fault:
            fault, self.fault = self.fault, None
            raise fault
        self.deed_gate.wait(PATIENCE)
        before = self._state
        self._state = change(before)
        self._past.append((words, before))
        self.calls.append(words)

    def _with(self, *games: FakeGame) -> Callable[[State], State]:
        return lambda s: replace(s, games={**s.games, **{g.id: g for g in games}})

    def accept(
        self,
        ids: Sequence[str],
        decisions: Collection[Decision] = ALL,
        *,
        sure_only: bool = False,
    ) -> AcceptReport:
        games = [self._game(i) for i in ids]
        taken = [g for g in games if not (sure_only and g.doubts)]
        left = [g for g in games if g not in taken]
        if taken:
            done = [replace(g, accepted=g.accepted | frozenset(decisions)) for g in taken]
            self._deed(f"accepted {len(done)}: {done[0].title}", self._with(*done))
        return AcceptReport(
            accepted=tuple(g.id for g in taken),
            left=tuple(Undecided(g.id, g.title, g.doubts) for g in left),
        )

    def _change(self, words: str, game: FakeGame, decision: Decision) -> Proposal:
        self._deed(words, self._with(replace(game, accepted=game.accepted | {decision})))
        return self.proposal(game.id)

    def change_case(self, game_id: str, kind: str) -> Proposal:
        return self.change_cases([game_id], kind)[0]

    def change_cases(self, ids: Sequence[str], kind: str) -> tuple[Proposal, ...]:
        games = [self._game(game_id) for game_id in ids]
        changed = [
            replace(game, case=kind, accepted=game.accepted | {Decision.CASE}) for game in games
        ]
        self._deed(f"case of {len(games)} games: {kind}", self._with(*changed))
        return self.proposals(ids)

    def change_art(self, game_id: str, art: Art) -> Proposal:
        game = replace(self._game(game_id), art=art)
        return self._change(f"art of {game.title}: {art.fit}", game, Decision.ART)

    def swap_picture(self, game_id: str, picture: str) -> Proposal:
        return self.change_art(game_id, Art(picture=picture))

    def change_colour(self, game_id: str, base: str) -> Proposal:
        digits = base.removeprefix("#")
        if len(digits) != 6 or not set(digits.lower()) <= set("0123456789abcdef"):
            raise InputError(base, "not a colour", "Write six hex digits, such as #1f4e79")
        game = replace(self._game(game_id), base=f"#{digits.lower()}")
        return self._change(f"colour of {game.title}: {base}", game, Decision.COLOUR)

    def change_title(self, game_id: str, text: str) -> Proposal:
        lines = tuple(line.strip() for line in text.replace("/", "\n").splitlines())
        game = replace(self._game(game_id), lines=lines)
        return self._change(f"title of {game.title}: {text}", game, Decision.TITLE)

    def reopen(self, ids: Sequence[str], decisions: Collection[Decision] = ALL) -> Progress:
        games = [self._game(i) for i in ids]
        self._deed(
            f"reopened {len(games)}",
            self._with(*(replace(g, accepted=g.accepted - frozenset(decisions)) for g in games)),
        )
        return self.progress()

    # --- the batch ---------------------------------------------------------------------

    def batch(self) -> tuple[str, ...]:
        return self._state.batch

    def _unfinished(self, game_id: str) -> bool:
        return self._game(game_id).stage in {Stage.LISTED, Stage.ART_CHOSEN}

    def next_batch(
        self, ids: Sequence[str] | None = None, *, cancel: Cancel | None = None
    ) -> tuple[str, ...]:
        self.wait(self.batch_gate, cancel)
        kept = [i for i in self._state.batch if self._unfinished(i)]
        wanted = self._state.games if ids is None else ids
        more = [i for i in wanted if i not in kept and self._unfinished(i)]
        return self.set_batch(tuple(kept + more[: max(0, BATCH - len(kept))]))

    def set_batch(self, ids: Sequence[str]) -> tuple[str, ...]:
        wanted = tuple(dict.fromkeys(ids))
        if wanted != self._state.batch:
            self._deed(f"batch of {len(wanted)}", lambda s: replace(s, batch=wanted))
        return wanted

    def add_to_batch(self, ids: Sequence[str]) -> tuple[str, ...]:
        return self.set_batch((*self._state.batch, *ids))

    def drop_from_batch(self, ids: Sequence[str]) -> tuple[str, ...]:
        return self.set_batch(tuple(i for i in self._state.batch if i not in ids))

    # --- sheets ------------------------------------------------------------------------

    def _waiting(self) -> list[FakeGame]:
        out = {p.game for s in self._state.pressed for p in s.placements}
        games = self._state.games.values()
        return [g for g in games if g.stage is Stage.TITLE_SET and g.id not in out]

    def _laid(self, games: Sequence[FakeGame], state: SheetState) -> SheetReport:
        placements = []
        for n, game in enumerate(games):
            width, height = SIZES[game.case]
            placements.append(
                Placement(
                    game=game.id,
                    case=game.case,
                    design=game.design.fingerprint,
                    x=13.0 + n % 2 * 96.0,
                    y=200.0 - n // 2 * 86.0 + (79.0 - height),
                    width=width,
                    height=height,
                )
            )
        used = sum(p.width * p.height for p in placements) / (STOCK.width * STOCK.height)
        lacks = () if state is SheetState.READY else (Lack("snap-shell", A_SHEETFUL - len(games)),)
        return SheetReport(
            number=None,
            state=state,
            forme=Forme(stock=STOCK),
            placements=tuple(placements),
            used=used,
            lacks=lacks,
            waiting_since=datetime(2026, 5, 4, 9, tzinfo=UTC),
        )

    def sheets(self, *, cancel: Cancel | None = None) -> SheetsReport:
        self.wait(self.gang_gate, cancel)
        waiting = self._waiting()
        groups = [waiting[n : n + A_SHEETFUL] for n in range(0, len(waiting), A_SHEETFUL)]
        ready = [self._laid(g, SheetState.READY) for g in groups if len(g) == A_SHEETFUL]
        part = [self._laid(g, SheetState.OPEN) for g in groups if len(g) < A_SHEETFUL]
        return SheetsReport(ready=tuple(ready), open=tuple(part), pressed=self._state.pressed)

    def press(
        self,
        *,
        part_full: bool = False,
        fillers: Sequence[str] = (),
        cut_page: bool = False,
        cancel: Cancel | None = None,
    ) -> PressReport:
        self.wait(self.press_gate, cancel)
        report = self.sheets()
        due = (*report.ready, *(report.open if part_full else ()))
        if not due:
            raise RefusedError("", "No sheet is full", "Accept more games first")
        first = self._state.number + 1
        made = tuple(
            altered(
                sheet,
                number=number,
                state=SheetState.PRESSED,
                file=f"sheets/sheet-{number:04}.pdf",
                pressed_at=datetime(2026, 5, 4, 10, 30, tzinfo=UTC),
            )
            for number, sheet in enumerate(due, first)
        )
        self._deed(
            f"pressed {len(made)} sheets"
            + (" with cut pages" if cut_page else "")
            + "".join(f" + {filler}" for filler in fillers),
            lambda s: replace(s, pressed=(*s.pressed, *made), number=s.number + len(made)),
        )
        return PressReport(
            sheets=made,
            notes=("Cut on a mat along a steel rule, the holding hand behind the blade.",),
        )

    def _pressed(self, number: int) -> SheetReport:
        for sheet in self._state.pressed:
            if sheet.number == number:
                return sheet
        raise RefusedError(f"sheet {number}", "not pressed", "Look at Sheets")

    def settle(self, number: int, spoiled: Collection[int] = ()) -> Progress:
        sheet = self._pressed(number)
        good = [p for n, p in enumerate(sheet.placements, 1) if n not in set(spoiled)]
        printed = {p.game: replace(self._game(p.game), printed=p.design) for p in good}
        self._deed(
            f"settled {number}, spoiled {sorted(spoiled)}",
            lambda s: replace(
                s,
                games={**s.games, **printed},
                pressed=tuple(p for p in s.pressed if p.number != number),
                settled=(*s.settled, with_offcut(sheet)),
            ),
        )
        return self.progress()

    def withdraw(self, number: int) -> Progress:
        self._pressed(number)
        self._deed(
            f"withdrew {number}",
            lambda s: replace(s, pressed=tuple(p for p in s.pressed if p.number != number)),
        )
        return self.progress()

    def fit(self, ids: Sequence[str]) -> Progress:
        games = [self._game(i) for i in ids]
        for game in games:
            if game.stage is not Stage.PRINTED:
                raise RefusedError(game.title, "not printed yet", "Settle its sheet first")
        self._deed(
            f"fitted {len(games)}", self._with(*(replace(g, fitted=g.printed) for g in games))
        )
        return self.progress()

    def undo(self) -> str:
        if self.read_only:
            raise ReadOnlyError(str(self.folder), "open in another program", "Close it there")
        if not self._past:
            raise RefusedError("", "Nothing is left to take back")
        words, self._state = self._past.pop()
        self.calls.append(f"undid: {words}")
        return words

    # --- proofs ------------------------------------------------------------------------

    def proof(self, game_id: str, ppi: float = 150) -> bytes:
        self.proofs.append(game_id)
        if self.proof_fault:
            raise self.proof_fault
        self.proof_gate.wait(PATIENCE)
        design = self._game(game_id).design
        return drawn(SIZES[design.case], design.colours.base, design.title[0].lines[0])

    def folded_proof(self, game_id: str, ppi: float = 150) -> bytes:
        self.proofs.append(f"{game_id} folded")
        design = self._game(game_id).design
        return drawn(SIZES[design.case][::-1], design.colours.base, "folded")

    def sheet_proof(self, number: int, ppi: float = 50) -> bytes:
        self._pressed(number)
        return drawn((STOCK.width, STOCK.height), "#cccccc", f"sheet {number}")
