"""Worker processes: what comes back, what a bad file costs, and how they end.

The function the workers call is Python's own ``eval``, so each test says what goes wrong.
"""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.model.errors import PictureError
from engine.model.waiting import Cancelled
from engine.workers import Asked, Job, Limits, Pool, Reason

HELD = sys.platform == "linux"
"""Whether the system holds a process to a limit of its memory."""


def refusal(name: str, reason: Reason) -> PictureError:
    return PictureError(name, reason)


def pool_of(limits: Limits, gives: type = int, most: int = 2) -> Pool:
    return Pool(Job("builtins:eval", gives, limits, PictureError, refusal), most)


@pytest.fixture
def pool() -> Iterator[Pool]:
    made = pool_of(Limits(seconds=300.0, memory=1_000_000_000, answer=10_000))
    yield made
    made.close()


def each(pool: Pool, *said: str) -> list[object]:
    answers = pool.each([Asked(one, (one,)) for one in said])
    return [answer.what if isinstance(answer, PictureError) else answer for answer in answers]


ABORT = "__import__('os').abort()"
PID = "__import__('os').getpid()"


def test_answers_come_in_the_order_of_what_was_asked(pool: Pool) -> None:
    assert each(pool, *map(str, range(20))) == list(range(20))


def test_work_is_done_by_no_more_processes_than_there_may_be(pool: Pool) -> None:
    pids = set(each(pool, *[PID] * 20))
    assert os.getpid() not in pids
    assert len(pids) <= 2
    assert pool.ask("again", PID) in pids, "a worker is kept for the next call"


def test_what_breaks_its_process_costs_only_itself_and_is_named(pool: Pool) -> None:
    asked = [*map(str, range(5)), ABORT, *map(str, range(5, 10)), ABORT]
    assert each(pool, *asked) == [*range(5), Reason.CRASH, *range(5, 10), Reason.CRASH]
    with pytest.raises(PictureError, match="the lighthouse: it ends the process"):
        pool.ask("the lighthouse", ABORT)


def test_only_a_fresh_worker_says_that_a_file_breaks_it(pool: Pool) -> None:
    """One that is damaged by what it saw before would put the blame on the next file."""
    damaged = pool.ask(
        "first", "[__import__('os').getpid(), setattr(__import__('builtins'), 'ill', 1)][0]"
    )
    answer = pool.ask(
        "next", "__import__('os').abort() if hasattr(__import__('builtins'), 'ill') else 7"
    )
    assert (answer, pool.ask("next", PID) == damaged) == (7, False)


def test_a_worker_that_died_while_it_waited_is_replaced(pool: Pool) -> None:
    os.kill(pool.ask("one", PID), signal.SIGTERM)
    assert pool.ask("two", "2") == 2


def test_what_takes_too_long_is_ended() -> None:
    pool = pool_of(Limits(seconds=0.3, memory=1_000_000_000, answer=100))
    assert each(pool, "__import__('time').sleep(3600)") == [Reason.TIME]
    pool.close()


@pytest.mark.skipif(not HELD, reason="this system holds no process to a limit of memory")
def test_what_takes_too_much_memory_is_refused(pool: Pool) -> None:
    assert each(pool, "len(bytes(1 << 31))", "len(bytes(1 << 20))") == [Reason.MEMORY, 1 << 20]


def test_an_answer_that_is_too_large_or_no_answer_is_refused(pool: Pool) -> None:
    assert each(pool, "list(range(99_999))") == [Reason.SIZE]
    assert each(pool, "'no number'", "1 / 0", "3") == [Reason.FAULT, Reason.FAULT, 3]


def test_an_error_of_ours_comes_back_about_the_file_that_was_asked_for(pool: Pool) -> None:
    ours = "__import__('engine.model.errors').model.errors.InputError('', 'is blank', 'Fill it')"
    (answer,) = pool.each([Asked("a.png", (f"(_ for _ in ()).throw({ours})",))])
    assert str(answer) == "a.png: is blank. Fill it."


def test_what_a_decoder_prints_is_no_answer(pool: Pool) -> None:
    shout = "__import__('os').write(1, b'warning: '), print('odd', flush=True)"
    assert each(pool, f"len([{shout}])", "5") == [2, 5]


def test_giving_up_ends_what_is_still_at_work(pool: Pool) -> None:
    with pytest.raises(Cancelled):
        list(pool.each([Asked("slow", ("__import__('time').sleep(3600)",))] * 3, lambda: True))
    assert pool.ask("after", "1") == 1


def test_who_stops_listening_ends_what_is_still_at_work(pool: Pool) -> None:
    asked = [Asked("quick", ("1",)), *[Asked("slow", ("__import__('time').sleep(3600)",))] * 3]
    answers = pool.each(asked)
    assert next(answers) == 1
    answers.close()  # type: ignore[attr-defined]
    assert pool.ask("after", "1") == 1


def test_a_system_that_starts_no_process_is_told_in_a_sentence(
    pool: Pool, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(sys, "executable", str(tmp_path / "gone"))
    assert each(pool, "1") == [Reason.START]


def test_nothing_to_do_starts_nothing(pool: Pool) -> None:
    assert each(pool) == []
