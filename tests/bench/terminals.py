"""The program at the end of a line, far away and cut: python -m tests.bench.terminals [far|cut].

Far: what is shown and typed takes a time each way, 0 and 300 ms. From the start to the first paint
and to the proof as Sixel, from a key to its answer, from another size of the window to the screen
that fills it; and what reaches an input field unbidden. Cut: the line goes while sheets are pressed
and pictures are taken in, at many instants, by closing the terminal, by killing the SSH client or
the server's part of it. The program must end, the collection must be sound and open to the next
command, each change made whole or not at all. Exit code 1 if not.

By a pseudo-terminal, and by SSH on loopback where Debian's openssh-server is installed, with keys
made for it in a temporary folder.
"""

from __future__ import annotations

import fcntl
import os
import pty
import random
import re
import shutil
import signal
import socket
import struct
import subprocess
import sys
import termios
import time
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from select import select
from statistics import median
from tempfile import TemporaryDirectory
from typing import NamedTuple

import pyte
from rich.console import Console
from rich.table import Table

from tests.conftest import draw_cover
from tui.actions import BY_ID

ROOT = Path(__file__).resolve().parents[2]
SSHD = Path("/usr/sbin/sshd")
DELAYS = (0.0, 0.3)
CUTS = 3
PATIENCE = 60.0
PICTURES = 40
FULL = 26
"""Sheets that the demo fills once all of its games are accepted."""

ANSWERS = {
    b"\x1b]11;?\x1b\\": b"\x1b]11;rgb:1c1c/1c1c/1c1c\x1b\\",
    b"\x1b[?1;1;0S": b"\x1b[?1;0;256S",
    b"\x1b[?2;4;0S": b"\x1b[?2;0;1000;1000S",
    b"\x1b[>q": b"\x1bP>|terminal(1)\x1b\\",
    b"\x1b[c": b"\x1b[?62;4;22c",
    b"\x1b[?2026$p": b"\x1b[?2026;2$y",
}
"""What the terminal at the near end is asked and says: dark, and it has Sixel."""
SIXEL = re.compile(rb"\x1bP0;0;0q[^\x1b]*\x1b\\")
ENTER, ESCAPE, DOWN = "\r", "\x1b", "\x1b[B"


class Line:
    """A program at the far end of a line that takes ``delay`` seconds each way."""

    def __init__(self, command: Sequence[str], delay: float, environ: dict[str, str]) -> None:
        self._delay = delay
        self._sent: deque[tuple[float, bytes]] = deque()
        self._shown: deque[tuple[float, bytes]] = deque()
        self._rest = b""
        self.pictures = 0
        self.covers = Path()
        """A folder of pictures that the collection does not have."""
        self.ended = False
        self.pid, self.file = pty.fork()
        if self.pid == 0:
            os.execvpe(command[0], command, {**os.environ, **environ})  # noqa: S606  no shell
        self.screen = pyte.Screen(80, 24)
        self.resize(80, 24)
        self._stream = pyte.ByteStream(self.screen)

    @property
    def text(self) -> str:
        return "\n".join(self.screen.display)

    def resize(self, columns: int, rows: int) -> None:
        size = struct.pack("HHHH", rows, columns, 10 * columns, 20 * rows)
        fcntl.ioctl(self.file, termios.TIOCSWINSZ, size)
        self.screen.resize(rows, columns)

    def press(self, keys: str) -> None:
        self._sent.append((time.monotonic() + self._delay, keys.encode()))

    def go_on(self) -> None:
        """Let a moment pass."""
        now = time.monotonic()
        while self._sent and self._sent[0][0] <= now:
            with suppress(OSError):
                os.write(self.file, self._sent.popleft()[1])
        with suppress(OSError):
            if select([self.file], [], [], 0.005)[0]:
                drawn = os.read(self.file, 65536)
                self.ended = not drawn
                self._shown.append((now + self._delay, drawn))
        while self._shown and self._shown[0][0] <= time.monotonic():
            self._show(self._shown.popleft()[1])

    def _show(self, drawn: bytes) -> None:
        drawn = self._rest + drawn
        begun = max(drawn.rfind(b"\x1bP"), drawn.rfind(b"\x1b_"))
        is_whole = begun < 0 or b"\x1b\\" in drawn[begun:]
        self._rest = b"" if is_whole else drawn[begun:]
        drawn = drawn if is_whole else drawn[:begun]
        for asked, answer in ANSWERS.items():
            if asked in drawn:
                self._sent.append((time.monotonic() + self._delay, answer))
        drawn, pictures = SIXEL.subn(b"", drawn)
        self.pictures += pictures
        self._stream.feed(re.sub(rb"\x1b\[[?>][\d;]*[$pquS]+|\x1b[_P][^\x1b]*\x1b\\", b"", drawn))

    def until(self, met: Callable[[], bool], what: str) -> float:
        """Return the milliseconds until something is so."""
        since = time.monotonic()
        while not met():
            if time.monotonic() > since + PATIENCE:
                raise TimeoutError(f"{what} did not come:\n{self.text}")
            self.go_on()
        return 1000 * (time.monotonic() - since)

    def shows(self, words: str) -> float:
        return self.until(lambda: words in self.text, words)

    def rest(self, seconds: float) -> None:
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            self.go_on()

    def close(self) -> None:
        """Hang up."""
        with suppress(OSError):
            os.close(self.file)
        with suppress(ProcessLookupError):
            os.kill(self.pid, signal.SIGKILL if self.ended else signal.SIGHUP)
        with suppress(ChildProcessError):
            os.waitpid(self.pid, 0)


