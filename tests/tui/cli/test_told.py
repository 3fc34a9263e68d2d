"""The rule by which results become JSON."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone
from enum import StrEnum
from typing import Annotated, NamedTuple

import msgspec
import pytest

from engine.model import Margins, Rect, Size, Trim
from engine.model.settings import Settings
from engine.model.units import BY_ID, DEGREES, MM, PERCENT, SHARE, SPREAD, Mm, Points, rounded
from tui.cli.told import text, told


class Colour(StrEnum):
    RED = "red"


class Box(msgspec.Struct, frozen=True):
    id: str
    width: Mm = 0.0


class Shelf(msgspec.Struct, frozen=True):
    deep: Mm = 12.34567
    type_size: Points = 7.256
    turn: Annotated[int, DEGREES] = 90
    used: Annotated[float, SHARE] = 0.123456
    inks: Annotated[dict[str, float], PERCENT] = msgspec.field(
        default_factory=lambda: {"cyan": 1.239}
    )
    plain: float = 0.123456789
    ratio: Annotated[float, rounded(1)] = 0.26
    none: Mm | None = None
    some: Mm | None = 1.00001
    box: Box = Box("b", 3)
    named: Annotated[Box, BY_ID] = Box("b")
    laid: Annotated[Box, SPREAD] = Box("laid", 4)
    strip: Rect = Rect(1, 2, 3, 4.00049)
    size: Annotated[Size, MM] = Size(1.00001, 2)
    trim: Trim = Trim(0.123456, 0, 0, 0)
    rings: Annotated[tuple[tuple[float, float], ...], rounded(3)] = ((1.23456, 2),)
    margins: Annotated[Margins, MM] = Margins()
    kinds: dict[Colour, Colour] = msgspec.field(default_factory=lambda: {Colour.RED: Colour.RED})
    renamed: int = msgspec.field(default=1, name="called_so")
    at: datetime = datetime(2026, 3, 1, 12, tzinfo=UTC)


TOLD = {
    "deep_mm": 12.346,
    "type_size_pt": 7.26,
    "turn_deg": 90,
    "used_percent": 12.35,
    "inks_percent": {"cyan": 1.24},
    "plain": 0.123456789,
    "ratio": 0.3,
    "none_mm": None,
    "some_mm": 1.0,
    "box": {"id": "b", "width_mm": 3},
    "named": "b",
    "id": "laid",
    "width_mm": 4,
    "strip": {"x_mm": 1, "y_mm": 2, "width_mm": 3, "height_mm": 4.0},
    "size_mm": [1.0, 2],
    "trim": [0.123456, 0, 0, 0],
    "rings": [[1.235, 2]],
    "margins_mm": {"left": 6.0, "right": 6.0, "top": 6.0, "bottom": 12.0},
    "kinds": {"red": "red"},
    "called_so": 1,
    "at": "2026-03-01T12:00:00Z",
}


def test_a_field_goes_by_its_name_and_unit_rounded_as_its_unit_is() -> None:
    assert told(Shelf()) == TOLD
    assert list(told(Shelf())) == list(TOLD), "in the order of the fields"


def test_only_some_fields_of_a_record_are_told_and_records_in_a_row() -> None:
    assert told(Shelf(), "deep", "box") == {"deep_mm": 12.346, "box": {"id": "b", "width_mm": 3}}
    assert told((Box("a", 1), Box("b", 2)), "id") == [
        {"id": "a", "width_mm": 1},
        {"id": "b", "width_mm": 2},
    ]


def test_a_time_is_told_in_utc() -> None:
    at = datetime(2026, 3, 1, 12, tzinfo=timezone(timedelta(hours=2)))
    assert told(Shelf(at=at), "at") == {"at": "2026-03-01T10:00:00Z"}


class Cut(NamedTuple):
    number: int
    distance: Mm


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Cut(1, 2.00049), {"number": 1, "distance_mm": 2.0}),
        (Trim(), [0.0, 0.0, 0.0, 0.0]),
        ((1, "a", None, True), [1, "a", None, True]),
        ({}, {}),
        (Colour.RED, "red"),
    ],
)
def test_named_figures_with_units_are_an_object_and_others_a_list(value, expected) -> None:
    assert told(value) == expected


def test_what_a_setting_is_called_is_what_the_rule_calls_its_field() -> None:
    stock = told(Settings(), "stock")["stock"]
    assert {"caliper_mm", "margins_mm", "width_mm", "height_mm"} <= stock.keys()


def test_text_is_read_as_it_stands() -> None:
    assert text({"title": "月の港"}) == '{\n  "title": "月の港"\n}'
