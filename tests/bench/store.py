"""How long saving takes, against writing the same bytes with one fsync.

    python -m tests.bench.store [--games 100 1000 10000] [--rounds 20] [--folder DIR]

A collection of so many games, each with a picture and an accepted design, is opened; then one
game is changed, again and again, and each change undone. ``plain`` writes a file of the same
bytes beside it and forces it once, in turns with the rest, so that a busy disk does not decide.
``work`` is a change without joining the file and writing it. The last row has the history as
full as it gets: a hundred changes of fifty games each. All figures are milliseconds, medians
of the rounds, but for the file's size in MB; ``opening`` and the ``first`` change happen once.
"""

import argparse
import os
import tempfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from statistics import median
from time import perf_counter
from unittest.mock import patch

import msgspec
from rich.console import Console
from rich.table import Table

from engine.collection import Collection
from engine.model import Accepted, Art, Colours, EdgeTitle, Game, Match, Picture, Trim

AT = datetime(2026, 3, 1, 12, tzinfo=UTC)
TRIM = Trim(0.01, 0.02, 0.01, 0.02)
CHANGES, CHANGED = 100, 50

_names = count()


def picture(number: int) -> Picture:
    return Picture(
        name=f"{number:020x}.jpg",
        source=f"covers/Lantern Bay {number} (Rev 1).jpg",
        width=1200,
        height=1600,
        side="#336699",
        trim=TRIM,
        bars=(Trim(0.1, 0.02, 0.01, 0.02),),
        palette=("#336699", "#112233", "#ddeeff"),
    )


def game(number: int) -> Game:
    title = f"Lantern Bay {number}"
    accepted = Accepted(
        art=Art(f"{number:020x}.jpg", focus=(0.5, 0.4), trim=TRIM),
        art_at=AT,
        colours=Colours("#336699", "#ffffff"),
        title=(EdgeTitle("spine", (title,), 11.5), EdgeTitle("flap", (title,), 8.0)),
        title_at=AT,
    )
    return Game(
        id=f"lantern-bay-{number}",
        title=title,
        added_at=AT,
        series="Lantern Bay",
        maker="North Quay",
        genre="Adventure",
        year="1994",
        case="snap-shell",
        extra={"Shelf": f"B{number % 40}"},
        match=Match(f"{number:020x}.jpg", 0.98),
        accepted=accepted,
    )


def rename(collection: Collection, games: Iterable[Game]) -> None:
    renamed = [msgspec.structs.replace(one, title=f"Tide {next(_names)}") for one in games]
    collection.record("renamed", games=renamed)


def timed(do: Callable[[], object]) -> float:
    """Return the milliseconds that it takes."""
    begun = perf_counter()
    do()
    return (perf_counter() - begun) * 1000


def write_plainly(path: Path, data: bytes) -> None:
    with path.open("wb") as file:
        file.write(data)
        os.fsync(file.fileno())


@contextmanager
def unwritten() -> Iterator[None]:
    """Record without joining the file and writing it."""
    with patch("engine.collection.storage.write_in"):
        yield


def measured(folder: Path, games: int, rounds: int, changes: int = 0) -> dict[str, str]:
    """Return the figures of a collection of so many games after so many changes."""
    with Collection.open(folder, now=lambda: AT) as made:
        made.record("took in", pictures=map(picture, range(games)), games=map(game, range(games)))
        for _ in range(changes):
            rename(made, list(made.games.values())[:CHANGED])
    figures: dict[str, list[float]] = {}

    def note(name: str, do: Callable[[], object]) -> None:
        figures.setdefault(name, []).append(timed(do))

    opened: list[Collection] = []
    note("opening", lambda: opened.append(Collection.open(folder, now=lambda: AT)))
    with opened[0] as collection:
        size = (folder / "collection.json").stat().st_size
        data = bytes(size)

        def change() -> None:
            rename(collection, [collection.games[f"lantern-bay-{games // 2}"]])

        note("first", change)
        for _ in range(rounds):
            note("plain", lambda: write_plainly(folder / "plain", data))
            note("record", change)
            note("undo", collection.undo)
        with unwritten():
            for _ in range(rounds):
                note("work", change)
                collection.undo()
    middle = {name: median(times) for name, times in figures.items()}
    return {
        "games": f"{games:,}",
        "changes": str(changes),
        "MB": f"{size / 1e6:.1f}",
        **{name: f"{time:.1f}" for name, time in middle.items()},
        "record / plain": f"{middle['record'] / middle['plain']:.2f}",
    }


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.store")
    parser.add_argument("--games", type=int, nargs="+", default=[100, 1_000, 10_000])
    parser.add_argument("--rounds", type=int, default=20)
    parser.add_argument("--folder", type=Path, help="on which disk; by default where others are")
    asked = parser.parse_args()
    cases = [*((games, 0) for games in asked.games), (max(asked.games), CHANGES)]
    rows = []
    for games, changes in cases:
        with tempfile.TemporaryDirectory(dir=asked.folder) as folder:
            rows.append(measured(Path(folder), games, asked.rounds, changes))
    table = Table(*rows[0], title="Saving one game, in ms")
    for row in rows:
        table.add_row(*row.values())
    Console().print(table)


if __name__ == "__main__":
    main()
