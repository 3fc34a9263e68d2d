from __future__ import annotations

from msgspec.structs import replace

from engine.cases import FlatScore
from engine.press.pens.base import turned
from engine.press.placed import PlacedInsert
from engine.press.scoring import in_words, score_lines, steps
from engine.press.ticks import Score
from tests.press.making import insert, net
from tests.press.test_folds import flap


def test_each_score_is_told_with_side_way_distance_and_order() -> None:
    first, second = steps(net("hard-cassette"))
    # Spine 12.7 mm, flap 16 mm: the finished sizes of dielines.FLAT.
    assert first.startswith("between flap and spine, 16.0 mm from the outer edge of flap")
    assert second.startswith("between spine and front, 28.7 mm from the outer edge of flap")
    assert "printed side; fold 90° away from the printed side (mountain)" in first


def test_a_valley_is_pressed_on_the_back() -> None:
    (step,) = steps(flap(-90))
    assert step == (
        "between front and flap, 10.0 mm from the outer edge of flap, on the back; "
        "fold 90° towards the printed side (valley)"
    )


def test_a_score_that_a_notch_parts_is_one_step() -> None:
    whole = flap()
    parts = (FlatScore(30, 0, 30, 10, 90), FlatScore(30, 30, 30, 40, 90))
    assert steps(replace(whole, scores=parts)) == steps(whole)


def test_scores_in_line_are_one_line_of_the_sheet() -> None:
    one = insert("soft-cassette", "", None)
    placed = [PlacedInsert(one, turned(0, 13, y)) for y in (30, 140)]
    placed.append(PlacedInsert(insert("snap-shell", "", None), turned(0, 20, 250)))
    lines = score_lines([one.scores() for one in placed])
    assert [(line.letter, line.upright, line.inserts) for line in lines] == [
        ("a", True, (1, 2)), ("b", True, (3,)), ("c", True, (1, 2)), ("d", False, (3,))
    ]  # fmt: skip
    assert in_words(lines)[0] == (
        "80.5 mm from the left edge of the paper, on the printed side; inserts 1, 2; "
        "fold 90° away from the printed side (mountain)"
    )


def test_a_mountain_and_a_valley_in_line_are_two_lines_each_with_its_own_scores() -> None:
    mountain, valley = Score((30, 0), (30, 10), 90), Score((30, 20), (30, 40), -90)
    first, second = score_lines([[mountain, valley]])
    assert (first.on([mountain, valley]), second.on([mountain, valley])) == ((mountain,), (valley,))
    assert (first.start([mountain, valley]), second.start([mountain, valley])) == (
        (30, 0),
        (30, 20),
    )
