"""One worker process, seen from the program: started, asked, ended.

It is a fresh interpreter spoken to through pipes, on every system alike. Python's own pools of
processes cannot be started from within the terminal program, and where one process dies they give
up all; docs/decisions/workers-by-pipes.md tells more.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from contextlib import suppress
from pathlib import Path
from threading import Timer
from typing import BinaryIO, cast

from engine.workers.limits import Limits
from engine.workers.messages import Reason, TooLong, receive, send

_START = """
import sys, types
sys.path[:] = {path!r}
engine = sys.modules["engine"] = types.ModuleType("engine")
engine.__path__ = [{folder!r}]
from engine.workers.serving import serve
serve({function!r}, {seconds!r}, {memory!r})
"""
"""The engine's front door is left shut: it would import all rooms, half a second of work."""

_SETTINGS = {
    # The cores are shared out already, and each further thread of numpy's reserves memory.
    "OPENBLAS_NUM_THREADS": "1",
    "OMP_NUM_THREADS": "1",
    # glibc gives memory back to the system at once and asks again for the next array, which takes
    # a quarter of the time that a picture takes; so much it may keep. Others know no such setting.
    "MALLOC_TOP_PAD_": "64000000",
}


_TOO_LONG = getattr(signal, "SIGXCPU", 0)
"""What ends a process that used up its processor time (POSIX, setrlimit); Windows has no such."""

_ENDING = 2.0
"""Seconds that a process which answers nothing may take to end by itself."""


class NoAnswer(Exception):  # noqa: N818 - what it means is for the pool to say
    """The worker gave no answer, and is gone."""

    def __init__(self, reason: Reason) -> None:
        super().__init__(reason)
        self.reason = reason


class Worker:
    """A process that calls one function; asked by one thread at a time, ended by any."""

    def __init__(self, function: str, limits: Limits) -> None:
        """Start it. Raises NoAnswer where the system starts no process."""
        self.fresh = True
        """Whether it has not answered anything yet."""
        self._limits = limits
        self._ended: Reason | None = None
        start = _START.format(
            path=sys.path,
            folder=str(Path(__file__).resolve().parents[1]),
            function=function,
            seconds=limits.seconds,
            memory=limits.memory,
        )
        try:
            self._process = subprocess.Popen(  # noqa: S603 - our own interpreter and our own text
                [sys.executable, "-I", "-c", start],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env={**os.environ, **_SETTINGS},
            )
        except OSError as fault:
            raise NoAnswer(Reason.START) from fault
        self._requests = cast("BinaryIO", self._process.stdin)
        self._answers = cast("BinaryIO", self._process.stdout)

    @property
    def ready(self) -> bool:
        """Whether it can be asked; one that was idle for long has ended itself."""
        return self._ended is None and self._process.poll() is None

    def ask(self, request: bytes) -> bytes:
        """Return the answer to ``request``. Raises NoAnswer where there is none."""
        late = Timer(self._limits.clock, self.end, [Reason.TIME])
        late.daemon = True
        late.start()
        try:
            answer = self._exchanged(request)
        finally:
            late.cancel()
        if answer is None:
            raise NoAnswer(self._told_why())
        self.fresh = False
        return answer

    def _told_why(self) -> Reason:
        """Return why there is no answer, the worker gone."""
        with suppress(subprocess.TimeoutExpired):  # it may have shut its pipe and live on
            self._process.wait(_ENDING)
        if self._process.returncode == -_TOO_LONG:
            self._ended = self._ended or Reason.TIME
        self.end(Reason.CRASH)
        self.let_go()
        return self._ended or Reason.CRASH

    def _exchanged(self, request: bytes) -> bytes | None:
        try:
            send(self._requests, request)
            return receive(self._answers, self._limits.answer)
        except TooLong:
            self.end(Reason.SIZE)
            return None
        except OSError:  # it is gone
            return None

    def end(self, reason: Reason) -> None:
        """Kill it; whoever waits for its answer is told the first reason there was."""
        self._ended = self._ended or reason
        self._process.kill()

    def let_go(self) -> None:
        """End it if it has not ended, and give back what it held. Nobody may be asking it."""
        self.end(Reason.CANCELLED)
        for pipe in (self._requests, self._answers):
            with suppress(OSError):  # what was not sent yet has nobody to go to
                pipe.close()
        self._process.wait()
