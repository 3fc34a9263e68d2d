"""How long a large shelf's titles take: set for the first time, and brought up for one change.

    python -m tests.bench.lettering_shelf [GAMES]

Made titles in three case kinds, at a smallest size of 5 pt, and of 9 pt, where many have to be
abridged. A change is timed ten times on games all over the shelf, with the titles set anew that
it touches; the middle time counts.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from time import process_time
from typing import TypeVar

import msgspec

from engine import cases
from engine.cases.casing import Casing
from engine.lettering import StandIns, sizing
from engine.lettering.breaking import breaks
from engine.lettering.compositor import compositor
from engine.lettering.names import forms
from engine.lettering.titler import Titled, Titler
from engine.model import Accepted, EdgeTitle, Game
from engine.model.settings import Lettering, Settings
from tests.lettering.titles import shelf

T = TypeVar("T")

GAMES = 10_000
CASES = ("snap-shell", "snap-shell-low", "soft-cassette")
ROUNDS = 10
AT = datetime(2026, 3, 1, tzinfo=UTC)
CASING = Casing(cases.load_kinds(), Settings())


def timed(work: Callable[[], T]) -> tuple[T, float]:
    start = process_time()
    done = work()
    return done, (process_time() - start) * 1000


def made(count: int) -> dict[str, Game]:
    titles = enumerate(shelf(count, plain=0.97))
    games = (Game(f"{n}", title, AT, case=CASES[n % len(CASES)]) for n, title in titles)
    return {game.id: game for game in games}


def every(titler: Titler, games: Mapping[str, Game]) -> dict[str, Titled]:
    return {key: titler.titled(game, CASING.net_of(game)) for key, game in games.items()}


def accepted(game: Game, titled: Titled) -> Game:
    taken = Accepted(case=game.case, title=titled.titles, title_at=AT)
    return msgspec.structs.replace(game, accepted=taken)


def worded(game: Game, titled: Titled) -> Game:
    edges = tuple(EdgeTitle(title.panel, ("In my words",), 9.0) for title in titled.titles)
    return accepted(game, titled._replace(titles=edges))


def moved(game: Game, _: Titled) -> Game:
    case = CASES[(CASES.index(game.case) + 1) % len(CASES)]
    return msgspec.structs.replace(game, accepted=Accepted(case=case))


def measure(mode: str, smallest: float, games: Mapping[str, Game]) -> None:
    sizing._known.cache_clear()
    compositor.cache_clear()
    breaks.cache_clear()
    forms.cache_clear()
    chosen = msgspec.convert({"mode": mode, "smallest": smallest}, Lettering)
    titler, entering = timed(lambda: Titler.of(CASING, chosen, games, StandIns(Path())))
    first = next(iter(games.values()))
    _, one = timed(lambda: titler.titled(first, CASING.net_of(first)))
    found, rest = timed(lambda: every(titler, games))
    steps = [step for one in found.values() for edge in one.edges for step in edge.steps]
    cut = sum(step.startswith("truncation") for step in steps)
    print(f"{mode}, {smallest:g} pt: {len(games)} games entered {entering:.0f} ms,")
    print(f"  the first title {one:.0f} ms,")
    print(f"  all titles {rest:.0f} ms ({len(steps)} steps of abridging, {cut} of them cuts)")
    again = Titler.of(CASING, chosen, games, StandIns(Path()))
    _, known = timed(lambda: every(again, games))
    print(f"  all by a new titler, from what is known: {known:.0f} ms")
    for change in (accepted, worded, moved):
        times, touched = [], 0
        for key in list(games)[7 :: len(games) // ROUNDS]:
            game = change(games[key], found[key])

            def bring_up(game: Game = game) -> frozenset[str]:
                new, others = titler.after({game.id: game})
                now = {**games, game.id: game}
                every(new, {one: now[one] for one in others})
                return others

            others, took = timed(bring_up)
            times.append(took)
            touched += len(others)
        print(f"  one {change.__name__}: {median(times):.2f} ms, at most {max(times):.2f} ms,")
        print(f"    {touched / len(times):.1f} games to look at again")


def main() -> None:
    games = made(int(sys.argv[1]) if len(sys.argv) > 1 else GAMES)
    for mode in ("free", "even"):
        for smallest in (5.0, 9.0):
            measure(mode, smallest, games)


if __name__ == "__main__":
    main()
