"""How soon the terminal program answers: python -m tests.bench.tui [paint|screen|keys].

Paint: from the start of the process to the first screen, which names the program's places, and to
the one that tells how many games there are, in a pseudo-terminal that has a size and answers what
it is, with 0, 100 and 10,000 games, against a bare Textual application with an empty table; the
least of the wall times too. Screen: the same of
programs that are imported, on a collection that is open. Keys: from the press of a key until the
screen that answers it is painted, with 10,000 games against 100, on the Backlog at 140 columns. In
milliseconds of wall time, the median (the screen is painted sixty times a second, so that the least
tells of luck), and of processor time (of the whole process, or of the interface's own thread), the
least, which a busy machine disturbs less. A change is saved after its key is answered, beside it.
"""

from __future__ import annotations

import asyncio
import fcntl
import os
import pty
import select
import shutil
import signal
import struct
import sys
import termios
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, thread_time
from typing import NamedTuple

from rich.console import Console
from rich.table import Table
from textual.app import App, ComposeResult
from textual.widgets import DataTable, Static

from engine import open_workshop
from tests.bench.state.making import make
from tests.tui.driving import Hand, driven
from tui.app import OPENING, SpineryApp

NONE, FEW, MANY = 0, 100, 10_000
STARTS = 5
REPEATS = 8
ROUNDS = 4
PATIENCE = 120

ASKS, ANSWER = b"\x1b[c", b"\x1b[?62;22c"
"""What a terminal is asked for its attributes, and what one without pictures answers (DA1)."""

PLACES, COUNTS = b"Backlog", b"listed"
"""What is on the screen once it is painted, and once the collection is open."""

BARE = """
from textual.app import App
from textual.widgets import DataTable, Static

class Bare(App):
    def compose(self):
        yield Static("Backlog")
        yield DataTable()

Bare().run()
"""

KEYS: dict[str, tuple[Sequence[str], Sequence[str]]] = {
    "cursor": (("down",), ()),
    "search, each letter": ((*"case",), ("escape",)),
    "mark": (("space",), ()),
    "accept": (("enter",), ()),
}
"""What is timed, and what puts things right after it. What is searched leaves a full screen of a
hundred games too, so that as much is painted."""


class Took(NamedTuple):
    """Milliseconds."""

    wall: float
    busy: float


def usual(found: Sequence[Took]) -> Took:
    """Return the median of the wall times and the least of the others."""
    return Took(median(one.wall for one in found), min(one.busy for one in found))


# --- first paint ------------------------------------------------------------------------


def started(command: Sequence[str], mark: bytes = PLACES) -> Took:
    """Start a program in a pseudo-terminal; return what it took until it shows ``mark``."""
    begun = perf_counter()
    child, screen = pty.fork()
    rows_columns_dots = struct.pack("HHHH", 24, 80, 800, 480)
    if child == 0:
        fcntl.ioctl(1, termios.TIOCSWINSZ, rows_columns_dots)
        os.environ.update(TERM="xterm-256color", COLUMNS="80", LINES="24")
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.execv(command[0], command)  # noqa: S606  there is nothing a shell is for
    seen, is_answered = b"", False
    while mark not in seen:
        if not select.select([screen], [], [], PATIENCE)[0]:
            raise TimeoutError(f"{' '.join(command)} shows nothing")
        seen += os.read(screen, 65_536)
        if not is_answered and ASKS in seen:
            os.write(screen, ANSWER)
            is_answered = True
    wall = 1000 * (perf_counter() - begun)
    fields = Path(f"/proc/{child}/stat").read_text(encoding="ascii").rsplit(")", 1)[1].split()
    ticks = int(fields[11]) + int(fields[12])
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    os.close(screen)
    return Took(wall, 1000 * ticks / os.sysconf("SC_CLK_TCK"))


def paint(place: Path) -> Table:
    """Return the table of first paints."""
    python = sys.executable
    programs = {"a bare application": ([python, "-c", BARE], PLACES)}
    for games in (NONE, FEW, MANY):
        command = [python, "-m", "tui", str(made(place, games))]
        programs[f"{games:,} games, first paint"] = command, PLACES
        programs[f"{games:,} games, counted"] = command, COUNTS
    heads = ("least", "wall", "× bare", "processor", "× bare")
    table = Table("", *heads, title="From the start, ms")
    bare: Took | None = None
    for name, (command, mark) in programs.items():
        started(command, mark)  # after which the program is compiled, as an installed one is
        each = [started(command, mark) for _ in range(STARTS)]
        took = usual(each)
        bare = bare or took
        table.add_row(
            name,
            f"{min(one.wall for one in each):.0f}",
            f"{took.wall:.0f}",
            f"{took.wall / bare.wall:.2f}",
            f"{took.busy:.0f}",
            f"{took.busy / bare.busy:.2f}",
        )
    return table


