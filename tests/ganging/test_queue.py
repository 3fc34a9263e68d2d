"""Which inserts are pressed together, and what the open sheet lacks."""

from datetime import UTC, datetime, timedelta

from engine.ganging import Coming, Item, Lack, gang, gang_part_full
from engine.values import Forme, Margins, Stock

START = datetime(2026, 1, 1, tzinfo=UTC)
BARE = Margins(0, 0, 0, 0)


def forme(width: float, height: float, gutter: float = 2.0) -> Forme:
    stock = Stock("test", "Test", width, height, margins=BARE)
    return Forme(stock, bleed=0, gutter=gutter, foot=0, side=0)


def item(key: str, width: float, height: float, hours: int = 0, case: str = "shell") -> Item:
    return Item(key, case, width, height, turns=True, since=START + timedelta(hours=hours))


def test_a_sheet_is_ready_when_nothing_more_can_be_added() -> None:
    queue = [item(name, 48, 48) for name in "abcde"]
    ganged = gang(queue, [Coming("shell", 48, 48, True, 3)], forme(98, 98))
    assert [len(one.laid) for one in ganged.ready] == [4]
    assert ganged.open is not None
    assert len(ganged.open.laid) == 1
    assert ganged.lacks == (Lack("shell", 3),)


def test_the_last_sheet_is_ready_when_the_backlog_has_nothing_left() -> None:
    ganged = gang([item("a", 48, 48)], [], forme(98, 98))
    assert [len(one.laid) for one in ganged.ready] == [1]
    assert ganged.open is None


def test_part_full_prints_everything() -> None:
    queue = [item(name, 48, 48) for name in "abcde"]
    sheets = gang_part_full(queue, forme(98, 98))
    assert sorted(laid.key for one in sheets for laid in one.laid) == list("abcde")


def test_a_sheet_that_could_take_a_coming_label_is_not_full() -> None:
    coming = [Coming("label", 20, 10, True, 1)]
    ganged = gang([item("a", 78, 98)], coming, forme(100, 98))
    assert ganged.ready == ()
    assert ganged.lacks == (Lack("label", 1),)
