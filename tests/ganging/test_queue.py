"""Which inserts are pressed together, and what the open sheet lacks."""

from collections import Counter
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Coming, Item, Lack, Layout, fullness, gang, gang_part_full
from engine.model import Rule
from engine.model.waiting import Cancelled
from tests.ganging.checks import assert_right
from tests.ganging.strategies import forme, item, queues
from tests.packing import brute
from tests.packing.checks import separable
from tests.packing.strategies import fields

Queue = tuple[list[Item], list[Coming]]


def test_a_sheet_is_ready_when_nothing_more_can_be_added() -> None:
    queue = [item(name, 48, 48) for name in "abcde"]
    ganged = gang(queue, [Coming("shell", 48, 48, True, 3)], forme(98, 98, gutter=2))
    assert [len(one.laid) for one in ganged.ready] == [4]
    assert ganged.open is not None
    assert len(ganged.open.laid) == 1
    assert ganged.lacks == (Lack("shell", 3),)


def test_a_sheet_that_could_take_a_coming_label_is_not_full() -> None:
    coming = [Coming("label", 20, 10, True, 1)]
    ganged = gang([item("a", 78, 98)], coming, forme(100, 98, gutter=2))
    assert ganged.ready == ()
    assert ganged.lacks == (Lack("label", 1),)


def test_the_last_sheet_is_ready_when_the_backlog_has_nothing_left() -> None:
    ganged = gang([item("a", 48, 48)], [], forme(98, 98))
    assert [len(one.laid) for one in ganged.ready] == [1]
    assert ganged.open is None


def test_the_least_offcut_goes_first() -> None:
    queue = [item("a", 60, 50), item("b", 100, 45, hours=1), item("c", 100, 50, hours=2)]
    ganged = gang(queue, [Coming("x", 60, 50, True, 2)], forme(100, 100))
    assert {one.key for one in ganged.ready[0].laid} == {"b", "c"}


def test_between_equals_the_longest_waiting_goes_first() -> None:
    queue = [item("new", 100, 60, hours=3), item("old", 120, 50, hours=1, turns=False)]
    coming = [Coming("x", 100, 60, True, 1), Coming("y", 120, 50, False, 1)]
    ganged = gang(queue, coming, forme(120, 60))
    assert [one.laid[0].key for one in ganged.ready] == ["old", "new"]


def test_nothing_waits_for_ever() -> None:
    # The odd one needs a sheet of its own and leaves a large offcut, so that it is passed over
    # for as long as that is allowed.
    queue = [item("odd", 60, 60, hours=0), *(item(f"{n}", 100, 100, hours=1) for n in range(6))]
    coming = [Coming("x", 100, 100, True, 9), Coming("x", 60, 60, True, 9)]
    for patience in (0, 2, 4):
        ganged = gang(queue, coming, forme(100, 100), patience=patience)
        order = [one.laid[0].key for one in ganged.ready]
        assert order.index("odd") == patience


def test_an_insert_that_is_overdue_holds_up_the_sheets_without_it() -> None:
    queue = [item("odd", 60, 100)._replace(passed=4), item("plain", 100, 100, hours=1)]
    coming = [Coming("strip", 40, 100, True, 1)]
    ganged = gang(queue, coming, forme(100, 100), patience=4)
    assert ganged.ready == ()
    assert ganged.lacks == (Lack("strip", 1),)


def test_a_spoiled_insert_is_first_in_line() -> None:
    queue = [item("old", 50, 100), item("spoiled", 50, 100, hours=9)._replace(spoiled=True)]
    queue += [item("older", 50, 100), item("wide", 100, 100)]
    ganged = gang(queue, [Coming("x", 50, 100, True, 9)], forme(100, 100))
    assert [one.key for one in ganged.ready[0].laid] == ["spoiled", "old"]


