"""What a person moves by key stays within the picture."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from engine.artwork import join, move_focus, move_split, move_trim, turn_by
from engine.model import Art, Trim

steps = st.floats(-2, 2)


@given(st.lists(st.tuples(steps, steps), max_size=6))
def test_the_focus_stays_on_the_picture(moves):
    art = Art("0.png")
    for right, down in moves:
        art = move_focus(art, right, down)
        assert 0 <= art.focus[0] <= 1
        assert 0 <= art.focus[1] <= 1


@given(st.lists(st.tuples(steps, steps), max_size=6))
def test_a_spine_keeps_some_width_and_room_at_both_sides(moves):
    art = Art("0.png")
    for begins, ends in moves:
        art = move_split(art, begins, ends)
        first, second = art.split
        assert 0 < first < second < 1
    assert join(art).split is None


@given(st.lists(st.tuples(st.sampled_from(Trim._fields), steps), max_size=8))
def test_a_trim_always_leaves_some_picture(moves):
    art = Art("0.png")
    for side, by in moves:
        art = move_trim(art, side, by)
        trim = art.trim
        assert min(trim) >= 0
        assert trim.left + trim.right <= 0.9 + 1e-9
        assert trim.top + trim.bottom <= 0.9 + 1e-9


def test_a_move_there_and_back_changes_nothing():
    art = Art("0.png", trim=Trim(0.1, 0.2, 0.1, 0.1), split=(0.4, 0.5), turn=1.0)
    assert move_trim(move_trim(art, "left", 0.125), "left", -0.125).trim.left == 0.1
    assert move_split(move_split(art, 0.0625, 0.0625), -0.0625, -0.0625).split == (0.4, 0.5)
    assert turn_by(turn_by(art, 0.25), -0.25).turn == 1.0
    assert turn_by(art, 90).turn == 45
