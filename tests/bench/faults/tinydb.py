"""The same kills, errors and full disks against TinyDB's own JSON storage, beside ours.

    python -m tests.bench.faults.tinydb [--kills 100] [--games 500]

Both hold the same table of games; a program adds one with long notes, shortens them, and so on, and
acknowledges each once the storage says that it is written. ``ours`` is TinyDB on ``AtomicStorage``,
which is what a collection is written with. It is killed at random; it has an error or a kill put in
the place of each system call of one of these (strace); and it meets a full disk at every 4 kB (a
small tmpfs, which needs the right to mount). Then the file is read: lost is what was acknowledged
and is not there, unreadable is a file that is no JSON any more, or an empty one. Prints a table for
docs/decisions.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from tinydb import JSONStorage, TinyDB

from engine.collection.storage import AtomicStorage
from tests.bench.faults.calls import CALL, CALLS, FAULTS
from tests.bench.faults.full import disk, leave
from tests.bench.faults.harness import forked, traced

STORAGES: Mapping[str, Callable[[Path], TinyDB]] = {
    "TinyDB's JSONStorage": lambda path: TinyDB(path, storage=JSONStorage),
    "ours": lambda path: TinyDB(path, storage=AtomicStorage),
}


LONG = 6_000
"""Letters of notes: more than a page of memory, so that the file has to grow."""


def game(number: int, notes: int = 500) -> dict[str, Any]:
    """Return a row as long as a game's is."""
    return {"id": f"tide-{number}", "title": f"Tide {number}", "notes": "x" * notes}


def add(opens: Callable[[Path], TinyDB], path: Path, told: int) -> int:
    """Add games until the end; write the number of each that is acknowledged."""
    database = opens(path)
    games = database.table("games")
    number = len(games)
    while True:
        number += 1
        row = games.insert(game(number, LONG))
        os.write(told, f"{number}\n".encode())
        games.update({"notes": ""}, doc_ids=[row])
        os.write(told, f"{number}\n".encode())


def add_one(opens: Callable[[Path], TinyDB], path: Path, *, longer: bool) -> int:
    """Add a game, or shorten one; return 0 if that is acknowledged, 2 if it is refused."""
    try:
        games = opens(path).table("games")
        if longer:
            games.insert(game(10**6, LONG))
        else:
            games.update({"notes": ""}, doc_ids=[1])
    except Exception:  # noqa: BLE001 - however it is refused
        return 2
    return 0


def begin(opens: Callable[[Path], TinyDB], path: Path, games: int) -> None:
    """Make the file with so many games."""
    path.unlink(missing_ok=True)
    with opens(path) as database:
        database.table("games").insert_multiple(map(game, range(1, games + 1)))


def found(opens: Callable[[Path], TinyDB], path: Path) -> set[str] | None:
    """Return the ids that can be read, or None where the file cannot."""
    try:
        with opens(path) as database:
            return {row["id"] for row in database.table("games").all()} or None
    except Exception:  # noqa: BLE001 - however it cannot
        return None


def judged(there: set[str] | None, wanted: set[str]) -> str:
    """Return what became of what was acknowledged."""
    if there is None:
        return "unreadable"
    return "whole" if wanted <= there else "lost"


def kills(opens: Callable[[Path], TinyDB], folder: Path, games: int, times: int) -> Counter[str]:
    """Kill it at random instants; return how often the file was what."""
    counts: Counter[str] = Counter()
    path, chance = folder / "db.json", random.Random(3)
    begin(opens, path, games)
    for _ in range(times):
        read, write = os.pipe()
        child = forked(lambda write=write: add(opens, path, write), folder / "said")
        os.close(write)
        os.kill(child, signal.SIGCONT)
        time.sleep(chance.uniform(0.02, 0.3))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        with os.fdopen(read) as lines:
            said = [line for line in lines.read().splitlines() if line]
        wanted = {f"tide-{number}" for number in range(1, int(said[-1] if said else games) + 1)}
        what = judged(found(opens, path), wanted)
        counts[what] += 1
        if what != "whole" or len(wanted) > 2 * games:
            begin(opens, path, games)
        else:
            games = max(games, len(found(opens, path) or ()))
    return counts


def calls(
    opens: Callable[[Path], TinyDB], folder: Path, games: int, *, longer: bool
) -> Counter[str]:
    """Put each fault in the place of each call of one addition, or of one shortening."""
    counts: Counter[str] = Counter()
    path, said, log = folder / "db.json", folder / "said", folder / "calls"
    old = {f"tide-{number}" for number in range(1, games + 1)}
    touched = [str(path), str(path.with_name(f".{path.name}.new")), str(folder)]
    limited = [option for one in touched for option in ("-P", one)]
    begin(opens, path, games)
    traced(
        forked(lambda: add_one(opens, path, longer=longer), said),
        said,
        [*limited, "-e", f"trace={CALLS}", "-o", str(log)],
    )
    times = Counter(each[2] for each in map(CALL.match, log.read_text().splitlines()) if each)
    for call, number in [(c, n) for c, most in times.items() for n in range(1, most + 1)]:
        for fault in FAULTS.values():
            begin(opens, path, games)
            inject = ["-e", f"inject={call}:{fault}:when={number}", "-o", "/dev/null"]
            ran = traced(
                forked(lambda: add_one(opens, path, longer=longer), said),
                said,
                [*limited, "-e", f"trace={CALLS}", *inject],
            )
            wanted = old | {"tide-1000000"} if ran.code == 0 and longer else old
            counts[judged(found(opens, path), wanted)] += 1
    return counts


def full(opens: Callable[[Path], TinyDB], folder: Path, games: int) -> Counter[str]:
    """Let it meet a full disk at every 4 kB."""
    counts: Counter[str] = Counter()
    old = {f"tide-{number}" for number in range(1, games + 1)}
    with disk(folder / "disk") as small:
        path = small / "db.json"
        begin(opens, path, games)
        need = 2 * path.stat().st_size
        for free in range(0, need, 4 << 10):
            begin(opens, path, games)
            ballast = leave(free, small)
            code = add_one(opens, path, longer=True)
            ballast.unlink()
            wanted = old | {"tide-1000000"} if code == 0 else old
            counts[judged(found(opens, path), wanted)] += 1
    return counts


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.faults.tinydb")
    parser.add_argument("--kills", type=int, default=100)
    parser.add_argument("--games", type=int, default=500)
    asked = parser.parse_args()
    print("| storage | fault | tried | whole | acknowledged and lost | unreadable |")
    print("| --- | --- | --- | --- | --- | --- |")
    for name, opens in STORAGES.items():
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made).resolve()
            for fault, counts in (
                ("SIGKILL at random", kills(opens, folder, asked.games, asked.kills)),
                ("a fault at each call of adding", calls(opens, folder, asked.games, longer=True)),
                (
                    "a fault at each call of shortening",
                    calls(opens, folder, asked.games, longer=False),
                ),
                ("a full disk, each 4 kB", full(opens, folder, asked.games)),
            ):
                cells = (counts.total(), counts["whole"], counts["lost"], counts["unreadable"])
                print(f"| {name} | {fault} | {' | '.join(map(str, cells))} |", flush=True)
    sys.exit(0)


if __name__ == "__main__":
    main()
