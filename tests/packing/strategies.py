"""Small fields and rectangles for property tests, in whole units."""

from hypothesis import assume
from hypothesis import strategies as st

from engine.packing.rectangles import Field, Footprint
from tests.packing.brute import Sizes

sides = st.integers(2, 7)
sizes = st.lists(st.tuples(sides, sides, st.booleans()), min_size=1, max_size=3, unique=True).map(
    tuple
)
fields = st.tuples(st.integers(4, 10), st.integers(4, 10))


@st.composite
def cuttable(draw: st.DrawFn) -> tuple[tuple[int, int], Sizes]:
    """A field, and sizes of which each fits it."""
    width, height = draw(fields)
    fitting = tuple(
        (w, h, turns)
        for w, h, turns in draw(sizes)
        if (w <= width and h <= height) or (turns and h <= width and w <= height)
    )
    assume(fitting)
    return (width, height), fitting


def as_footprints(some: Sizes) -> tuple[Footprint, ...]:
    """The same sizes ten times as large, as the engine counts in tenths."""
    return tuple(Footprint(w * 10, h * 10, turns) for w, h, turns in some)


def as_field(width: int, height: int) -> Field:
    return Field(width * 10, height * 10)
