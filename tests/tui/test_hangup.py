"""The line goes while sheets are pressed: the program ends, and what it did is whole."""

from __future__ import annotations

import fcntl
import os
import pty
import signal
import struct
import sys
import termios
import time
from collections.abc import Callable
from contextlib import closing
from functools import partial
from pathlib import Path

import pytest

from engine import open_workshop
from tests.tui.driving import PATIENCE
from tests.tui.shelf import Shelf
from tui.cli.beginning import begin
from tui.cli.showing import show
from tui.ending import SIGNALS, Ended, code_of, heed_signals


def shown(show: Callable[[], int]) -> int:
    """Run what is shown on the terminal of this process; return the exit code."""
    fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 800, 480))
    os.environ["TERM"] = "xterm-256color"
    sys.stdin, sys.stdout, sys.stderr = sys.__stdin__, sys.__stdout__, sys.__stderr__
    for number in SIGNALS:
        signal.signal(number, signal.SIG_DFL)
    heed_signals()
    try:
        return show()
    except Ended as ended:
        return code_of(ended)


def forked(show: Callable[[], int]) -> tuple[int, int]:
    """Return a process that shows something, and its terminal, which has told what it is."""
    child, terminal = pty.fork()
    if child == 0:
        code = 99
        try:
            code = shown(show)
        finally:
            os._exit(code)
    os.write(terminal, b"\x1b[?62;22c")
    return child, terminal


def code_at_end(child: int) -> int:
    until = time.monotonic() + PATIENCE
    while (ended := os.waitpid(child, os.WNOHANG)) == (0, 0):
        assert time.monotonic() < until, "it went on"
        time.sleep(0.01)
    return os.waitstatus_to_exitcode(ended[1])


def read_until(terminal: int, words: bytes) -> None:
    seen = b""
    while words not in seen:
        seen += os.read(terminal, 65536)


@pytest.mark.skipif(not hasattr(signal, "SIGHUP"), reason="no hanging up here")
def test_a_line_that_goes_leaves_a_whole_collection_and_no_lock(
    stages: Shelf, tmp_path: Path
) -> None:
    """128 and the number of the signal: bash manual, 'Exit Status'."""
    folder = stages.copy("full", tmp_path / "shelf")
    child, terminal = forked(partial(show, folder))
    read_until(terminal, b"Today's batch")
    os.write(terminal, b"3")
    read_until(terminal, b"Full 1")
    os.write(terminal, b"p")
    os.close(terminal)
    assert code_at_end(child) == 128 + signal.SIGHUP
    with closing(open_workshop(folder)) as workshop:
        assert not workshop.read_only
        written = {path.name for path in (folder / "sheets").glob("*.pdf")}
        assert len(written) == len(workshop.sheets.report().pressed)
        assert workshop.check().ok


@pytest.mark.skipif(not hasattr(signal, "SIGHUP"), reason="no hanging up here")
def test_a_line_that_goes_while_it_is_asked_what_to_open_ends_the_program(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    child, terminal = forked(begin)
    read_until(terminal, b"what to open")
    os.close(terminal)
    assert code_at_end(child) == 128 + signal.SIGHUP
