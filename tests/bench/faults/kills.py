"""SIGKILL at random instants while the program changes a collection, one command after another.

    python -m tests.bench.faults.kills [--kills 500] [--seed 1] [--folder DIR]

Accepting, taking in with pictures, pressing, withdrawing, setting up and undoing, each a command of
the real program. After each kill the collection is opened as the next use would: it must be what
the last acknowledged command left, or what the one under way makes of it, with nothing of it left
over. Exit code 1 if anything was lost, unreadable or left.
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
from pathlib import Path

from engine.collection import Collection
from engine.service.session import utc_now
from tests.bench.faults.harness import State, as_it_lies, command, forked, make, state

LONGEST = 0.9
"""Seconds until a kill."""


def commands(folder: Path) -> list[list[str]]:
    """Return what can be done, each a command that changes something more often than not."""
    return [
        ["intake", str(folder / "games.csv"), "--pictures", str(folder / "covers"), "--no-reading"],
        ["propose", "--accept", "lantern-bay-1", "lantern-bay-2"],
        ["propose", "--accept", "lantern-bay-3"],
        ["propose", "--accept"],
        ["intake", str(folder / "more.csv"), "--pictures", str(folder / "more"), "--no-reading"],
        ["press", "--part-full", "--cut-page", "--job"],
        ["press", "--part-full"],
        ["withdraw", "1"],
        ["setup", "--kerf", "0.3"],
        ["setup", "--kerf", "0.5"],
        ["undo"],
        ["undo"],
        ["undo"],
    ]


def stream(folder: Path, shelf: Path, seed: int, told: int) -> int:
    """Change the collection until killed; write a line before each command and one after it."""
    chance = random.Random(seed)
    able = commands(folder)
    while True:
        asked = chance.choice(able)
        os.write(told, f"begun {asked[0]}\n".encode())
        code = command(asked, shelf)()
        last = (folder / "said").read_text().splitlines()[-1]
        gone = code == 2 and any(words in last for words in ("no such", "was withdrawn"))
        if code not in {0, 1} and not gone:
            os.write(told, f"failed {asked} {code}\n".encode())
            return code
        now = as_it_lies(shelf)
        os.write(told, f"done {now.records} {now.history}\n".encode())


def killed(folder: Path, shelf: Path, seed: int) -> tuple[str, str]:
    """Let the program work and kill it; return the last acknowledged state and what was begun."""
    read, write = os.pipe()
    child = forked(lambda: stream(folder, shelf, seed, write), folder / "said")
    os.close(write)
    os.kill(child, signal.SIGCONT)
    time.sleep(random.Random(seed).uniform(0, LONGEST))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(read) as lines:
        said = lines.read().splitlines()
    failed = [line for line in said if line.startswith("failed")]
    if failed:
        raise AssertionError(failed[0] + (folder / "said").read_text())
    done = [line.split()[1] for line in said if line.startswith("done ")]
    begun = said[-1].split()[1] if said and said[-1].startswith("begun ") else ""
    return done[-1] if done else "", begun


def before_last(shelf: Path) -> str:
    """Return the records as they were before the last change."""
    with Collection.open(shelf, now=utc_now) as collection:
        collection.undo()
    return as_it_lies(shelf).records


def main() -> None:
    """Kill, look, and count."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.faults.kills")
    parser.add_argument("--kills", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--folder", type=Path, help="on which disk; by default where others are")
    asked = parser.parse_args()
    counts: Counter[str] = Counter(kills=0, lost=0, unreadable=0, left=0)
    with tempfile.TemporaryDirectory(dir=asked.folder) as name:
        folder = Path(name)
        shelf = make(folder)
        known = state(shelf)
        for number in range(asked.kills):
            seed = asked.seed * 1_000_003 + number
            counts["kills"] += 1
            known = look(folder, shelf, known, seed, counts)
            if (number + 1) % 50 == 0:
                print(dict(counts), file=sys.stderr, flush=True)
    print(", ".join(f"{count} {what}" for what, count in counts.items()))
    sys.exit(bool(counts["lost"] or counts["unreadable"] or counts["left"]))


def look(
    folder: Path,
    shelf: Path,
    known: State,
    seed: int,
    counts: Counter[str],
) -> State:
    """Kill once; count what was wrong; return how the collection is then."""
    acknowledged, under_way = killed(folder, shelf, seed)
    counts[f"during {under_way or 'nothing'}"] += 1
    expected = acknowledged or known.records
    try:
        now = state(shelf)
    except AssertionError as error:
        counts["left"] += 1
        print(seed, under_way, error, file=sys.stderr)
        now = as_it_lies(shelf)
    except Exception as error:
        counts["unreadable"] += 1
        print(seed, under_way, repr(error), file=sys.stderr)
        raise
    if now.records != expected:
        counts["came through unacknowledged"] += 1
        if under_way != "undo" and before_last(shelf) != expected:
            counts["lost"] += 1
            print(seed, under_way, "lost", file=sys.stderr)
    return state(shelf)


if __name__ == "__main__":
    main()
