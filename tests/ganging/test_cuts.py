"""The cut order, replayed with paper that knows nothing of the layout."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Coming, Cut, Item, cut_order, gang
from engine.ganging.cuts import CutOrder, Fence
from engine.model import Rect, Size
from engine.model.errors import RefusedError
from tests.ganging.strategies import forme, queues
from tests.packing import brutecuts
from tests.packing.strategies import fields

NEAR = 1e-6


def replay(order: CutOrder, stock: Size, kerf: float = 0.0) -> list[Rect]:
    """The pieces that lie on the table after all cuts, by adding up the distances."""
    pieces = [Rect(0, 0, *stock)]
    for cut in order.cuts:
        for lying in cut.pieces:
            piece = next(p for p in pieces if near(p, lying))
            pieces.remove(piece)
            x, y, w, h = piece
            d = cut.distance
            beyond = d + kerf
            match cut.fence:
                case Fence.LEFT:
                    parts = [Rect(x, y, d, h), Rect(x + beyond, y, w - beyond, h)]
                case Fence.RIGHT:
                    parts = [Rect(x + w - d, y, d, h), Rect(x, y, w - beyond, h)]
                case Fence.BOTTOM:
                    parts = [Rect(x, y, w, d), Rect(x, y + beyond, w, h - beyond)]
                case Fence.TOP:
                    parts = [Rect(x, y + h - d, w, d), Rect(x, y, w, h - beyond)]
            pieces += [part for part in parts if min(part.width, part.height) > NEAR]
    return pieces


def near(one: Rect, other: Rect) -> bool:
    return all(abs(a - b) < 1e-3 for a, b in zip(one, other, strict=True))


def test_a_grid_takes_three_settings_each_way_and_one_turn() -> None:
    # Margin, width with gutter, and width; the same along the sheet.
    grid = [Rect(10 + 62 * i, 20 + 52 * j, 60, 50) for i in range(3) for j in range(4)]
    order = cut_order(grid, Size(210, 297))
    assert (order.settings, order.turns) == (6, 1)
    assert [cut.number for cut in order.cuts] == list(range(1, len(order.cuts) + 1))


def test_one_insert_is_freed_by_four_cuts() -> None:
    order = cut_order([Rect(13, 20, 101, 83)], Size(210, 297))
    assert len(order.cuts) == 4
    assert (order.settings, order.turns, order.fewest) == (4, 1, True)
    assert order.cuts[-1].frees == (0,)


def test_lengths_that_agree_save_settings() -> None:
    # 100 mm lie right of the insert, it is 100 wide, and its upper edge is 100 above the foot.
    order = cut_order([Rect(10, 20, 100, 80)], Size(210, 297))
    assert [cut.distance for cut in order.cuts] == [100, 100, 100, 20]
    assert (order.settings, order.turns, order.fewest) == (2, 1, True)


def test_a_square_in_the_corner_needs_one_setting() -> None:
    order = cut_order([Rect(0, 0, 100, 100)], Size(210, 297))
    assert (len(order.cuts), order.settings, order.turns, order.fewest) == (2, 1, 1, True)


def test_the_first_cuts_go_by_the_tick() -> None:
    order = cut_order([Rect(10, 20, 100, 80)], Size(210, 297))
    assert order.cuts[0].by_tick
    assert not order.cuts[-1].by_tick or order.cuts[-1].fence != order.cuts[0].fence


def test_a_wheel_of_four_round_a_hole_needs_a_knife() -> None:
    wheel = [Rect(0, 0, 60, 40), Rect(60, 0, 40, 60), Rect(40, 60, 60, 40), Rect(0, 40, 40, 60)]
    with pytest.raises(RefusedError, match="knife"):
        cut_order(wheel, Size(100, 100))


def test_a_blade_that_takes_paper_takes_it_from_the_waste() -> None:
    inserts = [Rect(10, 10, 60, 50), Rect(72, 10, 60, 50), Rect(10, 62, 60, 80)]
    order = cut_order(inserts, Size(210, 297), kerf=0.4)
    pieces = replay(order, Size(210, 297), kerf=0.4)
    assert all(any(near(piece, insert) for piece in pieces) for insert in inserts)


def test_a_blade_wider_than_the_gutter_cannot_free_the_inserts() -> None:
    with pytest.raises(RefusedError):
        cut_order([Rect(0, 0, 50, 50), Rect(50.2, 0, 50, 50)], Size(210, 297), kerf=0.4)


def takes(cut: Cut, least: float, edge: float) -> bool:
    """Whether a trimmer can make a cut."""
    along = cut.piece.height if cut.fence.upright else cut.piece.width
    return cut.distance >= least - NEAR and along >= edge - NEAR


@settings(max_examples=40)
@given(fields, queues(), st.tuples(st.integers(0, 4), st.integers(0, 6), st.integers(1, 3)))
def test_the_cuts_add_up_to_the_layout(
    field: tuple[int, int],
    queue: tuple[list[Item], list[Coming]],
    trimmer: tuple[int, int, int],
) -> None:
    paper = forme(field[0] + 3, field[1] + 3, gutter=1)
    stock = Size(paper.stock.width, paper.stock.height)
    for sheet in gang(*queue, paper).ready[:1]:
        inserts = [Rect(one.x, one.y, one.width, one.height) for one in sheet.laid]
        least, edge, depth = trimmer
        order = cut_order(inserts, stock, distance=least, edge=edge, depth=depth)
        assert all(len({(p.width, p.height) for p in cut.pieces}) == 1 for cut in order.cuts)
        assert all(len(cut.pieces) <= depth for cut in order.cuts)
        assert all(takes(cut, least, edge) != cut.by_hand for cut in order.cuts)
        pieces = replay(order, stock)
        assert all(sum(near(piece, insert) for piece in pieces) == 1 for insert in inserts)
        freed = [index for cut in order.cuts for index in cut.frees]
        assert sorted(set(freed)) == sorted(freed)
        changes = list(zip(order.cuts, order.cuts[1:], strict=False))
        assert order.turns == sum(a.fence != b.fence for a, b in changes)
        assert order.settings == sum(a.distance != b.distance for a, b in changes) + bool(
            order.cuts
        )


@st.composite
def separable_layouts(draw: st.DrawFn) -> tuple[list[brutecuts.Edges], int, int]:
    """A few inserts from cutting a small sheet up, with gutters and margins of any width."""
    width, height = draw(st.integers(8, 16)), draw(st.integers(8, 16))
    pieces = [(0, 0, width, height)]
    for _ in range(draw(st.integers(0, 2))):
        left, low, right, high = pieces.pop(draw(st.integers(0, len(pieces) - 1)))
        if draw(st.booleans()):
            at = draw(st.integers(left + 1, right - 1)) if right - left > 1 else right
            pieces += [(left, low, at, high), (at, low, right, high)]
        else:
            at = draw(st.integers(low + 1, high - 1)) if high - low > 1 else high
            pieces += [(left, low, right, at), (left, at, right, high)]
    inset = st.integers(0, 2)
    inserts = []
    for left, low, right, high in pieces:
        box = left + draw(inset), low + draw(inset), right - draw(inset), high - draw(inset)
        if box[0] < box[2] and box[1] < box[3]:
            inserts.append(box)
    return inserts, width, height


@settings(max_examples=80)
@given(separable_layouts(), st.integers(0, 1))
def test_no_order_of_all_has_fewer_settings_and_turns(
    layout: tuple[list[brutecuts.Edges], int, int], kerf: int
) -> None:
    inserts, width, height = layout
    least = brutecuts.fewest_changes(inserts, width, height, kerf)
    rects = [Rect(a, b, c - a, d - b) for a, b, c, d in inserts]
    if least is None:
        with pytest.raises(RefusedError):
            cut_order(rects, Size(width, height), kerf=kerf)
        return
    order = cut_order(rects, Size(width, height), kerf=kerf)
    assert order.fewest
    assert order.settings + order.turns == least
    pieces = replay(order, Size(width, height), kerf)
    assert all(sum(near(piece, insert) for piece in pieces) == 1 for insert in rects)


def test_a_piece_may_be_left_for_later() -> None:
    # To cut each piece as soon as a setting has a use for it takes eight settings and turns.
    inserts = [(2, 1, 15, 11), (1, 12, 10, 13), (10, 12, 15, 14)]
    order = cut_order([Rect(a, b, c - a, d - b) for a, b, c, d in inserts], Size(16, 15))
    assert order.settings + order.turns == 7 == brutecuts.fewest_changes(inserts, 16, 15)


def test_a_full_sheet_of_eleven_is_proven() -> None:
    # Five of 80 by 51 mm in one column, six turned in two: gutters of 2 mm, A4.
    column = [Rect(13, 21 + 53 * n, 80, 51) for n in range(5)]
    turned = [Rect(95 + 53 * i, 21 + 82 * j, 51, 80) for i in range(2) for j in range(3)]
    order = cut_order([*column, *turned], Size(210, 297))
    assert order.fewest
    assert order.settings + order.turns == 10


LABELS = [Rect(13 + 10 * i, 21 + 67 * j, 8, 65) for i in range(6) for j in range(3)]


def test_nothing_is_set_nearer_than_the_fence_goes() -> None:
    order = cut_order(LABELS, Size(210, 297), distance=10, edge=25)
    assert all(takes(cut, 10, 25) for cut in order.cuts)
    assert not any(cut.by_hand for cut in order.cuts)
    pieces = replay(order, Size(210, 297))
    assert all(sum(near(piece, insert) for piece in pieces) == 1 for insert in LABELS)


def test_pieces_of_one_size_lie_on_each_other() -> None:
    alone = cut_order(LABELS, Size(210, 297), distance=10, edge=25)
    stacked = cut_order(LABELS, Size(210, 297), distance=10, edge=25, depth=3)
    assert max(len(cut.pieces) for cut in alone.cuts) == 1
    assert max(len(cut.pieces) for cut in stacked.cuts) == 3
    # Five cuts part the rows, two of which are trimmed at once; then twelve for all three.
    assert len(stacked.cuts) == 5 + 12 < len(alone.cuts)


def test_what_the_trimmer_cannot_take_is_left_to_a_knife_and_no_more() -> None:
    # Cut from either side, its 8 mm are nearer than 10.
    order = cut_order([Rect(0, 0, 8, 65)], Size(16, 80), distance=10, edge=5)
    assert [cut.by_hand for cut in order.cuts] == [True, False]
    assert sum(cut.by_hand for cut in cut_order([Rect(0, 0, 8, 65)], Size(16, 80)).cuts) == 0
