"""A disk that is full at every point of a command, for the real program on a small tmpfs.

    python -m tests.bench.faults.full [--step 4] [--only save press intake undo]

Needs Linux and the right to mount. The collection lies on a disk of its own; a file beside it
leaves so many kB free, from none to what the command needs, in steps. What is said and the exit
code must be true, as in ``calls``; with the disk freed again, the collection is opened as the next
use would, and nothing may be lost or left over. Exit code 1 otherwise.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from tests.bench.faults.calls import Case, prepared, told_truly
from tests.bench.faults.harness import Ran, as_it_lies, command, ended, forked, fresh, make, state

SIZE = 8 << 20
"""Bytes of the disk."""


@contextmanager
def disk(at: Path) -> Iterator[Path]:
    """Mount a small disk of its own."""
    at.mkdir()
    subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={SIZE}", "tmpfs", str(at)], check=True)
    try:
        yield at
    finally:
        subprocess.run(["umount", str(at)], check=True)


def leave(free: int, at: Path) -> Path:
    """Fill a disk so that ``free`` bytes are left; return what fills it."""
    ballast = at / "ballast"
    found = os.statvfs(at)
    with ballast.open("wb") as file, suppress(OSError):
        os.posix_fallocate(file.fileno(), 0, max(1, found.f_bavail * found.f_frsize - free))
    return ballast


def free_on(at: Path) -> int:
    """Return the bytes that are free on a disk."""
    found = os.statvfs(at)
    return found.f_bavail * found.f_frsize


def tried(case: Case, free: int, folder: Path, shelf: Path) -> tuple[Ran, str]:
    """Run a command with so much room; return how it ended and what was wrong with that."""
    fresh(case.before, shelf)
    before = as_it_lies(shelf)
    ballast = leave(free, shelf.parent)
    said = folder / "said"
    ran = ended(forked(command(case.arguments, shelf), said), said)
    ballast.unlink()
    if "Traceback" in ran.said or (ran.code == 2 and not ran.said.strip()):
        return ran, f"no sentence: {ran.said[-900:]}"
    return ran, told_truly(case, ran, before, shelf)


def main() -> None:
    """Try every room for every command."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.faults.full")
    parser.add_argument("--only", nargs="+", default=["save", "press", "intake", "undo"])
    parser.add_argument("--step", type=int, default=4, help="in kB; a page of tmpfs is 4")
    asked = parser.parse_args()
    wrong = 0
    with tempfile.TemporaryDirectory() as name, disk(Path(name).resolve() / "disk") as small:
        folder = Path(name).resolve()
        made, shelf = make(folder / "made"), small / "shelf"
        for what, arguments, first in prepared(folder / "made"):
            if what not in asked.only:
                continue
            fresh(made, shelf)
            for one in first:
                assert ended(forked(command(one, shelf), folder / "x"), folder / "x").code == 0
            state(shelf)
            before = folder / f"before-{what}"
            fresh(shelf, before)
            had = free_on(small)
            done = ended(forked(command(arguments, shelf), folder / "x"), folder / "x")
            assert done.code == 0, done
            case = Case(what, arguments, before, as_it_lies(shelf), (), {})
            # A file that is written anew lies there twice for a while.
            need = (
                had - free_on(small) + 2 * (shelf / "collection.json").stat().st_size + (64 << 10)
            )
            counts: Counter[str] = Counter()
            for free in range(0, need, asked.step << 10):
                ran, said = tried(case, free, folder, shelf)
                counts["refused" if ran.code == 2 else "done" if ran.code == 0 else "told"] += 1
                if said:
                    wrong += 1
                    print(f"{what} with {free >> 10} kB free: {said}", flush=True)
            print(f"{what}: {', '.join(f'{n} {how}' for how, n in counts.items())}", flush=True)
    print(f"{wrong} wrong")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
