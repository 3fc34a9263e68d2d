"""A real workshop that is watched: what it is asked for, and that this never holds up a key."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from threading import Event
from typing import Any

from engine import Workshop


class Watch:
    """Notes each call of the engine, and can hold it up or let it fail before it begins.

    Calls are named as they are written: ``designs.accept``.
    """

    def __init__(self, workshop: Workshop) -> None:
        self.calls: list[str] = []
        self.workshop: Any = Watched(workshop, "", self)
        """What the program is given in place of the workshop."""
        self._held: dict[str, Event] = {}
        self._faults: dict[str, Exception] = {}

    @contextmanager
    def holding(self, *names: str) -> Iterator[None]:
        """Hold up these calls until the end, or until whoever waits gives up."""
        gates = {name: Event() for name in names}
        self._held |= gates
        try:
            yield
        finally:
            for name, gate in gates.items():
                del self._held[name]
                gate.set()

    @contextmanager
    def failing(self, name: str, error: Exception) -> Iterator[None]:
        """Let calls of that name fail until the end."""
        self._faults[name] = error
        try:
            yield
        finally:
            del self._faults[name]

    def call(self, name: str, do: Callable[..., Any], *args: Any, **more: Any) -> Any:
        """Call the engine, which takes as long as it takes: never from where keys are handled."""
        assert not on_the_interface(), f"{name} was called on the interface's own thread"
        self.calls.append(name)
        gate = self._held.get(name)
        cancel = more.get("cancel") or next(filter(callable, args), None)
        while gate and not gate.wait(0.002) and not (cancel and cancel()):
            pass
        if name in self._faults:
            raise self._faults[name]
        return do(*args, **more)


class Watched:
    """A workshop, or a part of one, whose calls go through a watch."""

    def __init__(self, target: object, path: str, watch: Watch) -> None:
        self._target = target
        self._path = path
        self._watch = watch

    def __getattr__(self, name: str) -> Any:
        value = getattr(self._target, name)
        path = f"{self._path}{name}"
        if type(value).__module__.startswith("engine.service"):
            return Watched(value, f"{path}.", self._watch)
        return partial(self._watch.call, path, value) if callable(value) else value


def on_the_interface() -> bool:
    """Return whether this is the thread of an event loop."""
    try:
        asyncio.get_running_loop()
    except RuntimeError:
        return False
    return True