class Way(NamedTuple):
    """How to come to the program."""

    name: str
    before: Sequence[str]
    """What stands before the command."""


@contextmanager
def served(place: Path) -> Iterator[list[str]]:
    """Run an SSH server on loopback; give the client's command."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    for name in ("host", "key"):
        subprocess.run(
            ["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", place / name], check=True
        )
    settings = place / "conf"
    settings.write_text(
        f"Port {port}\nListenAddress 127.0.0.1\nHostKey {place}/host\nStrictModes no\n"
        f"AuthorizedKeysFile {place}/key.pub\nPidFile none\nUsePAM no\n"
    )
    Path("/run/sshd").mkdir(exist_ok=True)
    server = subprocess.Popen([SSHD, "-D", "-f", settings], stderr=subprocess.DEVNULL)
    options = ("StrictHostKeyChecking=no", "UserKnownHostsFile=/dev/null", "LogLevel=ERROR")
    try:
        time.sleep(1)
        yield [
            *("ssh", "-tt", "-p", str(port), "-i", str(place / "key")),
            *(part for one in options for part in ("-o", one)),
            "127.0.0.1",
        ]
    finally:
        server.terminate()
        server.wait()


def opened(way: Way, shelf: Path, delay: float = 0.0) -> tuple[Line, Path]:
    """Open a collection; return the line to it, and the file that will hold the program's id."""
    note = shelf.parent / "pid"
    note.unlink(missing_ok=True)
    home = shelf.parent / "home"
    home.mkdir(exist_ok=True)
    script = (
        f"echo $$ > {note}; cd {ROOT}; export HOME={home} TERM=xterm-256color; "
        f"exec {sys.executable} -m tui {shelf}"
    )
    command = [*way.before, script] if way.before else ["sh", "-c", script]
    return Line(command, delay, {"TERM": "xterm-256color"}), note