def test_equal_footprints_of_two_kinds_share_a_sheet() -> None:
    queue = [item("a", 50, 40, case="one"), item("b", 40, 50, case="two")]
    ganged = gang(queue, [Coming("two", 50, 40, True, 1)], forme(50, 80))
    assert {one.case for one in ganged.ready[0].laid} == {"one", "two"}
    assert {one.key: one.rotated for one in ganged.ready[0].laid} == {"a": False, "b": True}


def test_an_insert_larger_than_the_sheet_is_named() -> None:
    ganged = gang([item("poster", 300, 300), item("a", 48, 48)], [], forme(98, 98))
    assert ganged.too_large == ("poster",)
    assert [one.laid[0].key for one in ganged.ready] == ["a"]


def test_an_empty_queue() -> None:
    ganged = gang([], [Coming("shell", 48, 48, True, 3)], forme(98, 98))
    assert (ganged.ready, ganged.open, ganged.lacks) == ((), None, ())


def test_a_finished_backlog_takes_no_more_sheets_than_it_must() -> None:
    # The longest waiting three fill a sheet without offcut, but then the others need one each.
    widths = (4, 4, 2, 6, 6, 8)
    queue = [item(f"{n}", width, 10, hours=n) for n, width in enumerate(widths)]
    sheets = gang(queue, [], forme(10, 10)).ready
    assert sorted(sorted(one.width for one in sheet.laid) for sheet in sheets) == [
        [2, 8],
        [4, 6],
        [4, 6],
    ]


def test_part_full_prints_everything() -> None:
    queue = [item(name, 48, 48) for name in "abcde"]
    sheets = gang_part_full(queue, forme(98, 98))
    assert sorted(laid.key for one in sheets for laid in one.laid) == list("abcde")


@settings(max_examples=40)
@given(st.floats(0, 0.3), st.floats(-0.3, 0.3), st.sampled_from([0.0, 1.95, 2.0]))
def test_what_a_sheet_is_said_to_hold_is_what_is_laid_on_it(
    margin: float, more: float, gutter: float
) -> None:
    paper = forme(98 - margin, 60, gutter=gutter)
    one = item("a", 98 - margin + more, 50, turns=False)
    laid = [laid.key for sheet in gang_part_full([one], paper) for laid in sheet.laid]
    assert laid == (["a"] if paper.holds(one.width, one.height, turns=False) else [])


def test_giving_up() -> None:
    with pytest.raises(Cancelled):
        gang([item("a", 48, 48)], [], forme(98, 98), cancel=lambda: True)


@settings(max_examples=80)
@given(fields, queues())
def test_layouts_keep_the_rules_and_nothing_is_lost(field: tuple[int, int], queue: Queue) -> None:
    some = forme(*field)
    for gutter in (0.0, 1.0):
        paper = forme(field[0] + 0.05, field[1] + 0.05, gutter=gutter)
        ganged = gang(*queue, paper)
        sheets = [*ganged.ready, *([ganged.open] if ganged.open else [])]
        for sheet in sheets:
            assert_right(sheet, queue[0], paper)
            assert separable(sheet.laid)
        keys = [laid.key for sheet in sheets for laid in sheet.laid]
        assert len(keys) == len(set(keys))
        assert not set(keys) & set(ganged.too_large)
    assert gang(*queue, some) == gang(*queue, some)


@settings(max_examples=60)
@given(fields, queues())
def test_ready_sheets_are_full_by_brute_force(field: tuple[int, int], queue: Queue) -> None:
    waiting, coming = queue
    ganged = gang(waiting, coming, forme(*field), patience=99)
    kinds = {one.case: (int(one.width), int(one.height), one.turns) for one in coming}
    sizes, names = tuple(kinds.values()), list(kinds)
    can = brute.guillotine(*field, sizes)
    bound = Counter(one.case for one in waiting)
    bound.update({one.case: one.count for one in coming})

    def full(sheet: Layout) -> bool:
        content = counted(sheet, names)
        return content in can and not any(
            bound[name] > content[k] and plus_one(content, k) in can for k, name in enumerate(names)
        )

    for sheet in ganged.ready:
        assert full(sheet)
        bound.subtract(laid.case for laid in sheet.laid)
    if ganged.open is not None:
        lacking = {lack.case: lack.count for lack in ganged.lacks}
        content = counted(ganged.open, names)
        whole = tuple(n + lacking.get(name, 0) for n, name in zip(content, names, strict=True))
        assert whole in can
        assert sum(lacking.values()) > 0


