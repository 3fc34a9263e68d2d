from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.lettering import default_font, shape
from engine.model import Rect
from engine.model.units import millimetres
from engine.press.captions import GAP, LEADING, SIZES, abridged, in_columns

FONT = default_font()
FOOT = Rect(6, 14, 190, 2 * millimetres(5 * LEADING) + 0.1)


def test_a_few_names_are_set_whole_and_large() -> None:
    labels = ["1 Tovarby", "2 The Ninth Tide"]
    captions = in_columns(labels, FOOT, FONT)
    assert [line.run.text for line in captions.lines] == labels
    assert {line.run.size for line in captions.lines} == {SIZES[0]}


def test_more_names_are_set_smaller_before_any_is_cut() -> None:
    labels = [f"{n} A name of middling length" for n in range(1, 11)]
    captions = in_columns(labels, FOOT, FONT)
    assert [line.run.text for line in captions.lines] == labels
    assert captions.lines[0].run.size < SIZES[0]


def test_names_read_along_the_rows() -> None:
    labels = [f"{n} A name of middling length" for n in range(1, 11)]
    lines = in_columns(labels, FOOT, FONT).lines
    assert len({line.y for line in lines[:5]}) == 1
    assert lines[5].y < lines[0].y
    assert lines[5].x == lines[0].x


def test_what_does_not_fit_is_counted() -> None:
    labels = [f"{n} Something of a title" for n in range(1, 101)]
    captions = in_columns(labels, FOOT, FONT)
    assert 20 < captions.shown < 100
    assert captions.lines[-1].run.text == f"+ {100 - captions.shown}"
    assert len(captions.lines) == captions.shown + 1


def test_no_room_at_all_shows_nothing() -> None:
    assert in_columns(["1 A"], Rect(0, 0, 100, 1), FONT) == ((), 0)
    assert in_columns([], FOOT, FONT) == ((), 0)


@settings(max_examples=30)
@given(st.lists(st.text("abcdefW ", min_size=1, max_size=40), min_size=1, max_size=70))
def test_captions_never_leave_their_room_nor_touch(names: list[str]) -> None:
    labels = [f"{n} {name}" for n, name in enumerate(names, start=1)]
    captions = in_columns(labels, FOOT, FONT)
    rows: dict[float, list[tuple[float, float]]] = {}
    for run, x, y in captions.lines:
        assert run.size >= 5
        assert y >= FOOT.y
        assert y + millimetres(run.size) * 0.72 <= FOOT.y + FOOT.height
        rows.setdefault(y, []).append((x, x + run.width))
    for spans in rows.values():
        assert spans[0][0] >= FOOT.x
        assert spans[-1][1] <= FOOT.x + FOOT.width
        gaps = [after[0] - before[1] for before, after in pairwise(spans)]
        assert all(gap >= GAP - 1e-6 for gap in gaps)


@pytest.mark.parametrize("room", [4.0, 8.0, 12.0, 30.0])
def test_a_name_is_cut_as_little_as_it_must(room: float) -> None:
    text = "12 The Long Lantern Walk"
    run = abridged(text, FONT, 5, room)
    assert run.width <= room
    if run.text == text:
        return
    assert run.text.endswith("…")
    longer = text[: len(run.text)] + "…"
    assert shape(longer, FONT, 5).width > room or longer.endswith(" …")
