"""Slices of a sheet put so that the trimmer takes them."""

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Laid, Layout
from engine.ganging.cuts import fewest_by_hand
from engine.ganging.slices import for_trimmer
from engine.model import Forme, Rect, Size
from engine.model.stocks import STOCKS
from tests.ganging.checks import assert_right
from tests.ganging.strategies import item
from tests.packing.checks import separable

A4 = Forme(STOCKS["a4-card"])


def columns(*widths: float) -> Layout:
    """Columns of two, or of three where they are narrow, from the lower left of the field."""
    x, y = A4.field.x, A4.field.y
    laid = []
    for column, width in enumerate(widths):
        rows = 3 if width < 25 else 2
        for row in range(rows):
            at, height = y + row * 264 / rows, 264 / rows - 2
            laid.append(Laid(f"{column}-{row}", "shell", x, at, width, height, rotated=False))
        x += width + 2
    area = sum(one.width * one.height for one in laid)
    return Layout(tuple(laid), area / (210.0 * 297.0))


def least(layout: Layout) -> int:
    kept = [Rect(one.x, one.y, one.width, one.height) for one in layout.laid]
    found = fewest_by_hand(kept, Size(210, 297), kerf=0, distance=10, edge=25)
    assert found is not None
    return found


def test_a_column_of_labels_stands_at_the_outside() -> None:
    """Cut off, a column of 8 mm has no edge of 25 mm for the fence. At the left it has.

    There the margin of 6 mm, the strip of 6 mm, 1 mm of bleed, 4 mm to spare and the gutter of
    2 mm hang on it: 27 mm.
    """
    layout = columns(87.0, 8.0, 87.0)
    assert least(layout) > 0
    better = for_trimmer(layout, A4)
    assert least(better) == 0
    assert min(one.x for one in better.laid if one.width == 8) == 6 + 6 + 1 + 4
    items = [item(one.key, one.width, one.height) for one in layout.laid]
    assert_right(better, items, A4)
    assert separable(better.laid)


def test_what_the_trimmer_takes_stays_as_it_is() -> None:
    broad = columns(60.0, 60.0, 60.0)
    assert for_trimmer(broad, A4) is broad
    outside = columns(60.0, 8.0)
    assert for_trimmer(outside, A4) is outside, "its spare paper makes it broad enough"


@settings(max_examples=4)
@given(st.permutations([8.0, 16.0, 50.0, 60.0]), st.floats(0, 30))
def test_it_leaves_the_knife_no_more(widths: list[float], more: float) -> None:
    layout = columns(*(width + (more if width == 60.0 else 0) for width in widths))
    better = for_trimmer(layout, A4)
    assert least(better) <= least(layout)
    items = [item(one.key, one.width, one.height) for one in layout.laid]
    assert_right(better, items, A4)
