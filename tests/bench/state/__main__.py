"""How long a change takes in a large collection: python -m tests.bench.state [GAMES ...].

Makes collections of so many games (100, 1,000 and 10,000 if none are named) in a temporary
folder, most of the games with a picture, a part of them finished and two sheets printed, and
times what a person does, in milliseconds of wall time, the median of several. Below stands what
the writing of the file alone takes, and what a change costs beyond it.
"""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from rich.console import Console
from rich.table import Table

from engine import Workshop, open_workshop
from tests.bench.state.making import make

REPEATS = 9
SIZES = (100, 1_000, 10_000)


def main(sizes: list[int]) -> None:
    """Print a table, a column for each size."""
    columns = [measured(size) for size in sizes]
    table = Table("milliseconds", *map(str, sizes), title="A made collection")
    for name in columns[0]:
        table.add_row(name, *(f"{column[name]:.1f}" for column in columns))
    Console().print(table)


def measured(size: int) -> dict[str, float]:
    """Return how long each thing takes in a collection of ``size`` games, in ms."""
    with TemporaryDirectory() as place:
        folder = Path(place) / "shelf"
        make(folder, size)
        start = perf_counter()
        shop = open_workshop(folder)
        found = {"open": 1000 * (perf_counter() - start)}
        try:
            found |= _first(shop)
            found |= _changes(shop)
            written = _write(folder / "collection.json")
        finally:
            shop.close()
    found["write the file"] = written
    for name in ("accept", "own words", "another case", "undo"):
        found[f"{name} less the write"] = found[name] - written
    return found


def _first(shop: Workshop) -> dict[str, float]:
    """Return what takes longest when it is first asked for."""
    return {
        "first proposal": _timed(lambda: shop.designs.proposal("game-1")),
        "all proposals": _timed(lambda: shop.designs.proposals(None)),
        "lines": _timed(shop.games.lines),
        "sheets": _timed(shop.sheets.report),
    }


def _changes(shop: Workshop) -> dict[str, float]:
    backlog = [one.id for one in shop.games.lines() if one.stage.value == "listed"]
    games = iter(backlog)

    def each(do: Callable[[str], object]) -> float:
        return median(_timed(lambda: do(next(games))) for _ in range(REPEATS))

    return {
        "accept": each(lambda game: shop.designs.accept([game])),
        "accept and look at sheets": each(
            lambda game: (shop.designs.accept([game]), shop.sheets.report())
        ),
        "own words": each(lambda game: shop.designs.change_title(game, f"Own words of {game}")),
        "another case": each(lambda game: shop.designs.change_cases([game], "soft-cassette")),
        "undo": each(lambda _: shop.undo()),
    }


def _timed(do: Callable[[], object]) -> float:
    start = perf_counter()
    do()
    return 1000 * (perf_counter() - start)


def _write(file: Path) -> float:
    """Return how long it takes to write the same bytes once, forced to the disk."""
    data = file.read_bytes()

    def write() -> None:
        with (file.parent / "again").open("wb") as again:
            again.write(data)
            again.flush()
            os.fsync(again.fileno())

    return median(_timed(write) for _ in range(REPEATS))


if __name__ == "__main__":
    main([int(size) for size in sys.argv[1:]] or list(SIZES))
