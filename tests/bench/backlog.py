"""How long the keys of the Backlog take: python -m tests.bench.backlog [GAMES].

Makes a collection of so many games (10,000 if none are named) in a temporary folder, runs the
terminal program on it without a terminal, and times each key from its press until the screen is
painted anew, in milliseconds of wall time, the median of several. Beside it stands what the
interface's own thread was busy for: so long no other key could be handled.
"""

import asyncio
import sys
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, thread_time

from rich.console import Console
from rich.table import Table

from engine import Order, open_workshop
from tests.bench.state.making import make
from tests.tui.driving import Hand, driven

GAMES = 10_000
REPEATS = 9
KEYS: dict[str, Sequence[str]] = {
    "a letter of the filter": ("slash", *"ferry 7", "escape"),
    "the next order": ["o"] * len(Order),
    "mark all, unmark all": ["m"] * 4,
    "mark one": ["space"] * 4,
    "mark all marked but one": ("m", "space", "m", "m"),
    "down, page down, end": ("down", "pagedown", "end", "home"),
}


async def measured(folder: Path) -> dict[str, tuple[float, float]]:
    """Return wall time and busy time of a key of each sort, in ms."""
    with closing(open_workshop(folder)) as workshop:
        async with driven(workshop, (140, 40), paints=True) as hand:
            await hand.do("backlog")
            found = {name: await timed(hand, keys) for name, keys in KEYS.items()}
            await hand.do("only")
            await hand.type("stage listed")
            await hand.press("enter")
            return {**found, "accept one": await timed(hand, ["enter"])}


async def timed(hand: Hand, keys: Sequence[str]) -> tuple[float, float]:
    """Return the slowest of some keys, each at its median."""
    walls: dict[int, list[float]] = {}
    busy: dict[int, list[float]] = {}
    for _ in range(REPEATS):
        for n, key in enumerate(keys):
            wall, spent = perf_counter(), thread_time()
            await hand.press(key)
            walls.setdefault(n, []).append(1000 * (perf_counter() - wall))
            busy.setdefault(n, []).append(1000 * (thread_time() - spent))
    return max(map(median, walls.values())), max(map(median, busy.values()))


def main(games: int) -> None:
    """Print a table, the slowest key of each sort in a line."""
    with TemporaryDirectory() as place:
        make(Path(place) / "shelf", games)
        found = asyncio.run(measured(Path(place) / "shelf"))
    table = Table("key", "painted", "busy", title=f"The Backlog with {games:,} games, ms")
    for name, (wall, spent) in found.items():
        table.add_row(name, f"{wall:.1f}", f"{spent:.1f}")
    Console().print(table)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else GAMES)
