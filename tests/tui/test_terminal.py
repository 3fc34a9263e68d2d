"""What is installed, in a real terminal: run by ``.ci/wheel``, which names the command.

SPINERY=.venv/bin/spinery python -m pytest tests/tui/test_terminal.py
"""

from __future__ import annotations

import fcntl
import os
import pty
import select
import struct
import subprocess
import termios
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pyte
import pytest
from pypdf import PdfReader

from tests.tui.driving import PATIENCE
from tests.tui.shelf import FIRST

COMMAND = os.environ.get("SPINERY", "")
pytestmark = pytest.mark.skipif(not COMMAND, reason="no installed command is named by SPINERY")

COLUMNS, LINES = 80, 24
DOWN, END, ESCAPE, ENTER = "\x1b[B", "\x1b[F", "\x1b", "\r"


def pasted(text: str) -> str:
    """Return what a terminal sends for a paste: DEC private mode 2004, as xterm describes it."""
    return f"\x1b[200~{text}\x1b[201~"


class Terminal:
    """A terminal that shows what a program draws, as pyte understands it."""

    def __init__(self, process: subprocess.Popen[bytes], file: int) -> None:
        self.process = process
        self._file = file
        self._screen = pyte.Screen(COLUMNS, LINES)
        self._stream = pyte.ByteStream(self._screen)
        self.ended = False
        self.drawn = b""
        """All that came, with what acts on the terminal in it."""

    @property
    def text(self) -> str:
        return "\n".join(self._screen.display)

    def until(self, words: str) -> None:
        """Read until the screen shows some words."""
        since = time.monotonic()
        while words not in self.text:
            assert not self.ended, f"it ended without showing {words}:\n{self.text}"
            assert time.monotonic() < since + PATIENCE, f"{words} did not come:\n{self.text}"
            self._read()

    def press(self, *keys: str) -> None:
        os.write(self._file, "".join(keys).encode())

    def wait(self) -> int:
        """Read to the end; return the exit code."""
        while not self.ended:
            self._read()
        return self.process.wait()

    def _read(self) -> None:
        ready, _, _ = select.select([self._file], [], [], 0.05)
        if not ready:
            self.ended = self.process.poll() is not None
            return
        try:
            drawn = os.read(self._file, 65536)
        except OSError:  # how Linux tells that the other side is closed
            drawn = b""
        self.ended = not drawn
        self.drawn += drawn
        # Queries with a "$" in them are unknown to pyte, and answered by no one here.
        self._stream.feed(drawn.replace(b"$p", b"h"))


@contextmanager
def terminal(folder: Path, *arguments: str) -> Iterator[Terminal]:
    """Run the command in a folder, in a terminal of its own."""
    ours, its = pty.openpty()
    fcntl.ioctl(its, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))
    home = folder / "home"
    home.mkdir()
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST")}
    environment = {
        **kept,
        "HOME": str(home),
        "XDG_STATE_HOME": str(home / "state"),
        "TERM": "xterm-256color",
    }
    process = subprocess.Popen(
        [Path(COMMAND).absolute(), *arguments],
        cwd=folder,
        env=environment,
        stdin=its,
        stdout=its,
        stderr=its,
        start_new_session=True,
    )
    os.close(its)
    with closing(os.fdopen(ours, "rb", buffering=0)), process:
        try:
            yield Terminal(process, ours)
        finally:
            process.kill()


def test_the_command_and_its_demo_open(tmp_path: Path) -> None:
    said = subprocess.run(
        [Path(COMMAND).absolute(), "cases"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    assert "Clear snap shell, standard handheld cartridge" in said.stdout
    with terminal(tmp_path, "demo") as seen:
        seen.until("Today's batch")
        seen.until("Drawing the proof")
        seen.press("q")
        assert seen.wait() == 0


def test_from_an_empty_folder_to_a_pressed_sheet(tmp_path: Path) -> None:
    with terminal(tmp_path) as seen:
        seen.until("what to open")
        seen.press(DOWN, DOWN, ENTER)
        seen.until("A folder to make it in.")
        seen.press(ENTER)
        seen.until("no games yet")
        seen.press(ENTER)
        seen.until("Take in a list")
        seen.press(pasted("\r".join(f"{one} Bay" for one in FIRST)))
        seen.until("6 new games.")
        seen.press(ENTER)
        seen.until("List         6 games")
        seen.press(END, ENTER)
        seen.until("0 of 6 done")
        seen.press(ENTER * len(FIRST))
        seen.until("Every game is decided.")
        seen.press("3")
        seen.until("Full 1")
        seen.press("p")
        seen.until("1 sheet pressed")
        seen.press(ENTER)
        seen.until("Pressed 1")
        seen.press("q")
        assert seen.wait() == 0
    page = PdfReader(tmp_path / "my-shelf" / "sheets" / "sheet-0001.pdf")
    assert len(page.pages) == 1


PASTE_MARKS = (b"\x1b[?2004h", b"\x1b[?2004l")
"""What readline tells a terminal before it reads a line, and after: DEC private mode 2004."""


def test_from_an_empty_folder_to_fitted_games_by_typed_lines(tmp_path: Path) -> None:
    with terminal(tmp_path, "--plain") as seen:
        seen.until("Type the folder of one")
        for line, answer in (
            ("my-shelf", "my-shelf: no games yet."),
            ("paste", "An empty line ends them."),
            (pasted("\n".join(f"{one} Bay" for one in FIRST)) + "\r", "yes to do it"),
            ("yes", "6 games added."),
            ("next", "Game 1 of 6: Lantern Bay."),
            ("mark all", "6 games marked."),
            ("marked accept", "Accept: 6 games marked."),
            ("yes", "6 games accepted."),
            ("press", "Sheet 1: "),
            ("sheet 1", "Insert 1 of 6: Lantern Bay"),
            ("spoiled", "Insert 2 of 6: "),
            ("\r".join(["good"] * 5), "5 inserts are good"),
            ("yes", "Sheet 1 is settled."),
            ("cuts 1", "Score a, step 1 of "),
            ("fitting 1", "fitted notes that it is in"),
            ("fitted", "It goes in like the one before."),
            ("progress", "fitted: 1."),
        ):
            seen.press(line, ENTER)
            seen.until(answer)
        seen.press("quit", ENTER)
        assert seen.wait() == 0
        drawn = seen.drawn
    for mark in PASTE_MARKS:
        drawn = drawn.replace(mark, b"")
    assert b"\x1b" not in drawn, "nothing is moved or coloured"
    assert PdfReader(tmp_path / "my-shelf" / "sheets" / "sheet-0001.pdf").pages
