"""Which games to finish next."""

from collections.abc import Iterator
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Coming, Item, Unfinished, gang, next_batch
from engine.model import Forme
from engine.model.waiting import Cancelled
from tests.ganging.strategies import forme, item, queues
from tests.packing.strategies import fields

A4 = forme(198, 280, gutter=2)


class Done(NamedTuple):
    """A batch that was finished, and what came of it when all that was full was pressed."""

    keys: tuple[str, ...]
    sheets: int
    waits: int


def batches(
    queue: list[Item], backlog: list[Unfinished], paper: Forme, *, size: int
) -> Iterator[Done]:
    """Finish batch after batch, pressing what is full, until none is left."""
    left = {game.key: game for game in backlog}

    def press() -> int:
        nonlocal queue
        coming = [Coming(*game[1:5], 1) for game in left.values()]
        ganged = gang(queue, coming, paper)
        gone = {laid.key for sheet in ganged.ready for laid in sheet.laid} | {*ganged.too_large}
        sheets = len(ganged.ready)
        queue = [one._replace(passed=one.passed + sheets) for one in queue if one.key not in gone]
        return sheets

    press()
    while keys := next_batch(queue, list(left.values()), paper, size=size):
        for key in keys:
            game = left.pop(key)
            queue.append(item(key, game.width, game.height, 99, game.case, game.turns))
        yield Done(keys, press(), len(queue))


def games(kinds: dict[str, tuple[float, float]], order: str) -> list[Unfinished]:
    return [Unfinished(f"{kind}{n}", kind, *kinds[kind], True) for n, kind in enumerate(order)]


def test_when_eight_fill_a_sheet_every_fourth_batch_of_six_ends_clean() -> None:
    # 24 is the least common multiple of 6 and 8: no order can do better.
    backlog = games({"a": (97, 68)}, "a" * 48)
    found = list(batches([], backlog, A4, size=6))
    assert [batch.waits for batch in found] == [6, 4, 2, 0, 6, 4, 2, 0]
    assert sum(batch.sheets for batch in found) == 6


def test_kinds_are_mixed_so_that_every_batch_ends_clean() -> None:
    # Two wide ones and four small ones fill a sheet, whatever the order of the list.
    backlog = games({"w": (198, 68), "s": (98, 68)}, "wwww" + "s" * 8)
    found = list(batches([], backlog, A4, size=6))
    assert [batch.waits for batch in found] == [0, 0]
    assert [batch.sheets for batch in found] == [1, 1]


def test_what_waits_already_is_filled_up_first() -> None:
    backlog = games({"w": (198, 68), "s": (98, 68)}, "sssswwww")
    queue = [item("q", 198, 138, case="x")]
    batch = next(batches(queue, backlog, A4, size=4))
    assert not batch.waits
    assert {key[0] for key in batch.keys} == {"s"}


def test_what_is_begun_comes_first() -> None:
    backlog = games({"a": (97, 68), "b": (198, 138)}, "aaaaaaaabb")
    backlog[7] = backlog[7]._replace(begun=True)
    backlog[9] = backlog[9]._replace(begun=True)
    assert set(next_batch([], backlog, A4, size=5)[:2]) == {"a7", "b9"}


def test_only_what_passes_the_filter() -> None:
    backlog = [
        game._replace(wanted=n % 2 == 0) for n, game in enumerate(games({"a": (97, 68)}, "a" * 20))
    ]
    found = list(batches([], backlog, A4, size=4))
    assert [len(batch.keys) for batch in found] == [4, 4, 2]
    assert {key for batch in found for key in batch.keys} == {f"a{n}" for n in range(0, 20, 2)}
    assert found[-1].waits == 2, "the others may still come, so the last sheet is not full"


def test_an_insert_larger_than_the_sheet_comes_last_and_does_no_harm() -> None:
    backlog = games({"x": (400, 400), "a": (97, 68)}, "xaaaaaaaa")
    found = list(batches([], backlog, A4, size=8))
    assert [batch.keys for batch in found] == [tuple(f"a{n}" for n in range(1, 9)), ("x0",)]
    assert [batch.waits for batch in found] == [0, 0]


def test_nothing_left() -> None:
    assert not next_batch([item("a", 20, 20)], [], A4)


@settings(max_examples=40)
@given(fields, queues(), st.integers(1, 5))
def test_every_game_once_in_batches_of_the_size_asked_for(
    field: tuple[int, int], queue: tuple[list[Item], list[Coming]], size: int
) -> None:
    paper = forme(*field)
    waiting, kinds = queue
    backlog = [
        Unfinished(f"{one.case} {n}", one.case, one.width, one.height, one.turns)
        for one in kinds
        for n in range(one.count)
    ]
    found = list(batches(waiting, backlog, paper, size=size))
    assert sorted(key for batch in found for key in batch.keys) == sorted(g.key for g in backlog)
    assert all(len(batch.keys) == size for batch in found[:-1])


def test_a_batch_is_given_up_while_what_waits_is_ganged() -> None:
    waiting = [item(f"w{n}", 60, 70) for n in range(12)]
    with pytest.raises(Cancelled):
        next_batch(waiting, games({"a": (60, 70)}, "a"), A4, cancel=lambda: True)