class Bare(App[None]):
    """Nothing but an empty table."""

    def compose(self) -> ComposeResult:
        """Lay it out."""
        yield Static("Backlog")
        yield DataTable()


async def opened(app: App[None]) -> Took:
    """Return what an application takes from its making until its first screen stands."""
    wall, busy = perf_counter(), thread_time()
    async with app.run_test(size=(140, 40)) as pilot:
        while isinstance(app, SpineryApp) and app.current_mode == OPENING:
            await pilot.pause(0.001)
        return Took(1000 * (perf_counter() - wall), 1000 * (thread_time() - busy))


def screen(place: Path) -> Table:
    """Return the table of first screens, of applications that are imported and open already."""
    table = Table("", "wall", "thread", "× bare", title="First screen of an open program, ms")
    bare = usual([asyncio.run(opened(Bare())) for _ in range(STARTS)])
    table.add_row("a bare application", f"{bare.wall:.0f}", f"{bare.busy:.0f}", "1.00")
    for games in (FEW, MANY):
        with closing(open_workshop(made(place, games))) as workshop:
            apps = (SpineryApp(lambda: workshop, reads=False) for _ in range(STARTS))
            took = usual([asyncio.run(opened(app)) for app in apps])
        times = f"{took.busy / bare.busy:.2f}"
        table.add_row(f"{games:,} games", f"{took.wall:.0f}", f"{took.busy:.0f}", times)
    return table


# --- keys -------------------------------------------------------------------------------


async def answered(hand: Hand, key: str) -> Took:
    """Press a key; return what it took until its answer is painted, whatever goes on behind."""
    wall, busy = perf_counter(), thread_time()
    hand.send(key)
    quiet = 0
    while quiet < 2:
        await asyncio.sleep(0.001)
        pumps = (hand.app, *hand.screen.walk_children(with_self=True))
        waits = any(pump.message_queue_size for pump in pumps)
        quiet = 0 if waits or not hand._is_drawn else quiet + 1
    return Took(1000 * (perf_counter() - wall), 1000 * (thread_time() - busy))


async def timed(folder: Path) -> dict[str, Took]:
    """Return the least that each sort of key took."""
    found: dict[str, list[Took]] = {name: [] for name in KEYS}
    with closing(open_workshop(folder)) as workshop:
        async with driven(workshop, (140, 40), paints=True) as hand:
            await hand.do("backlog", "only")
            await hand.type("stage listed")
            await hand.press("enter")
            for name, (keys, after) in KEYS.items():
                for _ in range(REPEATS):
                    if name.startswith("search"):
                        await hand.do("filter")
                    each = []
                    for key in keys:
                        each.append(await answered(hand, key))
                        await hand.settle()
                    found[name].append(max(each, key=lambda one: one.busy))
                    await hand.press(*after)
                if name.startswith("search"):
                    await hand.do("only")
                    await hand.type("stage listed")
                    await hand.press("enter")
                if name == "mark":
                    await hand.do("clear")
                    await hand.press("home")
    return {name: usual(took) for name, took in found.items()}


def keys(place: Path) -> Table:
    """Return the table of keys."""
    rounds: dict[int, list[dict[str, Took]]] = {FEW: [], MANY: []}
    for _ in range(ROUNDS):
        # In turn, so that what else the machine does meets both.
        for games, found in rounds.items():
            # What is accepted leaves the list, which is to fill the screen in every round.
            with TemporaryDirectory() as fresh:
                folder = shutil.copytree(made(place, games), Path(fresh) / "shelf")
                found.append(asyncio.run(timed(folder)))
    few, many = (
        {name: usual([f[name] for f in found]) for name in KEYS} for found in rounds.values()
    )
    heads = (f"{FEW}, wall", f"{MANY:,}, wall", "×", f"{FEW}, thread", f"{MANY:,}, thread", "×")
    table = Table("key", *heads, title="From a key to the painted screen, ms")
    for name, took in many.items():
        table.add_row(
            name,
            f"{few[name].wall:.1f}",
            f"{took.wall:.1f}",
            f"{took.wall / few[name].wall:.2f}",
            f"{few[name].busy:.1f}",
            f"{took.busy:.1f}",
            f"{took.busy / few[name].busy:.2f}",
        )
    return table


def made(place: Path, games: int) -> Path:
    """Return a collection of so many games, made once."""
    folder = place / f"shelf-{games}"
    if not folder.exists():
        if games:
            make(folder, games)
        else:
            open_workshop(folder).close()
    return folder


def main(wanted: Sequence[str]) -> None:
    """Print the tables that are wanted."""
    parts = {"paint": paint, "screen": screen, "keys": keys}
    with TemporaryDirectory() as place:
        for name in wanted or parts:
            Console().print(parts[name](Path(place)))


if __name__ == "__main__":
    main(sys.argv[1:])
