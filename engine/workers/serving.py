"""The worker's side: one function of ours is called with whatever comes in, until nothing does."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from threading import Timer
from typing import BinaryIO

import msgspec

from engine.model.errors import SpineryError
from engine.workers.limits import IDLE_SECONDS
from engine.workers.messages import Answered, Failed, Reason, Refused, Reply, receive, send

_REQUEST = 1 << 30
"""Bytes of a request. It is our own: this only catches a stream that is out of step."""


def serve(function: str, memory: int) -> None:
    """Answer what comes on standard input with ``function``, "module:name", until it is closed."""
    requests, answers = _channels()
    _hold_to(memory)
    module, name = function.split(":")
    run = getattr(import_module(module), name)
    while (request := _next(requests)) is not None:
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


def _hold_to(memory: int) -> None:
    """Let the system refuse more than ``memory`` bytes of address space, where it can."""
    try:
        import resource
    except ImportError:  # Windows
        return
    _, most = resource.getrlimit(resource.RLIMIT_AS)
    held = memory if most == resource.RLIM_INFINITY else min(memory, most)
    try:
        resource.setrlimit(resource.RLIMIT_AS, (held, held))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    except (OSError, ValueError):  # macOS knows the limit and refuses to set it
        return
