from __future__ import annotations

from fontTools.misc.transform import Transform

from engine.model import FontRef, Rect, TextRun
from engine.press import Recorder, box
from tests.press.reach import reach


def test_bounds_lie_around_all_that_shows() -> None:
    pen = Recorder()
    pen.fill([box(Rect(10, 10, 20, 5))], "#000000")
    pen.text(
        TextRun("ab", FontRef("none"), 10.0, (), 30.0), Transform(0, 1, -1, 0, 40, 0), "#000000"
    )
    pen.tick(-2, 12, 1, 12)
    assert reach(pen) == Rect(-2, 0, 42, 30)


def test_what_is_clipped_away_does_not_count() -> None:
    pen = Recorder()
    with pen.clip([box(Rect(0, 0, 10, 10))]):
        pen.image(b"", Transform(100, 0, 0, 4, -20, 3))
        pen.cut([box(Rect(50, 50, 5, 5))])
    assert reach(pen) == Rect(0, 3, 10, 4)


def test_nothing_drawn_has_no_bounds() -> None:
    assert reach(Recorder()) is None
