from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import msgspec
import pytest

from engine.collection import Collection, backups, schema
from engine.collection.schema import migrate
from engine.collection.storage import Raw
from engine.model import Fit, Game, Offcut, Rect
from engine.model.errors import CollectionError

FILE = Path("/shelf/collection.json")
Makes = Callable[..., Game]


def at(number: object) -> Raw:
    return {"meta": {"1": {"schema": number}}, "games": {"1": {"name": "tide"}}}


def test_an_older_file_goes_up_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(schema, "SCHEMA", 3)

    def to_ids(raw: Raw) -> Raw:
        games = {row: {"id": each["name"]} for row, each in raw["games"].items()}
        return {**raw, "games": games, "history": {}}

    def to_titles(raw: Raw) -> Raw:
        games = {row: {**each, "title": each["id"].title()} for row, each in raw["games"].items()}
        return {**raw, "games": games}

    old = {**at(1), "history": {"1": {"words": "what the old schema did"}}}
    new = migrate(old, FILE, {1: to_ids, 2: to_titles})
    assert new["games"] == {"1": {"id": "tide", "title": "Tide"}}
    assert new["meta"] == {"1": {"schema": 3}}
    assert new["history"] == {}
    assert old["games"] == {"1": {"name": "tide"}}


def test_a_file_of_this_schema_is_left_alone() -> None:
    raw = at(schema.SCHEMA)
    assert migrate(raw, FILE) is raw


def test_a_damaged_older_file_is_told_in_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(schema, "SCHEMA", 2)

    def needs_a_number(raw: Raw) -> Raw:
        return {"games": raw["games"]["1"]["number"]}

    with pytest.raises(CollectionError, match="its records are not those of schema 1"):
        migrate(at(1), FILE, {1: needs_a_number})


@pytest.mark.parametrize("number", [None, "1", 0, True, 1.5])
def test_the_schema_is_a_number_from_one(number: object) -> None:
    with pytest.raises(CollectionError, match="meta, row 1, field schema: a number from 1"):
        migrate(at(number), FILE)


def test_a_migrated_collection_is_written_and_the_old_file_kept(
    collection: Collection,
    game: Makes,
    clock: Callable[[], datetime],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    collection.record("added", games=[game("tide")])
    collection.close()
    file = collection.folder / "collection.json"
    old = file.read_bytes()

    def in_capitals(raw: Raw) -> Raw:
        games = {
            row: {**each, "title": each["title"].upper()} for row, each in raw["games"].items()
        }
        return {**raw, "games": games, "history": {}}

    monkeypatch.setattr(schema, "SCHEMA", schema.SCHEMA + 1)
    monkeypatch.setattr(schema, "MIGRATIONS", {schema.SCHEMA - 1: in_capitals})
    with Collection.open(collection.folder, now=clock) as again:
        assert again.games["tide"].title == "TIDE"
        assert again.undo() is None
    assert msgspec.json.decode(file.read_bytes())["meta"] == {"1": {"schema": schema.SCHEMA}}
    assert backups.backups(collection.folder)[0].read_bytes() == old


OLD = Path(__file__).parent / "data" / "schema-1.json"
"""A small collection as it was written when rows stood on many lines, in no order."""


def test_a_file_of_schema_1_is_read_and_every_change_of_it_undone(
    folder: Path, clock: Callable[[], datetime]
) -> None:
    folder.mkdir()
    shutil.copy(OLD, folder / "collection.json")
    with Collection.open(folder, now=clock) as collection:
        tide = collection.games["tide-mill"]
        assert list(collection.games) == ["tide-mill", "plum-line"]
        assert collection.games["plum-line"].title == "Plum Line Express: Straße 北"
        assert collection.games["plum-line"].notes == "Two lines\nof notes"
        assert tide.extra == {"Shelf": "B2"}
        assert tide.fitted is not None
        assert tide.fitted.at == datetime(2026, 3, 1, 12, 15, tzinfo=UTC)
        assert tide.accepted.art is not None
        assert (tide.accepted.art.fit, tide.accepted.art.focus) == (Fit.MATTE, (0.5, 0.4))
        assert tide.accepted.title is not None
        assert [(t.lines, t.size) for t in tide.accepted.title] == [
            (("Tide Mill",), 11.5),
            (("Tide", "Mill"), 8.0),
        ]
        assert list(collection.pictures) == ["0f1e2d3c4b5a69788796.png", "a1b2c3d4e5f60718293a.jpg"]
        sheet = collection.sheets[1]
        assert [(place.game, place.spare) for place in sheet.placements] == [
            ("tide-mill", False),
            ("tide-mill", True),
        ]
        assert sheet.offcuts == (Offcut(1, Rect(10.0, 10.0, 190.5, 18.0)),)
        assert collection.settings.batch == ("tide-mill", "reef")
        assert collection.settings.lettering.mark == "Shelf"
        assert collection.settings.lettering.mode == "even"
        undone = []
        while edits := collection.undo():
            undone.append(edits.words)
            if edits.words == "forgot Reef":
                assert list(collection.games) == ["tide-mill", "plum-line", "reef"]
        assert undone == [
            "fitted Tide Mill",
            "settled sheet 1",
            "pressed sheet 1",
            "forgot Reef",
            "accepted Tide Mill",
            "accepted Tide Mill",
            "changed the lettering",
            "took in games.csv",
        ]
        assert collection.settings.lettering.mode == "free", "as it was when nothing was set"
        assert not collection.games
        assert not collection.sheets
        assert not collection.pictures
    assert backups.backups(folder)[0].read_bytes() == OLD.read_bytes()


def test_titles_of_a_collection_of_schema_1_stay_as_large_as_they_can_be(
    folder: Path, clock: Callable[[], datetime]
) -> None:
    folder.mkdir()
    raw = msgspec.json.decode(OLD.read_bytes())
    (folder / "collection.json").write_bytes(
        msgspec.json.encode({**raw, "settings": {}, "history": {}})
    )
    with Collection.open(folder, now=clock) as collection:
        assert collection.settings.lettering.mode == "free"
