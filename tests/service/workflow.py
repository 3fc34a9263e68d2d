"""The whole workflow as a state machine: all that a person does, in any order, with deaths between.

After each step the collection must be what the design demands always: nothing that was reported as
saved is lost; every game that is not printed is in exactly one place; what a person accepted stays
as they accepted it; a page that was pressed is drawn again to the byte; and nothing of a death is
left over.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from hashlib import sha256
from itertools import count
from pathlib import Path
from unittest.mock import patch

import msgspec
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from engine import Workshop, open_workshop
from engine.collection import Collection
from engine.model import Game, Sheet
from engine.model.errors import RefusedError
from engine.model.stages import accepted_design
from tests.conftest import draw_cover

GAMES = st.lists(st.integers(0, 11), min_size=1, max_size=4, unique=True)
DEATHS = st.none() | st.integers(1, 14)
"""At which step of writing the program is killed; None lets it live."""


class Died(BaseException):
    """The program ends here, and tidies up nothing."""


class Workflow(RuleBasedStateMachine):
    """A person at work on a small collection."""

    def __init__(self, source: Path, folder: Path, now: Callable[[], datetime]) -> None:
        """Work on a copy of ``source``, made in ``folder``, by this clock."""
        super().__init__()
        self._now = now
        number = next(n for n in count() if not (folder / str(n)).exists())
        self.shelf = Path(shutil.copytree(source / "shelf", folder / str(number)))
        self._more = folder / f"{number}-more"
        self._lists = count()
        self.shop = open_workshop(self.shelf, now)
        self.past: list[bytes] = []
        """The records before each change that undo can take back."""
        self.saved = self.records()
        self.do(lambda shop: shop.designs.accept(self.ids([0, 1, 2, 3])))

    # --- what a person does --------------------------------------------------------------

    @rule(chosen=GAMES, death=DEATHS)
    def accept(self, chosen: list[int], death: int | None) -> None:
        self.do(lambda shop: shop.designs.accept(self.ids(chosen)), death)

    @rule(chosen=GAMES)
    def reopen(self, chosen: list[int]) -> None:
        self.do(lambda shop: shop.designs.reopen(self.ids(chosen)), decides=True)

    @rule(chosen=GAMES, kind=st.sampled_from(["snap-shell", "soft-cassette"]))
    def change_case(self, chosen: list[int], kind: str) -> None:
        self.do(lambda shop: shop.designs.change_cases(self.ids(chosen), kind), decides=True)

    @precondition(lambda self: self.queued())
    @rule(death=DEATHS, part_full=st.sampled_from([True, True, False]), job=st.booleans())
    def press(self, death: int | None, *, part_full: bool, job: bool) -> None:
        self.do(lambda shop: shop.sheets.press(part_full=part_full, cut_page=True, job=job), death)

    @precondition(lambda self: self.pressed())
    @rule(spoiled=st.sets(st.integers(1, 3)), death=DEATHS)
    def settle(self, spoiled: set[int], death: int | None) -> None:
        sheet = self.pressed()[0]
        places = [number for number in spoiled if number <= len(sheet.placements)]
        self.do(lambda shop: shop.sheets.settle(sheet.number, places), death)

    @precondition(lambda self: self.pressed())
    @rule(death=DEATHS)
    def withdraw(self, death: int | None) -> None:
        self.do(lambda shop: shop.sheets.withdraw(self.pressed()[-1].number), death)

    @precondition(lambda self: self.printed())
    @rule()
    def fit(self) -> None:
        self.do(lambda shop: shop.sheets.fit(self.printed()[:1]))

    @rule(death=DEATHS)
    def take_in(self, death: int | None) -> None:
        title = f"Copper Kite {next(self._lists)}"
        self._more.mkdir(exist_ok=True)
        draw_cover(self._more / f"{title}.png", (200, 40, 20), (60, 70))
        (self._more / "more.txt").write_text(f"{title}\n")
        more = (self._more / "more.txt", self._more)
        self.do(lambda shop: shop.games.intake(*more, "snap-shell"), death)

    @rule(kerf=st.sampled_from([0.0, 0.5, 1.0]))
    def set_up(self, kerf: float) -> None:
        self.do(lambda shop: shop.setup.change(kerf=kerf))

    @rule()
    def bring_next(self) -> None:
        self.do(lambda shop: shop.batch.bring_next())

    @precondition(lambda self: self.past)
    @rule(death=DEATHS)
    def undo(self, death: int | None) -> None:
        self.do(lambda shop: shop.undo(), death, back=True)

    @rule()
    def leave_and_come_back(self) -> None:
        self.reopened()
        assert self.records() == self.saved

    @rule(name=st.sampled_from(["sheets/.a.new", "pictures/0123456789abcdef0123.png"]))
    def find_what_a_death_left(self, name: str) -> None:
        (self.shelf / name).write_bytes(b"left")
        self.reopened()

    # --- what is always true ---------------------------------------------------------------

    @invariant()
    def what_was_saved_is_there(self) -> None:
        assert self.records() == self.saved
        file = msgspec.json.decode((self.shelf / "collection.json").read_bytes())
        there = [[*file[name].values()] for name in ("games", "sheets", "pictures")]
        assert there == msgspec.json.decode(self.saved)[0]

    @invariant()
    def every_game_is_in_one_place(self) -> None:
        stages = {line.id: str(line.stage) for line in self.shop.games.lines()}
        for game in self.collection.games.values():
            on = [s for s in self.pressed() for p in s.placements if p.game == game.id]
            assert len({sheet.number for sheet in on}) <= 1, "on one pressed sheet at most"
            design = accepted_design(game.accepted)
            good = design is not None and any(
                place.game == game.id and place.design == design.fingerprint and not place.spoiled
                for sheet in self.collection.sheets.values()
                if sheet.settled_at is not None and sheet.withdrawn_at is None
                for place in sheet.placements
            )
            fitted = good and game.fitted is not None and game.fitted.design == design.fingerprint
            assert (stages[game.id] == "fitted") == fitted
            assert (stages[game.id] in {"printed", "fitted"}) == good
            if design is None:
                assert stages[game.id] in {"listed", "art chosen"}

    @invariant()
    def a_pressed_page_is_drawn_again_to_the_byte(self) -> None:
        for sheet in self.pressed()[-1:]:
            page = self.collection.sheet_path(sheet.number).read_bytes()
            assert sheet.printed is not None
            assert sha256(page).hexdigest() == sheet.printed.digest
            self.shop.printing.again([sheet.number])
            assert self.collection.sheet_path(sheet.number).read_bytes() == page

    @invariant()
    def nothing_is_wrong(self) -> None:
        assert self.shop.check().findings == ()

    # --- how it is done --------------------------------------------------------------------

    @property
    def collection(self) -> Collection:
        return self.shop._session.collection

    def ids(self, chosen: list[int]) -> list[str]:
        games = list(self.collection.games)
        return [games[number] for number in chosen if number < len(games)]

    def pressed(self) -> list[Sheet]:
        sheets = self.collection.sheets.values()
        return [one for one in sheets if one.settled_at is None and one.withdrawn_at is None]

    def queued(self) -> bool:
        return any(line.stage == "title set" for line in self.shop.games.lines())

    def printed(self) -> list[str]:
        return [line.id for line in self.shop.games.lines() if line.stage == "printed"]

    def records(self) -> bytes:
        found = self.collection
        tables = (found.games, found.sheets, found.pictures)
        return msgspec.json.encode([[[*table.values()] for table in tables], found.settings])

    def do(
        self,
        act: Callable[[Workshop], object],
        death: int | None = None,
        *,
        back: bool = False,
        decides: bool = False,
    ) -> None:
        """Do something, that may kill the program; note what is saved then."""
        decided = {} if back or decides else dict(self.collection.games)
        try:
            with dying(death):
                act(self.shop)
        except RefusedError:
            assert self.records() == self.saved
        except Died:
            self.reopened()
            now = self.records()
            if now != self.saved:
                self.came_through(back=back)
        else:
            self.note(back=back)
        for game in decided.values():
            self.keeps(game)

    def note(self, *, back: bool) -> None:
        now = self.records()
        if back:
            assert now == self.past.pop(), "undo brings back what was there"
        elif now != self.saved:
            self.past.append(self.saved)
        self.saved = now

    def came_through(self, *, back: bool) -> None:
        """Hold that what a death let through is the whole change."""
        self.note(back=back)
        if not back:
            self.shop.undo()
            assert self.records() == self.past.pop(), "all of it or nothing"
            self.saved = self.records()

    def keeps(self, game: Game) -> None:
        """Hold that what was accepted before something that decides nothing is still accepted."""
        now = self.collection.games[game.id].accepted
        for field in ("case", "art", "colours", "title"):
            was = getattr(game.accepted, field)
            assert was is None or getattr(now, field) == was

    def reopened(self) -> None:
        self.shop.close()
        self.shop = open_workshop(self.shelf, self._now)

    def teardown(self) -> None:
        self.shop.close()
        shutil.rmtree(self.shelf)
        shutil.rmtree(self._more, ignore_errors=True)


@contextmanager
def dying(step: int | None) -> Iterator[None]:
    """Kill the program at this step of writing, counted from 1."""
    left = [step or 0]

    def step_of(real: Callable[..., object]) -> Callable[..., object]:
        def call(*args: object) -> object:
            left[0] -= 1
            if left[0] == 0:
                raise Died
            return real(*args)

        return call

    fsync, replace, unlink = os.fsync, Path.replace, Path.unlink

    def tidy(path: Path, *, missing_ok: bool = False) -> None:
        if left[0] > 0 or step is None:
            unlink(path, missing_ok=missing_ok)

    with (
        patch.object(os, "fsync", step_of(fsync)),
        patch.object(Path, "replace", step_of(replace)),
        patch.object(Path, "unlink", tidy),
    ):
        yield
