from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import msgspec
import pytest

from engine.collection.records import written
from engine.model import Accepted, Colours, Game, Match, Picture, Placement
from engine.model.errors import InputError
from engine.model.settings import Settings


def test_a_record_stands_on_one_line_with_spaces() -> None:
    row = written(
        Game("tide", "Tide", datetime(2026, 3, 1, tzinfo=UTC), notes="a\nb", extra={"Shelf": "B"})
    )
    assert row.text == (
        b'{"id": "tide", "title": "Tide", "added_at": "2026-03-01T00:00:00Z", '
        b'"notes": "a\\nb", "extra": {"Shelf": "B"}}'
    )


def test_a_record_is_what_will_be_read_again() -> None:
    placed = Placement("tide", "snap-shell", "0", 20, 30, 100, 65)  # whole numbers, not floats
    row = written(placed)
    assert row.record == placed
    assert isinstance(row.record.x, float)
    nothing = Game("tide", "Tide", datetime(2026, 3, 1, tzinfo=UTC), accepted=Accepted())
    for record in (placed, nothing, Colours("#000000", "#ffffff")):
        row = written(record)
        assert row.record == record
        assert msgspec.json.decode(row.text, type=type(record)) == row.record


def test_halves_of_characters_do_not_reach_the_file(picture: Callable[[str], Picture]) -> None:
    name = "caf\udce9.png"  # how Python shows a file name in an old encoding
    kept = written(Picture("a.png", name, 1, 1, "#000000"))
    assert kept.record.source == "caf\ufffd.png"


@pytest.mark.parametrize(
    "record",
    [
        Settings(threshold=1.5),
        Settings(patience=0),
        Placement("tide", "snap-shell", "0", float("nan"), 0, 10, 10),
        Match("a.png", confidence="high"),  # type: ignore[arg-type]
    ],
)
def test_what_could_not_be_read_again_is_not_written(record: Any) -> None:
    with pytest.raises(InputError, match=r"^[a-z]+, field (threshold|patience|x|confidence): "):
        written(record)
