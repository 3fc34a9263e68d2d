"""How the program ends when it is not asked by a key: by the system, or by a fault of its own."""

from __future__ import annotations

import errno
import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import TextIO

SIGNALS = tuple(getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name))
"""Asked to end; the terminal was closed."""

HUNG_UP = 1
"""The number of SIGHUP, which not every system has by name."""

FAILED = 70
"""A fault of the program: EX_SOFTWARE of sysexits(3)."""
UNTOLD = 3
"""It was done, but the disk did not confirm it, or it could not be told."""
STOPPED = 128 + signal.SIGINT
"""Control-C, as a POSIX shell reports it (bash manual, 'Exit Status')."""


class Ended(KeyboardInterrupt):
    """The system asks the program to end. What is half done is put away as for Control-C."""

    def __init__(self, number: int) -> None:
        """Keep the number of the signal."""
        super().__init__(number)
        self.number = number


def code_of(stop: KeyboardInterrupt) -> int:
    """Return the exit code of a program that was stopped: 128 and the number of the signal."""
    return 128 + stop.number if isinstance(stop, Ended) else STOPPED


def heed_signals() -> None:
    """Let the signals to end raise Ended; one that is ignored already, as by nohup, stays so."""
    for number in SIGNALS:
        if signal.getsignal(number) is signal.SIG_DFL:
            signal.signal(number, _end)


def _end(number: int, _: FrameType | None) -> None:
    signal.signal(number, signal.SIG_DFL)  # asked a second time, it ends at once
    raise Ended(number)


@contextmanager
def told_to(end: Callable[[int], None]) -> Iterator[None]:
    """Call ``end`` with the number of a signal to end, in place of raising Ended."""
    before = {number: signal.getsignal(number) for number in SIGNALS}
    for number, heed in before.items():
        if heed is _end:
            signal.signal(number, lambda number, _: end(number))
    try:
        yield
    finally:
        for number, heed in before.items():
            signal.signal(number, heed)


def say(words: object, end: str = "\n") -> None:
    """Print a sentence on the error channel, if that can be written."""
    if sys.stderr is None:  # closed by whoever started it; print would answer in its place
        return
    try:
        print(_printable(str(words), sys.stderr), end=end, file=sys.stderr, flush=True)
    except OSError:
        _drop(sys.stderr)


def answer(words: str = "") -> bool:
    """Print the answer of a command, and what was printed before; return whether it is out.

    Whoever reads it may go (``| head``); that a disk is full has to be told.
    """
    try:
        if sys.stdout is None:
            if words:
                raise OSError(errno.EBADF, os.strerror(errno.EBADF))  # noqa: TRY301 - as a write would
            return True
        print(_printable(words, sys.stdout), end="\n" if words else "", flush=True)
    except BrokenPipeError:
        _drop(sys.stdout)
    except OSError as error:
        _drop(sys.stdout)
        reason = (error.strerror or str(error)).lower()
        say(f"The answer could not be written ({reason}). The command itself came to its end.")
        return False
    return True


def _printable(words: str, stream: TextIO) -> str:
    from tui.printable import printable  # imports the engine, and signals are heeded before that

    return printable(words, stream)


def _drop(stream: TextIO | None) -> None:
    """Let what was not written go, so that leaving the program does not try it again."""
    with suppress(OSError, ValueError):
        if stream is not None:
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
