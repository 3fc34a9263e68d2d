"""The fewest sheets for a whole backlog."""

import pytest

from engine.ganging import Coming, plan
from engine.values import Forme, Margins, Rule, Stock

A4 = Stock("a4", "A4", 210, 297, margins=Margins(5, 5, 5, 5))


@pytest.mark.parametrize("gutter", [0.0, 2.0])
@pytest.mark.parametrize(
    ("counts", "sheets"), [((120, 60, 50, 40, 30), 90), ((60, 60, 60, 60, 60), 120)]
)
def test_mixed_sizes_on_a4(counts: tuple[int, ...], sheets: int, gutter: float) -> None:
    # A4 less 5 mm margins, rotation allowed, trimmer rule; the optimum was proven twice over
    # the exact patterns with a solver of its own (own calculation, no published source).
    sizes = [(82, 74), (149, 107), (151, 118), (120, 120), (104, 101)]
    backlog = [
        Coming(f"kind {i}", w, h, True, n)
        for i, ((w, h), n) in enumerate(zip(sizes, counts, strict=True))
    ]
    forme = Forme(A4, bleed=0, gutter=gutter, foot=0, side=0)
    result = plan(backlog, forme)
    assert (result.sheets, result.bound, result.proven) == (sheets, sheets, True)


def test_a_plan_for_the_knife_claims_only_what_the_area_proves() -> None:
    # Pallet loading (22, 16, 5, 3): 23 by free placement, 22 edge to edge (Dowsland's
    # published set): 23 fit one sheet, but not by these cuts.
    stock = Stock(
        id="p", name="p", width=22, height=16, margins=Margins(left=0, right=0, top=0, bottom=0)
    )
    forme = Forme(stock=stock, rule=Rule.KNIFE, bleed=0, gutter=0, foot=0, side=0)
    found = plan([Coming("k", 5, 3, turns=True, count=23)], forme)
    assert (found.sheets, found.bound, found.proven) == (2, 1, False)
    found = plan([Coming("k", 5, 3, turns=True, count=22)], forme)
    assert (found.sheets, found.bound, found.proven) == (1, 1, True)
