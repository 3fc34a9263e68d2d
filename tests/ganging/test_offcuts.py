"""Offcuts that are kept for another sheet."""

from engine.ganging import (
    Coming,
    cut_order,
    gang_offcuts,
    gang_part_full,
    offcut_stock,
    offcuts,
)
from engine.ganging.offcuts import separable
from engine.model import Forme, Margins, Rect, Rule, Size, Stock
from tests.ganging.strategies import item

CARD = Stock("card", "Card", 210, 297, grammage=220, caliper=0.3, margins=Margins(5, 5, 5, 5))
FORME = Forme(CARD, bleed=1, gutter=2, foot=0, side=0)


def test_what_is_left_above_a_row_is_one_offcut() -> None:
    (layout,) = gang_part_full([item("a", 198, 90)], FORME)
    (kept,) = offcuts(layout, FORME)
    # The field begins 6 mm from the paper's edge; the bleed of the row ends at 6 + 90 + 1.
    assert kept == Rect(6, 97, 198, 194)


def test_an_offcut_can_be_cut_out_with_the_inserts() -> None:
    (layout,) = gang_part_full([item("a", 60, 90), item("b", 95, 120)], FORME)
    kept = offcuts(layout, FORME)
    inserts = [Rect(one.x, one.y, one.width, one.height) for one in layout.laid]
    assert kept
    order = cut_order([*inserts, *kept], Size(210, 297))
    assert {index for cut in order.cuts for index in cut.frees} == set(range(2 + len(kept)))


def test_what_the_printer_cannot_feed_is_no_offcut() -> None:
    (layout,) = gang_part_full([item("a", 198, 90)], FORME)
    assert offcuts(layout, FORME, Size(148, 200)) == ()
    assert len(offcuts(layout, FORME, Size(100, 148))) == 1


def test_an_offcut_is_a_stock_of_the_same_paper() -> None:
    stock = offcut_stock(Rect(6, 97, 198, 194), 12, 1, CARD)
    assert (stock.id, stock.width, stock.height) == ("offcut-12-1", 194, 198)
    assert (stock.grammage, stock.caliper, stock.margins) == (220, 0.3, CARD.margins)


def test_an_offcut_is_offered_when_something_fills_it() -> None:
    small = offcut_stock(Rect(0, 0, 100, 130), 1, 1, CARD)
    large = offcut_stock(Rect(0, 0, 140, 200), 2, 1, CARD)
    queue = [item("a", 88, 118), item("b", 60, 60)]
    found = gang_offcuts([large, small], queue, [Coming("x", 60, 60, True, 5)], FORME)
    assert [(stock.id, [laid.key for laid in layout.laid]) for stock, layout in found] == [
        ("offcut-1-1", ["a"])
    ]


def test_a_wheel_is_not_separable() -> None:
    wheel = [Rect(0, 0, 60, 40), Rect(60, 0, 40, 60), Rect(40, 60, 60, 40), Rect(0, 40, 40, 60)]
    assert not separable(wheel)
    assert separable(wheel[:3])


def test_under_the_knife_rule_any_blank_rectangle_will_do() -> None:
    knife = Forme(CARD, rule=Rule.KNIFE, bleed=1, gutter=2, foot=0, side=0)
    (layout,) = gang_part_full([item("a", 95, 90)], knife)
    assert offcuts(layout, knife)
