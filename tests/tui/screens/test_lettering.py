"""The forms of lettering."""

from __future__ import annotations

import pytest

from engine import Lettering
from tui.screens.lettering import (
    lettering_of,
    mark_fields,
    read_marks,
    read_type,
    type_fields,
)


def typed(fields, **changes: str) -> dict[str, str]:
    return {**{field.key: field.text for field in fields}, **changes}


def test_forms_left_as_they_are_change_nothing() -> None:
    present = Lettering(dictionary={"Bay": "By"}, mark="year", mark_across=True, narrowest=0.85)
    for changes in (
        read_type(typed(type_fields(present)), present).value,
        read_marks(typed(mark_fields(present)), ("year",)).value,
    ):
        assert changes is not None
        for name, value in changes.items():
            assert value == getattr(present, name), name


def test_a_short_form_that_is_rubbed_out_is_taken_back() -> None:
    present = Lettering(dictionary={"Bay": "By"})
    read = read_type(typed(type_fields(present), short="Sea=S."), present)
    assert read.value is not None
    assert read.value["dictionary"] == {"Bay": "", "Sea": "S."}


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"distance": "far"}, "Distance: give a figure."),
        ({"lines": "3"}, "Lines: give 1 or 2."),
        ({"narrowest": ""}, "Narrowest: give a figure."),
        ({"short": "Adventure"}, "Adventure: write the words and the form"),
    ],
)
def test_what_is_wrong_with_the_type_is_said_at_once(changes, words: str) -> None:
    read = read_type(typed(type_fields(Lettering()), **changes), Lettering())
    assert read.value is None
    assert words in read.words


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"stripe": "wing"}, "wing: no such column."),
        ({"mark_end": "middle"}, "at the head or at the foot"),
        ({"way": "askew"}, "along or across"),
        ({"mark_room": "-"}, "Give the room in mm."),
    ],
)
def test_what_is_wrong_with_marks_is_said_at_once(changes, words: str) -> None:
    read = read_marks(typed(mark_fields(Lettering()), **changes), ("year",))
    assert read.value is None
    assert words in read.words


def test_settings_are_told_in_words() -> None:
    lettering = Lettering(upright=("", "a"), stripe="genre")
    told = {one.act: one.value for one in lettering_of(lettering, {"a": "Tin"})}
    assert told["upright"] == "every kind, Tin"
    assert told["edge_marks"] == "stripe by genre"
