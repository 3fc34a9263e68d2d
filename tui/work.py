"""The one place where work on a collection is run: in threads, so that no key waits.

Changes are made one after the other in the order of the keys; readings run beside them, and a
newer reading of a group takes the place of an older one. One long work goes on beside all that,
for as long as the person works. Screens come to the workshop through here only.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from enum import Enum, auto
from functools import partial
from typing import TYPE_CHECKING, TypeVar

from textual.app import App
from textual.dom import DOMNode

from engine import Cancel, Cancelled, SpineryError

if TYPE_CHECKING:
    from engine import Workshop

_log = logging.getLogger("spinery")

T = TypeVar("T")

Tell = Callable[[str], None]
"""Takes other words for work that is under way. Called from threads."""


class Ended(Enum):
    """How several dialogs after one another ended."""

    DONE = auto()
    LEFT = auto()
    """Nothing came of them."""


Then = Callable[[Ended], None]
"""Goes on after such dialogs."""

BUSY_AFTER = 0.1
"""Work that takes longer, in seconds, shows that it is under way."""

ASIDE = "aside"
"""The group of the work that goes on beside all else."""

STOPPED = "Stopped. Nothing was changed."
"""What is said of work that was given up."""
TRYING = "trying"
"""The group of the work that asks whether the collection can be changed by now."""

CHANGES = "changes"
"""The group of the work that changes the collection."""


def nothing(_: object = None) -> None:
    """Do nothing more."""


class Task:
    """Work that is under way."""

    def __init__(self, words: str, *, long: bool = False) -> None:
        """Call it ``words``, in a word or two; one that is ``long`` can be given up."""
        self.words = words
        self.told = False
        """Whether the person was told of it."""
        self._long = long
        self.stopping = asyncio.Event()
        """Set once it is given up: waited for on the interface's own thread, asked for by any."""

    @property
    def can_stop(self) -> bool:
        """Whether the person can give it up, and did not yet."""
        return self.told and self._long and not self.stopping.is_set()

    def is_given_up(self) -> bool:
        """Return whether it is to stop. Asked by threads."""
        return self.stopping.is_set()

    def give_up(self) -> None:
        """Let it stop, if it can."""
        if self._long:
            self.stopping.set()


