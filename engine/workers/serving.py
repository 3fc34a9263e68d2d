"""The worker's side: one function of ours is called with whatever comes in, until nothing does."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from importlib import import_module
from math import ceil
from pathlib import Path
from threading import Timer
from time import process_time
from typing import Any, BinaryIO

import msgspec

from engine.model.errors import SpineryError
from engine.workers.limits import IDLE_SECONDS
from engine.workers.messages import Answered, Failed, Reason, Refused, Reply, receive, send

_REQUEST = 1 << 30
"""Bytes of a request. It is our own: this only catches a stream that is out of step."""


def serve(function: str, seconds: float, memory: int) -> None:
    """Answer what comes on standard input with ``function``, "module:name", until it is closed.

    Each answer may take ``seconds`` of processor time; ``memory`` is for the process.
    """
    requests, answers = _channels()
    _hold_to(memory)
    module, name = function.split(":")
    run = getattr(import_module(module), name)
    while (request := _next(requests)) is not None:
        _give(seconds)
        reply = _replied(run, msgspec.msgpack.decode(request))
        send(answers, msgspec.msgpack.encode(reply))


def _next(requests: BinaryIO) -> bytes | None:
    idle = Timer(IDLE_SECONDS, os._exit, [0])
    idle.daemon = True
    idle.start()
    try:
        return receive(requests, _REQUEST)
    finally:
        idle.cancel()


def _replied(run: Callable[..., object], arguments: Sequence[object]) -> Reply:
    try:
        return Answered(msgspec.Raw(msgspec.msgpack.encode(run(*arguments))))
    except SpineryError as error:
        return Refused(error.what, error.mend)
    except MemoryError:
        return Failed(Reason.MEMORY)
    except Exception:  # noqa: BLE001 - whatever it is, it must cost this file only
        return Failed(Reason.FAULT)


def _channels() -> tuple[BinaryIO, BinaryIO]:
    """Return where requests come from and where answers go; what decoders print goes nowhere."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the program hears it too, and ends us
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    return sys.stdin.buffer, answers


@contextmanager
def within(memory: int) -> Iterator[None]:
    """Hold this worker to ``memory`` bytes more than it has by now, for a while.

    Where the system cannot tell what it has, nothing is held. Raises MemoryError where the limit
    is met, if the library that meets it does not end the process.
    """
    resource = _resource()
    try:
        pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
    except OSError:
        resource = None
    if resource is None:
        yield
        return
    before, most = resource.getrlimit(resource.RLIMIT_AS)
    held = pages * resource.getpagesize() + memory
    if before != resource.RLIM_INFINITY:
        held = min(held, before)
    resource.setrlimit(resource.RLIMIT_AS, (held, most))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, (before, most))


def _hold_to(memory: int) -> None:
    """Let the system refuse more than ``memory`` bytes of address space, where it can."""
    resource = _resource()
    if resource is None:
        return
    _, most = resource.getrlimit(resource.RLIMIT_AS)
    held = memory if most == resource.RLIM_INFINITY else min(memory, most)
    with suppress(OSError, ValueError):  # macOS knows the limit and refuses to set it
        resource.setrlimit(resource.RLIMIT_AS, (held, held))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _give(seconds: float) -> None:
    """Let the system end this process when it has used so much more of the processor."""
    resource = _resource()
    if resource is None:
        return
    _, most = resource.getrlimit(resource.RLIMIT_CPU)
    held = ceil(process_time() + seconds)
    with suppress(OSError, ValueError):
        held = held if most == resource.RLIM_INFINITY else min(held, most)
        resource.setrlimit(resource.RLIMIT_CPU, (held, most))


def _resource() -> Any:
    try:
        import resource
    except ImportError:  # Windows
        return None
    return resource
