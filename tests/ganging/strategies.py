"""Small sheets and inserts for property tests, in whole millimetres."""

from datetime import UTC, datetime, timedelta

from hypothesis import assume
from hypothesis import strategies as st

from engine.ganging import Coming, Item
from engine.ganging.footprints import Field, Footprint
from engine.model import Forme, Margins, Rule, Stock

START = datetime(2026, 1, 1, tzinfo=UTC)


def forme(width: float, height: float, *, gutter: float = 0.0, rule: Rule = Rule.TRIMMER) -> Forme:
    """A forme whose field is the whole stock."""
    stock = Stock("test", "Test", width, height, margins=Margins(0, 0, 0, 0))
    return Forme(stock, rule=rule, bleed=0, gutter=gutter, foot=0, side=0)


def item(
    key: str, width: float, height: float, hours: int = 0, case: str = "shell", turns: bool = True
) -> Item:
    return Item(key, case, width, height, turns=turns, since=START + timedelta(hours=hours))


sides = st.integers(2, 7)
sizes = st.lists(st.tuples(sides, sides, st.booleans()), min_size=1, max_size=3, unique=True).map(
    tuple
)
fields = st.tuples(st.integers(4, 10), st.integers(4, 10))


@st.composite
def cuttable(draw: st.DrawFn) -> tuple[tuple[int, int], tuple[tuple[int, int, bool], ...]]:
    """A field, and sizes of which each fits it."""
    width, height = draw(fields)
    some = draw(sizes)
    fitting = tuple(
        (w, h, turns)
        for w, h, turns in some
        if (w <= width and h <= height) or (turns and h <= width and w <= height)
    )
    assume(fitting)
    return (width, height), fitting


def as_footprints(some: tuple[tuple[int, int, bool], ...]) -> tuple[Footprint, ...]:
    """The same sizes in the units that the engine reckons in."""
    return tuple(Footprint(w * 10, h * 10, turns) for w, h, turns in some)


def as_field(width: int, height: int) -> Field:
    return Field(width * 10, height * 10)


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
