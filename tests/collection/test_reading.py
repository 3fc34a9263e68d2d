from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import pytest

from engine.collection.reading import read_tables
from engine.collection.storage import texts
from engine.model import Game, Sheet

Makes = Callable[..., Game]
Raw = dict[str, dict[str, Any]]


def plain(record: object) -> Any:
    return msgspec.to_builtins(record, str_keys=True)


@pytest.fixture
def raw(game: Makes, sheet: Callable[..., Sheet]) -> Raw:
    """Tables as they stand in a file."""
    return {
        "games": {"1": plain(game("tide-2")), "2": plain(game("tide-3"))},
        "sheets": {"1": plain(sheet(1, "tide-2"))},
    }


def test_rows_come_back_as_what_they_were_and_in_their_order(game: Makes, raw: Raw) -> None:
    raw["games"]["10"] = plain(game("last"))
    raw["games"]["3"] = plain(game("third"))
    tables, faults = read_tables(texts(raw))
    assert not faults
    assert list(tables.games.rows) == [1, 2, 3, 10]
    assert list(tables.games.records.values()) == [
        game(n) for n in ("tide-2", "tide-3", "third", "last")
    ]


def set_title(raw: Raw) -> None:
    raw["games"]["2"]["title"] = 12


def drop_title(raw: Raw) -> None:
    del raw["games"]["2"]["title"]


def unknown_field(raw: Raw) -> None:
    raw["games"]["2"]["titel"] = "Tide 3"


def no_zone(raw: Raw) -> None:
    raw["games"]["2"]["added_at"] = "2026-03-01T00:00:00"


def same_id(raw: Raw) -> None:
    raw["games"]["2"]["id"] = "tide-2"


def wide(raw: Raw) -> None:
    raw["sheets"]["1"]["placements"][0]["width"] = "wide"


def not_numbered(raw: Raw) -> None:
    raw["games"]["second"] = raw["games"].pop("2")


def twice_numbered(raw: Raw) -> None:
    raw["games"]["02"] = raw["games"]["1"]


def two_settings(raw: Raw) -> None:
    raw["settings"] = {"1": {}, "2": {"threshold": 0.5}}


def no_record(raw: Raw) -> None:
    raw["games"]["2"] = ["tide-3"]


def no_such_table(raw: Raw) -> None:
    raw["cases"] = {}


@pytest.mark.parametrize(
    ("spoil", "fault"),
    [
        (set_title, "games, row 2 (tide-3), field title: expected text, got a whole number"),
        (drop_title, "games, row 2 (tide-3), field title: missing"),
        (unknown_field, "games, row 2 (tide-3), field titel: unknown"),
        (no_zone, "games, row 2 (tide-3), field added_at: expected a time with its zone"),
        (same_id, "games, row 2: tide-2 stands in row 1 already"),
        (wide, "sheets, row 1 (1), field placements[0].width: expected a number, got text"),
        (not_numbered, "games, row second: rows are numbered"),
        (twice_numbered, "games, row 02: rows are numbered"),
        (two_settings, "settings, row 2: settings stands in row 1 already"),
        (no_record, "games, row 2: expected a record, got a list"),
        (no_such_table, "cases: no such table"),
    ],
)
def test_a_fault_names_its_table_row_and_field(
    raw: Raw, spoil: Callable[[Raw], None], fault: str
) -> None:
    spoil(raw)
    _, faults = read_tables(texts(raw))
    assert faults == [fault]


def test_all_faults_are_found_not_only_the_first(raw: Raw) -> None:
    set_title(raw)
    wide(raw)
    raw["settings"] = {"1": {"threshold": 2.0}}
    _, faults = read_tables(texts(raw))
    assert [fault.split(",")[0] for fault in faults] == ["games", "sheets", "settings"]
