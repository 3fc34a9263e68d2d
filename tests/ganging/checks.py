"""Whether a layout keeps the rules, from its coordinates alone."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from engine.ganging import Item, Laid, Layout
from engine.model import Forme

NEAR = 1e-6


def assert_right(layout: Layout, items: Iterable[Item], forme: Forme) -> None:
    """Inside the field, a gutter apart, true to size, and turned only where allowed."""
    known = {item.key: item for item in items}
    field = forme.field
    for laid in layout.laid:
        item = known[laid.key]
        own = (item.height, item.width) if laid.rotated else (item.width, item.height)
        assert (laid.width, laid.height) == own
        assert laid.case == item.case
        assert item.turns or not laid.rotated
        assert field.x - NEAR <= laid.x
        assert field.y - NEAR <= laid.y
        assert laid.x + laid.width <= field.x + field.width + NEAR
        assert laid.y + laid.height <= field.y + field.height + NEAR
    for n, one in enumerate(layout.laid):
        for other in layout.laid[n + 1 :]:
            assert apart(one, other) >= forme.gutter - NEAR
    area = sum(one.width * one.height for one in layout.laid)
    assert abs(layout.used * forme.stock.width * forme.stock.height - area) < NEAR * 100


def apart(one: Laid, other: Laid) -> float:
    """The wider of the gaps between two inserts, across and along the sheet."""
    across = max(other.x - one.x - one.width, one.x - other.x - other.width)
    along = max(other.y - one.y - one.height, one.y - other.y - other.height)
    return max(across, along)


def separable(laid: Sequence[Laid]) -> bool:
    """Whether edge-to-edge cuts can free every insert."""
    if len(laid) < 2:
        return True
    for start, size in (("x", "width"), ("y", "height")):
        spans = sorted(
            (getattr(o, start), getattr(o, start) + getattr(o, size), n) for n, o in enumerate(laid)
        )
        reach = spans[0][1]
        for before, after in pairwise(spans):
            reach = max(reach, before[1])
            if after[0] >= reach - NEAR:
                first = [one for one in laid if getattr(one, start) < after[0] - NEAR]
                rest = [one for one in laid if getattr(one, start) >= after[0] - NEAR]
                return separable(first) and separable(rest)
    return False
