"""What fills the room on a sheet that is pressed part-full."""

from datetime import UTC, datetime

import pytest
from hypothesis import given, settings

from engine.ganging import Coming, Item, Offer, Why, fill, fullness, gang, spares
from engine.ganging.fillers import has_room
from engine.model import Placement, Rule, Sheet
from tests.ganging.checks import assert_right
from tests.ganging.strategies import forme, item, queues
from tests.packing.checks import separable
from tests.packing.strategies import fields

NOW = datetime(2026, 5, 1, tzinfo=UTC)


def test_offers_are_taken_in_their_order_as_long_as_they_fit() -> None:
    offers = [
        Offer(item("large", 100, 80), Why.GAME),
        Offer(item("spare", 50, 50), Why.SPARE),
        Offer(item("another", 50, 50), Why.SPARE),
        Offer(item("one too many", 50, 50), Why.SPARE),
        Offer(item("strip", 100, 10), Why.STRIP),
    ]
    filled = fill([item("a", 100, 40)], offers, forme(100, 100))
    assert filled is not None
    assert [offer.item.key for offer in filled.taken] == ["spare", "another", "strip"]
    assert filled.wasted < 1e-9
    assert {laid.key for laid in filled.layout.laid} == {"a", "spare", "another", "strip"}


def test_items_that_do_not_fit_together() -> None:
    assert fill([item("a", 60, 60), item("b", 60, 60)], [], forme(100, 100)) is None


def test_what_is_wasted() -> None:
    filled = fill([item("a", 50, 50)], [], forme(100, 100))
    assert filled is not None
    assert filled.wasted == 0.75


def test_spares_of_what_is_most_often_spoiled_come_first() -> None:
    def placed(game: str, case: str, *, spoiled: bool) -> Placement:
        return Placement(game, case, "design", 0, 0, 50, 50, spoiled=spoiled)

    settled = Sheet(
        1,
        forme(100, 100),
        (
            placed("twice", "easy", spoiled=True),
            placed("x", "easy", spoiled=False),
            placed("y", "easy", spoiled=False),
            placed("z", "hard", spoiled=True),
        ),
        pressed_at=NOW,
        settled_at=NOW,
    )
    items = [
        item("new", 50, 50, case="easy"),
        item("twice", 50, 50, case="easy"),
        item("also new", 50, 50, case="hard"),
    ]
    offers = spares(items, [settled])
    assert [offer.item.key for offer in offers] == ["twice", "also new", "new"]
    withdrawn = Sheet(
        2, forme(100, 100), settled.placements, pressed_at=NOW, settled_at=NOW, withdrawn_at=NOW
    )
    assert [offer.item.key for offer in spares(items, [withdrawn])] == ["also new", "new", "twice"]


@settings(max_examples=40)
@given(fields, queues())
def test_a_filled_sheet_keeps_the_rules_and_has_no_room_for_what_was_left(
    field: tuple[int, int], queue: tuple[list[Item], list[Coming]]
) -> None:
    paper = forme(*field)
    first, others = queue[0][:1], queue[0][1:]
    filled = fill(first, [Offer(one, Why.GAME) for one in others], paper)
    if filled is None:
        return
    assert_right(filled.layout, queue[0], paper)
    assert separable(filled.layout.laid)
    taken = [offer.item for offer in filled.taken]
    assert len(filled.layout.laid) == len(first) + len(taken)
    for one in others:
        if one not in taken:
            assert fill([*first, *taken, one], [], paper) is None


@settings(max_examples=25)
@given(fields, queues())
def test_a_sheet_has_room_unless_all_patterns_say_that_it_is_full(
    field: tuple[int, int], queue: tuple[list[Item], list[Coming]]
) -> None:
    paper, (items, coming) = forme(*field), queue
    filled = fill(items[:1], [Offer(one, Why.GAME) for one in items[1:]], paper)
    if items and filled is not None:
        lying = [*items[:1], *(offer.item for offer in filled.taken)]
        open_still = gang(lying, coming, paper).open is not None
        assert has_room(lying, coming, paper) == open_still


def test_a_filler_that_only_free_placement_has_room_for() -> None:
    # 23 of 5 by 3 lie on 22 by 16 anyhow, 22 when cut edge to edge (Dowsland's published set of
    # pallet loading; optima proven by two exact methods against Barnes's bound).
    items = [item(f"own {n}", 5, 3) for n in range(22)]
    offers = [Offer(item(f"spare {n}", 5, 3), Why.SPARE) for n in range(3)]
    for rule, many in ((Rule.TRIMMER, 22), (Rule.KNIFE, 23)):
        paper = forme(22, 16, rule=rule)
        filled = fill(items, offers, paper)
        assert filled is not None
        assert_right(filled.layout, [*items, *(offer.item for offer in offers)], paper)
        assert len(filled.layout.laid) == many
        assert filled.taken == tuple(offers[: many - 22])


def test_items_that_only_free_placement_can_hold() -> None:
    items = [item(f"own {n}", 5, 3) for n in range(23)]
    assert fill(items, [], forme(22, 16)) is None
    filled = fill(items, [Offer(item("spare", 5, 3), Why.SPARE)], forme(22, 16, rule=Rule.KNIFE))
    assert filled is not None
    assert len(filled.layout.laid) == 23
    assert filled.taken == ()


def test_what_no_way_is_found_for_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fullness, "scatter", lambda *_: None)
    items = [item(f"own {n}", 5, 3) for n in range(22)]
    paper = forme(22, 16, rule=Rule.KNIFE)
    filled = fill(items, [Offer(item("spare", 5, 3), Why.SPARE)], paper)
    assert filled is not None
    assert (len(filled.layout.laid), filled.taken) == (22, ())
    assert_right(filled.layout, items, paper)
    assert fill([*items, item("own 22", 5, 3)], [], paper) is None
