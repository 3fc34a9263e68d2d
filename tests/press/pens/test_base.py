from __future__ import annotations

from fontTools.misc.transform import Transform
from hypothesis import given
from hypothesis import strategies as st

from engine.model import FontRef, Rect, TextRun
from engine.press import Recorder, box, frame, moved, turned
from engine.press.pens.recorder import (
    CutStroke,
    FillStroke,
    ImageStroke,
    ScoreStroke,
    TextStroke,
    TickStroke,
)

lengths = st.integers(1, 300).map(float)
places = st.integers(-300, 300).map(float)
turns = st.sampled_from([0, 90, 180, 270])
RUN = TextRun("ab", FontRef("none"), 10.0, (), 5.0)


@given(places, places, lengths, lengths, turns)
def test_the_reading_frame_of_a_panel_covers_just_that_panel(
    x: float, y: float, width: float, height: float, turn: int
) -> None:
    panel = Rect(x, y, width, height)
    read = (height, width) if turn % 180 else (width, height)
    corners = [frame(panel, turn).transformPoint(point) for point in box(Rect(0, 0, *read))]
    assert sorted(corners) == sorted(box(panel))


@given(turns)
def test_reading_runs_the_way_the_panel_is_turned(turn: int) -> None:
    at = frame(Rect(0, 0, 10, 10), turn)
    start, end = at.transformPoint((0, 0)), at.transformPoint((1, 0))
    along = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[turn]
    assert (end[0] - start[0], end[1] - start[1]) == along


@given(turns, places, places)
def test_a_turn_never_mirrors(turn: int, x: float, y: float) -> None:
    xx, xy, yx, yy, _, _ = turned(turn, x, y)
    assert xx * yy - xy * yx == 1


def test_everything_drawn_through_a_moved_pen_arrives_moved() -> None:
    recorder = Recorder()
    pen = moved(moved(recorder, Transform(1, 0, 0, 1, 100, 50)), turned(90))
    triangle = [((0.0, 0.0), (10.0, 0.0), (0.0, 5.0))]
    with pen.clip(triangle):
        pen.fill(triangle, "#123456")
        pen.image(b"data", Transform(20, 0, 0, 30, 1, 2))
    pen.text(RUN, Transform(1, 0, 0, 1, 3, 0), "#000000")
    pen.cut(triangle)
    pen.score(0, 0, 10, 0, 90)
    pen.tick(0, 0, 0, 4)
    there = (((100, 50), (100, 60), (95, 50)),)
    assert recorder.strokes == [
        FillStroke(there, "#123456"),
        ImageStroke(b"data", Transform(0, 20, -30, 0, 98, 51)),
        TextStroke(RUN, Transform(0, 1, -1, 0, 100, 53), "#000000"),
        CutStroke(there),
        ScoreStroke(100, 50, 100, 60, 90),
        TickStroke(100, 50, 96, 50),
    ]
    assert recorder.clips == [(there,), (there,), (), (), (), ()]
