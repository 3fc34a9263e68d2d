"""Running the real program again and again on one small collection, and seeing what came of it.

The program is loaded once; each run is a fork of it, which saves the seconds of starting. Faults
are put into system calls by strace (``-e inject``), so that no part of the program knows of it.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import time
import traceback
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from engine import open_workshop
from engine.collection import Collection
from engine.service.session import utc_now
from tests.conftest import draw_cover
from tui.cli.dispatch import run

TITLES = [f"Lantern Bay {number}" for number in range(1, 7)]


class Ran(NamedTuple):
    """How a run ended."""

    code: int
    """The exit code; negative for the signal that killed it."""
    said: str


class State(NamedTuple):
    """A collection, as far as it must not differ by a fault."""

    records: str
    """The digest of its records."""
    history: int
    files: frozenset[str]


def make(folder: Path) -> Path:
    """Make a small collection with lists and pictures beside it; return its folder."""
    covers = folder / "covers"
    covers.mkdir(parents=True)
    for number, title in enumerate(TITLES):
        draw_cover(covers / f"{title}.png", (20 * number, 60, 120))
    (folder / "games.csv").write_text("title\n" + "\n".join(TITLES) + "\n", "utf-8")
    more = folder / "more"
    more.mkdir()
    for number in range(3):
        draw_cover(more / f"Copper Kite {number}.png", (200, 40 * number, 20))
    (folder / "more.csv").write_text("title\nCopper Kite 0\nCopper Kite 1\nCopper Kite 2\n")
    shelf = folder / "shelf"
    workshop = open_workshop(shelf)
    workshop.games.intake(folder / "games.csv", covers, "snap-shell")
    workshop.close()
    return shelf


def forked(do: Callable[[], int], out: Path) -> int:
    """Run ``do`` in a fork that waits to be let go on, printing to ``out``; return its id."""
    child = os.fork()
    if child:
        os.waitpid(child, os.WUNTRACED)
        return child
    code = 99
    try:
        handle = os.open(out, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(handle, 1)
        os.dup2(handle, 2)
        os.kill(os.getpid(), signal.SIGSTOP)
        code = do()
    except SystemExit as left:
        code = left.code if isinstance(left.code, int) else 98
    except BaseException:  # noqa: BLE001 - whatever it is, the parent looks at it
        os.write(2, traceback.format_exc().encode())
    finally:
        os._exit(code)


def command(arguments: Sequence[str], folder: Path) -> Callable[[], int]:
    """Return what runs a command of the program on a collection."""

    def do() -> int:
        import sys

        sys.stdout = open(1, "w", closefd=False)  # noqa: SIM115
        sys.stderr = open(2, "w", closefd=False)  # noqa: SIM115
        code = run([*arguments, "--collection", str(folder)])
        sys.stdout.flush()
        return code

    return do


def ended(child: int, out: Path) -> Ran:
    """Let a fork go on to its end."""
    os.kill(child, signal.SIGCONT)
    _, status = os.waitpid(child, 0)
    return Ran(os.waitstatus_to_exitcode(status), out.read_text("utf-8", "replace"))


def traced(child: int, out: Path, options: Sequence[str]) -> Ran:
    """Let a fork go on to its end under strace with these options."""
    with subprocess.Popen(
        ["strace", "-f", "-qq", "-p", str(child), *options], stderr=subprocess.DEVNULL
    ) as tracer:
        while "TracerPid:\t0" in Path(f"/proc/{child}/status").read_text():
            if tracer.poll() is not None:
                raise RuntimeError("strace could not attach")
            time.sleep(0.001)
        return ended(child, out)


def state(folder: Path) -> State:
    """Return what a collection is, having opened it for writing, as the next use would.

    Raises what opening raises, and AssertionError for what its health check finds.
    """
    with Collection.open(folder, now=utc_now) as collection:
        assert not collection.read_only, collection.notes
        findings = collection.check()
        assert not findings, findings
    return as_it_lies(folder)


def as_it_lies(folder: Path) -> State:
    """Return what a collection is without opening it."""
    raw = json.loads((folder / "collection.json").read_bytes())
    records = {name: list(raw[name].values()) for name in raw if name not in {"history", "meta"}}
    places = ("", "pictures", "sheets", "fonts", "cases")
    files = [path for place in places for path in (folder / place).iterdir() if path.is_file()]
    return State(
        sha256(json.dumps(records, sort_keys=True).encode()).hexdigest(),
        len(raw["history"]),
        frozenset(str(path.relative_to(folder)) for path in files),
    )


def fresh(source: Path, folder: Path) -> None:
    """Make ``folder`` a copy of ``source``."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(source, folder)
