"""What makes one layout tidier than another, on layouts small enough to see."""

from hypothesis import given, settings

from engine.packing.patterns.layouts import arrange
from engine.packing.patterns.maximal import Patterns
from engine.packing.patterns.tidiness import tidiest, untidiness
from engine.packing.rectangles import Field, Footprint, Spot
from tests.packing import brute
from tests.packing.strategies import as_field, as_footprints, fields, sizes

A4 = Field(1920, 2710)


def test_a_block_at_one_side_goes_before_paper_between_the_rows() -> None:
    block = tuple(Spot(0, x, y, 600, 500) for y in (0, 500) for x in (0, 600, 1200))
    spread = tuple(spot._replace(y=spot.y * 4) for spot in block)
    assert tidiest(A4, [spread, block]) == block
    assert untidiness(A4, block).block == -1920 * (2710 - 1000)


def test_what_no_printer_feeds_is_no_offcut() -> None:
    # 60 mm are left, less than the short side of 3.5 by 5 inches.
    assert untidiness(A4, (Spot(0, 0, 0, 1920, 2110),)).block == 0


def test_alike_inserts_that_lie_alike_go_before_one_that_is_turned() -> None:
    alike = (Spot(0, 0, 0, 900, 600), Spot(0, 900, 0, 900, 600))
    turned = (Spot(0, 0, 0, 900, 600), Spot(0, 900, 0, 600, 900))
    small = Field(1920, 1000)
    assert untidiness(small, alike).poses == 1
    assert untidiness(small, turned).poses == 2
    assert tidiest(small, [turned, alike]) == alike


def test_the_same_content_leaves_one_block() -> None:
    # Twelve inserts of six kinds, part of a sheet: a quarter of it can be printed on again.
    kinds = tuple(
        Footprint(w, h, turns=True)
        for w, h in ((660, 600), (990, 370), (770, 370), (600, 450), (420, 280), (390, 330))
    )
    spots = arrange(A4, kinds, (1, 2, 2, 1, 4, 2))
    assert spots is not None
    assert -untidiness(A4, spots).block > A4.width * A4.height / 4


@settings(max_examples=60)
@given(fields, sizes)
def test_the_block_is_blank(field: tuple[int, int], some: brute.Sizes) -> None:
    # Ten times as large, so that what is left of a sheet can be fed.
    paper = Field(*(side * 40 for side in as_field(*field)))
    kinds = tuple(Footprint(s.width * 20, s.height * 20, s.turns) for s in as_footprints(some))
    for counts in Patterns(paper, kinds).maximal[:3]:
        part = tuple((n + 1) // 2 for n in counts)
        spots = arrange(paper, kinds, part)
        assert spots is not None
        blank = paper.width * paper.height - sum(spot.width * spot.height for spot in spots)
        assert 0 <= -untidiness(paper, spots).block <= blank
