"""Whether a layout keeps the rules, from its coordinates alone."""

from collections.abc import Iterable

from engine.ganging import Item, Layout
from engine.model import Forme
from tests.packing.checks import NEAR, apart


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
