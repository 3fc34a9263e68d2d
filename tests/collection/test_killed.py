"""A program that is killed at any instant has lost nothing that it reported as saved.

The long form, through the real program, is ``python -m tests.bench.faults.kills``.
"""

from __future__ import annotations

import json
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from engine.collection import Collection

WORKER = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from engine.collection import Collection
from engine.model import Game, Picture

now = lambda: datetime.now(UTC)
collection = Collection.open(Path(sys.argv[1]), now=now)
assert not collection.read_only
begun = len(collection.games)
source = Path(sys.argv[2])
print("open", flush=True)
for number in range(begun, begun + 10_000):
    source.write_bytes(b"%d" % number * 10_000)
    with collection.new_files() as files:
        name = files.picture(source)
        collection.record(
            f"added {number}",
            games=[Game(f"g{number}", f"Tide {number}", now(), notes="x" * 2_000)],
            pictures=[Picture(name, source.name, 1, 1, "#000000")],
            files=files,
        )
    print(number, flush=True)
"""

ROUNDS = 6


def killed_after(seconds: float, folder: Path, source: Path) -> int:
    """Let a program work in ``folder`` and kill it; return the last change it reported."""
    command = [sys.executable, "-c", WORKER, str(folder), str(source)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as worker:
        assert worker.stdout is not None
        assert worker.stdout.readline() == "open\n"
        time.sleep(seconds)
        os.kill(worker.pid, signal.SIGKILL)
        said = worker.stdout.read().splitlines()
    assert worker.returncode == -signal.SIGKILL
    whole = [line for line in said if line.isdecimal()]
    return int(whole[-1]) if whole else -1


def test_nothing_reported_is_lost(tmp_path: Path, clock: Callable[[], datetime]) -> None:
    folder, source = tmp_path / "shelf", tmp_path / "cover.png"
    chance = random.Random(7)
    last = -1
    for _ in range(ROUNDS):
        last = max(last, killed_after(chance.uniform(0.0, 0.25), folder, source))
        with Collection.open(folder, now=clock) as collection:
            assert not collection.read_only
            there = len(collection.games)
            assert there - 1 in {last, last + 1}  # the change under way may have come through
            last = there - 1
            assert list(collection.games) == [f"g{number}" for number in range(there)]
            assert len(collection.pictures) == there
            if there:
                file = json.loads((folder / "collection.json").read_text())
                assert list(file["history"].values())[-1]["words"] == f"added {last}"
            assert not collection.check(), "and nothing is left over"
    assert last > ROUNDS
