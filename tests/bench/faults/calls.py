"""An error, and a kill, at every system call that a command makes on the collection's files.

    python -m tests.bench.faults.calls [--only save press undo intake] [--every 1] [--folder DIR]

Needs strace and Linux. Each command is run once under strace to see its calls on the collection's
files (opening, writing, forcing, renaming, making, removing, locking); then once for each of them
with an input/output error put in its place, once with a full disk, and once with a SIGKILL. What
it says and its exit code must be true: 0 and the collection is as it should be after it, 2 and it
is as before, 3 and it is as after it; killed, it is one of both. The collection is then opened
again, as the next use would, and nothing may be left over. Exit code 1 otherwise.
"""

from __future__ import annotations

import argparse
import re
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from tests.bench.faults.harness import (
    Ran,
    State,
    as_it_lies,
    command,
    ended,
    forked,
    fresh,
    make,
    state,
    traced,
)

CALLS = (
    "openat,write,pwrite64,fsync,fdatasync,rename,renameat,renameat2,unlink,unlinkat,mkdir,mkdirat,"
    "close,flock,ftruncate,copy_file_range,sendfile"
)
"""Calls by which files are changed; strace passes over those that a system does not have."""
FAULTS: Mapping[str, str] = {
    "error": "error=EIO",
    "full": "error=ENOSPC",
    "kill": "signal=KILL",
}
CALL = re.compile(r"^(?:\[pid +)?(\d+)\]? +(\w+)\(")


class Case(NamedTuple):
    """A command on a collection as it stands before it."""

    name: str
    arguments: Sequence[str]
    before: Path
    after: State
    paths: Sequence[str]
    """What it touches of the collection."""
    calls: Mapping[str, int]
    """How often it makes each call on those."""


def prepared(folder: Path) -> Iterator[tuple[str, list[str], list[list[str]]]]:
    """Yield each command, and what is done before it."""
    accept = ["propose", "--accept", "lantern-bay-1", "lantern-bay-2"]
    press = ["press", "--part-full", "--cut-page"]
    more = ["intake", str(folder / "more.csv"), "--pictures", str(folder / "more"), "--no-reading"]
    yield "save", accept, []
    yield "press", press, [accept]
    yield "undo", ["undo"], [accept, press]
    yield "intake", more, []


def cases(folder: Path, shelf: Path, only: Sequence[str]) -> Iterator[Case]:
    """Yield the cases, each run once to see what it does."""
    source = folder / "made"
    fresh(shelf, source)
    for name, asked, first in prepared(folder):
        if name not in only:
            continue
        fresh(source, shelf)
        for one in first:
            assert plainly(one, folder, shelf).code == 0
        state(shelf)  # opened once more, so that each run finds the same backups
        before = folder / f"before-{name}"
        fresh(shelf, before)
        logged = folder / "calls"
        ran = traced(
            forked(command(asked, shelf), folder / "said"),
            folder / "said",
            ["-y", "-e", f"trace={CALLS}", "-o", str(logged)],
        )
        assert ran.code == 0, ran
        lines = [line for line in logged.read_text().splitlines() if str(shelf) in line]
        paths = sorted({path for line in lines for path in re.findall(rf"{shelf}[^\"'>]*", line)})
        after = as_it_lies(shelf)
        fresh(before, shelf)
        traced(
            forked(command(asked, shelf), folder / "said"),
            folder / "said",
            [*limited(paths), "-e", f"trace={CALLS}", "-o", str(logged)],
        )
        by_thread = Counter(
            (found[1], found[2])
            for line in logged.read_text().splitlines()
            if (found := CALL.match(line))
        )
        calls: dict[str, int] = {}
        for (_, call), times in by_thread.items():
            calls[call] = max(calls.get(call, 0), times)  # strace counts for each thread
        yield Case(name, asked, before, after, paths, calls)


def limited(paths: Sequence[str]) -> list[str]:
    """Return the options by which strace looks at these paths only."""
    return [option for path in paths for option in ("-P", path)]


def plainly(arguments: Sequence[str], folder: Path, shelf: Path) -> Ran:
    """Run a command as it is."""
    return ended(forked(command(arguments, shelf), folder / "said"), folder / "said")


def tried(case: Case, call: str, number: int, fault: str, folder: Path, shelf: Path) -> str:
    """Put one fault in the way of a command; return what was wrong with what came of it."""
    fresh(case.before, shelf)
    before = as_it_lies(shelf)
    ran = traced(
        forked(command(case.arguments, shelf), folder / "said"),
        folder / "said",
        [
            *limited(case.paths),
            "-e",
            f"trace={CALLS}",
            "-e",
            f"inject={call}:{FAULTS[fault]}:when={number}",
            "-o",
            "/dev/null",
        ],
    )
    if "Traceback" in ran.said or (ran.code == 2 and not ran.said.strip()):
        return f"no sentence: {ran.said[-900:]}"
    return told_truly(case, ran, before, shelf)


def told_truly(case: Case, ran: Ran, before: State, shelf: Path) -> str:
    """Return what is wrong with a collection after a run, and with what was said of it."""
    try:
        now = state(shelf)
    except AssertionError as error:
        return f"left: {error}"
    except Exception as error:  # noqa: BLE001 - that is what is looked for
        return f"unreadable: {error!r}"
    came = "after" if now.history == case.after.history else "before"
    if came == "after" and now.files != case.after.files:
        return f"files differ: {sorted(now.files ^ case.after.files)}"
    if came == "before" and now != before:
        return "records or files differ from before"
    expected = {0: {"after"}, 2: {"before"}, 3: {"after"}, -9: {"before", "after"}}
    if came not in expected.get(ran.code, set()):
        return f"exit code {ran.code}, and the collection is as {came} it: {ran.said[-300:]}"
    return ""


def main() -> None:
    """Try every fault at every call."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.faults.calls")
    parser.add_argument("--only", nargs="+", default=["save", "press", "undo", "intake"])
    parser.add_argument("--every", type=int, default=1, help="try each n-th call only")
    parser.add_argument("--folder", type=Path, help="on which disk; by default where others are")
    asked = parser.parse_args()
    wrong = 0
    with tempfile.TemporaryDirectory(dir=asked.folder) as name:
        folder = Path(name).resolve()
        shelf = make(folder)
        for case in cases(folder, shelf, asked.only):
            counts: Counter[str] = Counter()
            for call, times in case.calls.items():
                for number in range(1, times + 1, asked.every):
                    for fault in FAULTS:
                        counts[fault] += 1
                        if said := tried(case, call, number, fault, folder, shelf):
                            wrong += 1
                            counts[f"{fault} wrong"] += 1
                            print(f"{case.name}: {call} {number} {fault}: {said}", flush=True)
            listed = ", ".join(f"{count} {what}" for what, count in counts.items())
            print(f"{case.name}: {sum(case.calls.values())} calls; {listed}", flush=True)
    print(f"{wrong} wrong")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
