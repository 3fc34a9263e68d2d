"""A pool of worker processes: all cores, and one bad file costs a sentence, not the program."""

from __future__ import annotations

import atexit
import os
from collections.abc import Callable, Iterator, Sequence
from concurrent import futures
from threading import BoundedSemaphore, Lock
from typing import Generic, NamedTuple, TypeVar

import msgspec

from engine.model.errors import SpineryError
from engine.model.waiting import Cancel, go_on
from engine.workers.limits import Limits
from engine.workers.messages import Answered, Failed, Reason, Refused, Reply
from engine.workers.process import NoAnswer, Worker

A = TypeVar("A")
"""What comes of a file."""
E = TypeVar("E", bound=SpineryError)
"""What is said of one of which nothing comes."""


class Job(NamedTuple, Generic[A, E]):
    """What the workers of a pool do."""

    function: str
    """What they call, as "module:name"; its arguments are numbers, texts and bytes."""
    gives: type[A]
    """What it returns: what comes back is checked against it."""
    limits: Limits
    error: Callable[[str, str, str], E]
    """The kind of error that it raises: called with the file's name, what is wrong, the mend."""
    refusal: Callable[[str, Reason], E]
    """What to say of a file, by its name, of which no answer came."""


class Asked(NamedTuple):
    """One call of a job's function."""

    name: str
    """What the file is called in a sentence."""
    arguments: Sequence[object]


class _Call:
    """The workers that one caller waits for, so that it can stop."""

    def __init__(self) -> None:
        self._busy: set[Worker] = set()
        self._stopped = False

    def ask(self, worker: Worker, request: bytes) -> bytes:
        """Return the worker's answer. Raises NoAnswer, at once where the caller has stopped."""
        self._busy.add(worker)
        if self._stopped:
            worker.end(Reason.CANCELLED)
        try:
            return worker.ask(request)
        finally:
            self._busy.discard(worker)

    def stop(self) -> None:
        """End whatever is at work; nothing that begins later stays at work."""
        self._stopped = True
        for worker in tuple(self._busy):
            worker.end(Reason.CANCELLED)


def usable_cores() -> int:
    """Return how many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


class Pool(Generic[A, E]):
    """Workers for one job, at most one for each core: started when needed, kept for the next call.

    Together they hold no more memory than ``job.limits.memory`` times their number.
    """

    def __init__(self, job: Job[A, E], most: int = 0) -> None:
        """Start nothing yet. ``most`` is how many workers there may be; 0 is one for each core."""
        self._job = job
        self._most = most or usable_cores()
        self._free = BoundedSemaphore(self._most)
        self._lock = Lock()
        self._idle: list[Worker] = []
        atexit.register(self.close)

    def ask(self, name: str, *arguments: object) -> A:
        """Return what the function makes of ``arguments``.

        Raises the error that it raises, or the job's refusal where no answer comes.
        """
        answer = self._answer(Asked(name, arguments), _Call())
        if isinstance(answer, SpineryError):
            raise answer
        return answer

    def each(self, asked: Sequence[Asked], cancel: Cancel | None = None) -> Iterator[A | E]:
        """Yield what comes of each of ``asked``, in their order, all workers busy at once.

        Raises Cancelled when ``cancel`` says so. Whoever stops early ends the workers that are
        still busy.
        """
        call = _Call()
        threads = futures.ThreadPoolExecutor(self._most)
        coming = [threads.submit(self._answer, one, call) for one in asked]
        try:
            for one in coming:
                while not futures.wait([one], timeout=0.1).done:
                    go_on(cancel)
                go_on(cancel)
                yield one.result()
        finally:
            threads.shutdown(wait=False, cancel_futures=True)
            call.stop()
            threads.shutdown()

    def close(self) -> None:
        """End the workers that are idle; a pool that is asked again starts new ones."""
        with self._lock:
            idle, self._idle = self._idle, []
        for worker in idle:
            worker.let_go()

    def _answer(self, asked: Asked, call: _Call) -> A | E:
        try:
            with self._free:
                reply = self._reply(msgspec.msgpack.encode(asked.arguments), call)
            match reply:
                case Answered(value):
                    return msgspec.msgpack.decode(value, type=self._job.gives)
                case Refused(what, mend):
                    return self._job.error(asked.name, what, mend)
                case Failed(reason):
                    return self._job.refusal(asked.name, reason)
        except NoAnswer as fault:
            return self._job.refusal(asked.name, fault.reason)
        except msgspec.MsgspecError:
            return self._job.refusal(asked.name, Reason.FAULT)

    def _reply(self, request: bytes, call: _Call, *, fresh: bool = False) -> Reply:
        worker = self._started() if fresh else self._taken()
        try:
            message = call.ask(worker, request)
        except NoAnswer as fault:
            if worker.fresh or fault.reason is not Reason.CRASH:
                raise
            # It may have died of the file before: only a fresh worker tells what this one does.
            return self._reply(request, call, fresh=True)
        with self._lock:
            self._idle.append(worker)
        reply: Reply = msgspec.msgpack.decode(message, type=Reply)
        return reply

    def _taken(self) -> Worker:
        with self._lock:
            while self._idle:
                worker = self._idle.pop()
                if worker.ready:
                    return worker
                worker.let_go()
        return self._started()

    def _started(self) -> Worker:
        return Worker(self._job.function, self._job.limits)