def command(*words: str | Path) -> subprocess.CompletedProcess[str]:
    """Run one command of the program."""
    return subprocess.run(
        [sys.executable, "-m", "tui", *map(str, words)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )


# --- far --------------------------------------------------------------------------------


def far(ways: Sequence[Way], place: Path) -> bool:
    """Print what is waited for at the end of a long line."""
    heads = ("first paint", "proof", "a key", "a picture more", "a size", "typed unbidden")
    table = Table("", "each way", *heads, title="The program at the end of a line, ms")
    is_well = True
    for way in ways:
        for delay in DELAYS:
            line, _ = opened(way, fresh(place), delay)
            paint = line.shows("Today's batch")
            line.shows("sure")
            proof = paint + line.until(lambda line=line: line.pictures > 0, "a proof")
            keys, pictures = [], []
            for title in ("L'Étoile", "Herring Express 2", "Ο Φάρος"):
                shown = line.pictures
                line.press(DOWN)
                keys.append(line.until(lambda line=line, t=title: f"› {t}" in marked(line), title))
                pictures.append(
                    keys[-1] + line.until(lambda line=line, n=shown: line.pictures > n, "a proof")
                )
            line.resize(140, 40)
            size = line.until(lambda line=line: "^p Find" in line.screen.display[39], "a size")
            line.press("2")
            line.shows("120 of 120")
            line.press("/")
            line.rest(1 + 4 * delay)
            line.press("zqzq")
            line.shows("zqzq")
            found = next(row for row in line.screen.display if "zqzq" in row)
            typed = found.replace("zqzq", "").strip(" ▊▎│▁▔/")
            is_well &= not typed or "search" in typed.lower()
            line.press(ESCAPE)
            figures = (paint, proof, median(keys), median(pictures), size)
            table.add_row(
                way.name, f"{delay * 1000:.0f}", *(f"{one:.0f}" for one in figures), typed or "none"
            )
            line.close()
    Console().print(table)
    return is_well


def marked(line: Line) -> str:
    """Return the rows with the cursor, without what stands between it and the title."""
    return "\n".join(
        "› " + re.sub(r"^[›\s]*[?○✓]?\s*", "", row)
        for row in line.screen.display
        if row.startswith("›")
    )


def fresh(place: Path, *, accepted: bool = False) -> Path:
    """Return a demo collection that nobody changed; with all games accepted, if so asked."""
    made = place / ("accepted" if accepted else "made")
    if not made.exists():
        command("demo", made, "--no-open")
        if accepted:
            command("propose", "--accept", "--collection", made)
    folder = place / "shelf"
    shutil.rmtree(folder, ignore_errors=True)
    return Path(shutil.copytree(made, folder))


# --- cut --------------------------------------------------------------------------------


def press(line: Line) -> None:
    """Begin to press."""
    line.press("3")
    line.shows("Full 8")
    line.press("p")


def take_in(line: Line) -> None:
    """Begin to take in pictures."""
    line.press("\x10")
    line.rest(1)
    line.press(BY_ID["take_pictures"].label)
    line.rest(1.5)
    line.press(ENTER)
    line.shows("folder of covers")
    line.press(f"\x1b[200~{line.covers}\x1b[201~")
    line.rest(1)
    line.press(ENTER)
    line.shows("Enter Take in")
    line.press(ENTER)


def client(line: Line, _: int) -> None:
    """Close the terminal that the client, or the program, runs in."""
    line.close()


def server(line: Line, program: int) -> None:
    """Kill what the program was started by, as where the server's machine loses the line."""
    parent = int(Path(f"/proc/{program}/stat").read_text().rsplit(")", 1)[1].split()[1])
    os.kill(parent, signal.SIGKILL)
    line.close()


def cut(ways: Sequence[Way], place: Path) -> bool:
    """Print what the line's going leaves behind."""
    chance = random.Random(1)
    table = Table("", "cut", "while", "cuts", "done whole", "not at all", "else", title="Cut")
    is_well = True
    for way in ways:
        for how in (client, server) if way.before else (client,):
            for begin in (press, take_in):
                found = [left(way, how, begin, place, chance) for _ in range(CUTS)]
                others = [one for one in found if one not in {"whole", "not at all"}]
                is_well &= not others
                counts = (found.count("whole"), found.count("not at all"))
                table.add_row(
                    way.name,
                    how.__name__,
                    begin.__name__.replace("_", " "),
                    str(CUTS),
                    *map(str, counts),
                    "; ".join(others) or "none",
                )
    Console().print(table)
    return is_well


def left(
    way: Way,
    how: Callable[[Line, int], None],
    begin: Callable[[Line], None],
    place: Path,
    chance: random.Random,
) -> str:
    """Cut the line once; return what became of the change."""
    shelf = fresh(place, accepted=True)
    before = state(shelf)
    line, note = opened(way, shelf)
    line.shows("Every game is decided")
    line.covers = covers(place)
    begin(line)
    line.rest(chance.uniform(0, 1.5))
    program = int(note.read_text())
    how(line, program)
    until = time.monotonic() + PATIENCE
    while Path(f"/proc/{program}").exists():
        if time.monotonic() > until:
            os.kill(program, signal.SIGKILL)
            return "the program went on"
        time.sleep(0.05)
    check = command("check", "--collection", shelf)
    if check.returncode:
        return check.stdout + check.stderr
    after = state(shelf)
    freed = command("setup", "--kerf", "0.3", "--collection", shelf)
    if freed.returncode:
        return freed.stderr
    if after == before:
        return "not at all"
    sheets, pictures = before
    return (
        "whole"
        if after in {(sheets + FULL, pictures), (sheets, pictures + PICTURES)}
        else str(after)
    )


def covers(place: Path) -> Path:
    """Return a folder of pictures, made once."""
    folder = place / "covers"
    if not folder.exists():
        folder.mkdir()
        for number in range(PICTURES):
            draw_cover(folder / f"Copper Kite {number}.png", (6 * number, 60, 120))
    return folder


def state(shelf: Path) -> tuple[int, int]:
    """Return the pressed sheets and the pictures that a collection has more than the demo's."""
    return len([*(shelf / "sheets").glob("*.pdf")]), len([*(shelf / "pictures").iterdir()])


def main(wanted: Sequence[str]) -> int:
    """Print the tables that are wanted; return the exit code."""
    parts = {"far": far, "cut": cut}
    with TemporaryDirectory() as folder:
        place = Path(folder)
        ways = [Way("pseudo-terminal", ())]
        if SSHD.exists():
            with served(place) as ssh:
                ways.append(Way("SSH", ssh))
                return measured(parts, wanted, ways, place)
        return measured(parts, wanted, ways, place)


def measured(
    parts: dict[str, Callable[[Sequence[Way], Path], bool]],
    wanted: Sequence[str],
    ways: Sequence[Way],
    place: Path,
) -> int:
    """Return the exit code of the parts, after all of them."""
    ended = [parts[name](ways, place) for name in wanted or parts]
    return 0 if all(ended) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
