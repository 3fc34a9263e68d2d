"""Marks and stripes: at one place all along the shelf, never under the title."""

import pytest

from engine.cases import Spine
from engine.lettering import (
    TypeStyle,
    default_font,
    furnish,
    lay,
    propose_title,
    safe_area,
)
from engine.model import End, Furniture, Size
from tests.lettering.sheet import ProofPages

FONT = default_font()
SPINE = Size(101.5, 12.7)


def styled(**choices):
    spine = choices.pop("spine", Spine.DESCENDING)
    return TypeStyle(furniture=Furniture(**choices), spine=spine, fallbacks=())


@pytest.mark.parametrize("end", End)
@pytest.mark.parametrize("across", [False, True])
def test_the_mark_keeps_clear_of_the_title_and_of_the_edge(end, across):
    style = styled(mark=8.0, mark_end=end, mark_across=across)
    title = propose_title("Lantern Keeper of Old Harbour", SPINE, FONT, style)
    marks = furnish(SPINE, FONT, style, mark="127").mark
    pages = ProofPages(SPINE, [lay(title.lines, title.size, SPINE, FONT, style), marks])
    text, mark = pages.reach(0), pages.reach(1)
    outer = safe_area(SPINE)
    assert outer.x - 0.1 <= mark.x
    assert mark.x + mark.width <= outer.x + outer.width + 0.1
    assert outer.y - 0.1 <= mark.y
    assert mark.y + mark.height <= outer.y + outer.height + 0.1
    if end is End.HEAD:
        assert mark.x + mark.width < text.x
    else:
        assert text.x + text.width < mark.x


def test_the_room_is_kept_whether_a_game_has_a_mark_or_not():
    style = styled(mark=8.0)
    assert furnish(SPINE, FONT, style).mark == ()
    assert safe_area(SPINE, style.furniture).width < safe_area(SPINE).width - 8.0


def test_marks_up_to_three_digits_are_of_one_size_at_one_place():
    style = styled(mark=8.0, mark_across=True)
    found = [furnish(SPINE, FONT, style, mark=mark).mark[0] for mark in ("7", "42", "180")]
    assert len({line.run.size for line in found}) == 1
    assert len({round(line.x, 6) for line in found}) == 1


def test_a_mark_across_stands_upright_on_the_shelf():
    for spine, turn in ((Spine.DESCENDING, 90), (Spine.ASCENDING, 270)):
        style = styled(mark=8.0, mark_across=True, spine=spine)
        assert furnish(SPINE, FONT, style, mark="7").mark[0].turn == turn


def test_a_stripe_runs_over_the_whole_height_right_at_its_end():
    style = styled(stripe=4.0, stripe_end=End.FOOT)
    found = furnish(SPINE, FONT, style, stripe=True).stripe
    assert found == (pytest.approx(97.5), 0.0, 4.0, 12.7)
    area = safe_area(SPINE, style.furniture)
    assert area.x + area.width < 97.5
    assert furnish(SPINE, FONT, style).stripe is None


def test_a_symbol_takes_the_marks_room():
    style = styled(mark=8.0, stripe=4.0, mark_end=End.HEAD)
    room = furnish(SPINE, FONT, style, symbol=True).symbol
    title = safe_area(SPINE, style.furniture)
    assert room.width == 8.0
    assert room.x >= 4.0
    assert room.x + room.width < title.x


def test_without_room_nothing_is_furnished():
    found = furnish(SPINE, FONT, styled(), mark="7", stripe=True)
    assert (found.mark, found.stripe, found.symbol) == ((), None, None)