class Work:
    """Runs for one app what its screens ask of one workshop, once that is open.

    It does not close the workshop.
    """

    rest: Callable[[float], Awaitable[None]] = staticmethod(asyncio.sleep)
    """Waits so many seconds for the keys to come to rest."""

    def __init__(
        self,
        app: App[None],
        name: str,
        *,
        changed: Callable[[], None],
        followed: Callable[[], None],
        told: Callable[[], None],
    ) -> None:
        """Work in the collection called ``name``.

        Call ``changed`` after each change, ``told`` when ``busy`` or ``can_stop`` may differ.

        ``followed`` is called when what goes on beside all else has come further.
        """
        self.name = name
        self.is_open = False
        self._app = app
        self._workshop: Workshop
        self._changed = changed
        self._followed = followed
        self._told = told
        self._turn = asyncio.Lock()
        self._jobs: list[Task] = []
        self._aside: Task | None = None

    async def open(self, opened: Callable[[], Workshop]) -> None:
        """Open the workshop in a thread. Raises what that raises."""
        self._workshop = await asyncio.to_thread(opened)
        self.is_open = True

    @property
    def read_only(self) -> bool:
        """Whether nothing can be changed, as where another program has the collection open."""
        return self._workshop.read_only

    @property
    def may_go_on(self) -> bool:
        """Whether nothing can be changed now, but may be later: see ``go_on``."""
        return self._workshop.may_go_on

    @property
    def notes(self) -> tuple[str, ...]:
        """What the person should know of how the collection was opened, a sentence each."""
        return () if self._workshop.read_only else self._workshop.notes

    @property
    def why_not(self) -> str:
        """Why nothing can be changed, a sentence."""
        if self._workshop.may_go_on or not self._workshop.notes:
            return "Another program has this collection open, so nothing can be changed here."
        return self._workshop.notes[0]

    def go_on(self, then: Callable[[], None]) -> None:
        """Try whether changes can be made by now; if so, all is read again, and ``then`` called."""

        async def work() -> None:
            async with self._turn:
                try:
                    can_write = await asyncio.to_thread(self._workshop.go_on)
                except SpineryError as error:
                    self._refused(error)
                    return
            if can_write:
                then()
                self._changed()

        self._app.run_worker(work, group=TRYING, exclusive=True)

    # --- what is under way -----------------------------------------------------------------

    @property
    def busy(self) -> str:
        """What is being worked on, once it takes a while; else empty."""
        told = [job for job in self._jobs if job.told]
        if not told:
            return ""
        return "Stopping" if told[-1].is_given_up() else told[-1].words

    @property
    def aside(self) -> str:
        """What goes on beside all else; else empty."""
        return self._aside.words if self._aside else ""

    @property
    def can_stop(self) -> bool:
        """Whether something is under way that can be given up."""
        return any(job.can_stop for job in self._jobs)

    def stop(self) -> None:
        """Give up what is under way."""
        for job in self._jobs:
            if job.told:
                job.give_up()
        self._told()

    # --- changes ---------------------------------------------------------------------------

    def change(
        self,
        do: Callable[[Workshop], T],
        then: Callable[[T], None] = nothing,
        *,
        failed: Callable[[], None] = nothing,
        words: str = "Working",
    ) -> None:
        """Make one change, after all that were asked for before; then all is read again.

        ``then`` takes the result; ``failed`` is called instead where the engine refuses, of
        which the person is told. Both run on the interface's own thread.
        """
        self._change(lambda _: do(self._workshop), then, failed, Task(words))

    def long_change(
        self,
        do: Callable[[Workshop, Cancel], T],
        then: Callable[[T], None],
        *,
        failed: Callable[[], None] = nothing,
        words: str,
    ) -> None:
        """Make one change that can take seconds and be given up, which is to fail, too."""
        self._change(
            lambda cancel: do(self._workshop, cancel), then, failed, Task(words, long=True)
        )

    def _change(
        self,
        do: Callable[[Cancel], T],
        then: Callable[[T], None],
        failed: Callable[[], None],
        job: Task,
    ) -> None:
        async def in_turn() -> T:
            async with self._turn:
                with self._under_way(job):
                    return await asyncio.to_thread(do, job.is_given_up)

        async def work() -> None:
            await self._deliver(in_turn(), then, stopped=failed, failed=failed)
            self._changed()

        self._app.run_worker(work, group=CHANGES)

    # --- readings --------------------------------------------------------------------------

    def fetch(
        self,
        by: DOMNode,
        get: Callable[[Workshop], T],
        then: Callable[[T], None],
        *,
        group: str,
        rest: float = 0.0,
        failed: Callable[[], None] = nothing,
    ) -> None:
        """Read something for a screen and give it to ``then``, unless it is read anew meanwhile.

        With ``rest``, in seconds, it is read once the keys have rested so long.
        """

        async def work() -> None:
            if rest:
                await self.rest(rest)
            reading = asyncio.to_thread(get, self._workshop)
            await self._deliver(reading, then, stopped=failed, failed=failed)

        by.run_worker(work, group=group, exclusive=True)

    def long_fetch(
        self,
        by: DOMNode,
        get: Callable[[Workshop, Cancel], T],
        then: Callable[[T], None],
        *,
        group: str,
        words: str,
        stopped: Callable[[], None] = nothing,
        left: str = STOPPED,
    ) -> None:
        """Work out for a screen what can take seconds, and give it to ``then``.

        The person, who is told of it by ``words``, can stop it; ``stopped`` is called then, and
        what is ``left`` is told.
        """
        self.told_fetch(
            by,
            lambda workshop, _, cancel: get(workshop, cancel),
            then,
            group=group,
            words=words,
            stopped=stopped,
            left=left,
        )

    def told_fetch(  # noqa: PLR0913 - each end that work can have is the caller's to take up
        self,
        by: DOMNode,
        get: Callable[[Workshop, Tell, Cancel], T],
        then: Callable[[T], None],
        *,
        group: str,
        words: str,
        rest: float = 0.0,
        stopped: Callable[[], None] = nothing,
        failed: Callable[[], None] = nothing,
        left: str = STOPPED,
    ) -> None:
        """Do as ``long_fetch``; ``get`` tells in other words how far it has come.

        With ``rest``, in seconds, it begins once the keys have rested so long.
        """
        loop = asyncio.get_running_loop()

        async def reading() -> T:
            job = Task(words, long=True)

            def tell(words: str) -> None:
                job.words = words
                loop.call_soon_threadsafe(self._went_on, job)

            with self._under_way(job):
                return await self._until_stopped(
                    lambda workshop, cancel: get(workshop, tell, cancel), job
                )

        async def work() -> None:
            if rest:
                await self.rest(rest)
            await self._deliver(reading(), then, stopped=stopped, failed=failed, left=left)

        by.run_worker(work, group=group, exclusive=True)

    async def _until_stopped(self, get: Callable[[Workshop, Cancel], T], job: Task) -> T:
        """Return what a thread works out. Raises Cancelled as soon as the job is given up.

        The thread ends when it next asks whether to go on; nobody waits for that.
        """
        working = asyncio.ensure_future(asyncio.to_thread(get, self._workshop, job.is_given_up))
        working.add_done_callback(lambda done: done.cancelled() or done.exception())
        stopping = asyncio.ensure_future(job.stopping.wait())
        try:
            await asyncio.wait((working, stopping), return_when=asyncio.FIRST_COMPLETED)
        except asyncio.CancelledError:
            job.give_up()
            raise
        finally:
            stopping.cancel()
        if job.is_given_up():
            raise Cancelled
        return working.result()

    # --- beside all else -------------------------------------------------------------------

    def go_aside(
        self,
        do: Callable[[Workshop, Tell, Cancel], T],
        then: Callable[[T], None],
        *,
        stopped: Callable[[], None],
        words: str,
    ) -> None:
        """Do what goes on beside all else, until ``stop_aside``; nothing else waits for it.

        ``do`` tells in other words how far it has come, which what is in sight may follow; at the
        end all is read again.
        """
        if self._aside is not None:
            return
        task = self._aside = Task(words, long=True)
        loop = asyncio.get_running_loop()

        def tell(words: str) -> None:
            task.words = words
            loop.call_soon_threadsafe(self._aside_went_on, self._followed)

        async def working() -> T:
            try:
                return await asyncio.to_thread(do, self._workshop, tell, task.is_given_up)
            finally:
                task.give_up()  # the thread may go on where nobody waits for it any more
                self._aside = None

        async def work() -> None:
            try:
                result = await working()
            except Cancelled:
                stopped()
            except SpineryError as error:
                self._refused(error)
            else:
                then(result)
            self._aside_went_on(self._changed)

        self._told()
        self._app.run_worker(work, group=ASIDE)

    def stop_aside(self) -> None:
        """Let what goes on beside all else come to an end soon."""
        if self._aside is not None:
            self._aside.give_up()

    def _aside_went_on(self, read: Callable[[], None]) -> None:
        if self._app.is_running:
            read()
            self._told()

    # --- the person is told ----------------------------------------------------------------

    async def _deliver(
        self,
        work: Awaitable[T],
        then: Callable[[T], None],
        *,
        stopped: Callable[[], None],
        failed: Callable[[], None],
        left: str = STOPPED,
    ) -> None:
        """Hand on what comes of work, or tell why nothing does.

        What the engine refuses is a notice; any other error ends the program loudly.
        """
        try:
            result = await work
        except Cancelled:
            self._app.notify(left, markup=False)
            stopped()
        except SpineryError as error:
            self._refused(error)
            failed()
        except Exception:
            _log.exception("a fault of the program")
            raise
        else:
            then(result)

    def _refused(self, error: SpineryError) -> None:
        _log.warning("%s", error)
        self._app.notify(str(error), severity="error", timeout=8, markup=False)

    @contextmanager
    def _under_way(self, job: Task) -> Iterator[None]:
        """Say that a job is under way once it takes a while."""
        self._jobs.append(job)
        timer = self._app.set_timer(BUSY_AFTER, partial(self._tell, job))
        try:
            yield
        finally:
            timer.stop()
            self._jobs.remove(job)
            if job.told:
                self._told()

    def _went_on(self, job: Task) -> None:
        """Show the words of a job, if the person was told of it and it has not ended."""
        if job.told and job in self._jobs:
            self._told()

    def _tell(self, job: Task) -> None:
        """Tell of a job, unless it has ended since its timer rang."""
        if job in self._jobs:
            job.told = True
            self._told()