@settings(max_examples=40)
@given(fields, queues())
def test_under_the_knife_rule_too(field: tuple[int, int], queue: Queue) -> None:
    waiting, coming = queue
    paper = forme(*field, rule=Rule.KNIFE)
    ganged = gang(waiting, coming, paper, patience=99)
    kinds = {one.case: (int(one.width), int(one.height), one.turns) for one in coming}
    sizes, names = tuple(kinds.values()), list(kinds)
    bound = Counter(one.case for one in waiting)
    bound.update({one.case: one.count for one in coming})
    for sheet in ganged.ready:
        assert_right(sheet, waiting, paper)
        content = counted(sheet, names)
        assert not any(
            bound[name] > content[k] and brute.free(*field, sizes, plus_one(content, k))
            for k, name in enumerate(names)
        )
        bound.subtract(laid.case for laid in sheet.laid)


def test_a_knife_lays_a_wheel_where_a_trimmer_needs_two_sheets() -> None:
    # Four of 6 by 4 round a hole of 2 by 2 fill 10 by 10; no cut goes through.
    queue = [item(name, 6, 4) for name in "abcd"]
    coming = [Coming("x", 6, 4, True, 9)]
    assert [len(one.laid) for one in gang(queue, coming, forme(10, 10, rule=Rule.KNIFE)).ready] == [
        4
    ]
    assert [len(one.laid) for one in gang(queue, coming, forme(10, 10)).ready] == [3]


def test_nothing_is_lost_when_a_sheet_of_the_plan_is_not_found_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(fullness, "scatter", lambda *_: None)
    # Four of 5 by 4 round a hole fill 9 by 9, which only free placement can do.
    queue = [item(name, 5, 4) for name in "abcd"]
    sheets = gang_part_full(queue, forme(9, 9, rule=Rule.KNIFE))
    assert sorted(laid.key for one in sheets for laid in one.laid) == list("abcd")


@settings(max_examples=60)
@given(fields, queues())
def test_the_first_sheet_has_the_least_offcut(field: tuple[int, int], queue: Queue) -> None:
    waiting, coming = queue
    kinds = {one.case: (int(one.width), int(one.height), one.turns) for one in coming}
    sizes, names = tuple(kinds.values()), list(kinds)
    can = brute.guillotine(*field, sizes)
    held = tuple(sum(one.case == name for one in waiting) for name in names)
    bound = tuple(n + one.count for n, one in zip(held, coming, strict=True))

    def within(one: brute.Counts, other: brute.Counts) -> bool:
        return all(a <= b for a, b in zip(one, other, strict=True))

    possible = brute.maximal(frozenset(one for one in can if within(one, bound)))
    areas = [
        sum(n * w * h for n, (w, h, _) in zip(one, sizes, strict=True))
        for one in possible
        if within(one, held)
    ]
    ganged = gang(waiting, coming, forme(*field), patience=99)
    assert bool(ganged.ready) == bool(areas)
    if areas and held != bound:
        used = ganged.ready[0].used * field[0] * field[1]
        assert abs(used - max(areas)) < 1e-6


def counted(sheet: Layout, names: Sequence[str]) -> brute.Counts:
    laid = Counter(one.case for one in sheet.laid)
    return tuple(laid[name] for name in names)


def plus_one(counts: brute.Counts, index: int) -> brute.Counts:
    return tuple(n + (i == index) for i, n in enumerate(counts))
