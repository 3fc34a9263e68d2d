"""Small sheets and inserts for property tests, in whole millimetres."""

from datetime import UTC, datetime, timedelta

from hypothesis import strategies as st

from engine.ganging import Coming, Item
from engine.model import Forme, Margins, Rule, Stock
from tests.packing.strategies import sizes

START = datetime(2026, 1, 1, tzinfo=UTC)


def forme(width: float, height: float, *, gutter: float = 0.0, rule: Rule = Rule.TRIMMER) -> Forme:
    """A forme whose field is the whole stock."""
    stock = Stock("test", "Test", width, height, margins=Margins(0, 0, 0, 0))
    return Forme(stock, rule=rule, bleed=0, gutter=gutter, foot=0, side=0)


def item(
    key: str, width: float, height: float, hours: int = 0, case: str = "shell", turns: bool = True
) -> Item:
    return Item(key, case, width, height, turns=turns, since=START + timedelta(hours=hours))


@st.composite
def queues(draw: st.DrawFn) -> tuple[list[Item], list[Coming]]:
    """A queue of small inserts of up to three kinds, and what may still come."""
    kinds = draw(sizes)
    waiting = draw(st.lists(st.integers(0, len(kinds) - 1), max_size=9))
    queue = [
        item(f"g{n}", w, h, draw(st.integers(0, 5)), f"kind {k}", turns)
        for n, k in enumerate(waiting)
        for w, h, turns in [kinds[k]]
    ]
    coming = [
        Coming(f"kind {k}", w, h, turns, draw(st.integers(0, 3)))
        for k, (w, h, turns) in enumerate(kinds)
    ]
    return queue, coming
