from __future__ import annotations

import errno
import os
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
from engine.model.errors import CollectionError, ReadOnlyError

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


OF_2 = OLD.with_name("schema-2.json")
"""A small collection that went from a list to a fitted insert, as schema 2 wrote it."""


def test_a_file_of_schema_2_is_read_and_every_change_of_it_undone(
    folder: Path, clock: Callable[[], datetime]
) -> None:
    folder.mkdir()
    shutil.copy(OF_2, folder / "collection.json")
    with Collection.open(folder, now=clock) as collection:
        crows = collection.games["3-crows-in-a-filing"]
        assert (len(collection.games), len(collection.pictures)) == (5, 4)
        assert crows.fitted is not None
        assert crows.match is not None
        assert collection.pictures[crows.match.picture].reading is not None
        assert [side.role for side in crows.sides] == ["back"]
        sheet = collection.sheets[1]
        assert sheet.printed is not None
        assert [place.spoiled for place in sheet.placements].count(True) == 1
        assert collection.settings.lettering.dictionary == {"Crows": "Cr."}
        undone = []
        while edits := collection.undo():
            undone.append(edits.words)
        assert len(undone) == 8
        assert (undone[0], undone[-1]) == (
            "fitted 3 Crows in a Filing Cabinet",
            "took in list.csv",
        )
        assert not collection.games
    assert backups.backups(folder)[0].read_bytes() == OF_2.read_bytes()


def test_an_older_file_is_not_written_over_before_there_is_a_copy_of_it(
    folder: Path, clock: Callable[[], datetime], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder.mkdir()
    shutil.copy(OF_2, folder / "collection.json")

    def full(file: Path, now: datetime) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(backups, "keep", full)
    with pytest.raises(CollectionError, match="the disk is full"):
        Collection.open(folder, now=clock)
    assert (folder / "collection.json").read_bytes() == OF_2.read_bytes()


def test_a_newer_file_is_opened_for_reading_and_left_as_it_is(
    folder: Path, clock: Callable[[], datetime]
) -> None:
    folder.mkdir()
    raw = msgspec.json.decode(OF_2.read_bytes())
    raw["meta"]["1"] = {"schema": schema.SCHEMA + 1, "colour": "blue"}
    games = raw["games"]
    games["1"]["weight"] = 3
    games["1"]["accepted"]["title"][0]["curve"] = {"of": 2}
    games["2"]["match"]["angle"] = 90
    games["3"]["added_at"] = {"day": 5}
    raw["shelves"] = {"1": {"id": "a"}}
    raw["history"]["9"] = {"words": "bent", "by": "nobody"}
    written = msgspec.json.encode(raw)
    (folder / "collection.json").write_bytes(written)
    with Collection.open(folder, now=clock) as collection:
        assert collection.read_only
        assert not collection.go_on()
        (note,) = collection.notes
        assert "written by a newer Spinery" in note
        assert "cannot show 1. Install the newer program." in note
        assert len(collection.games) == 4
        assert collection.games["3-crows-in-a-filing"].accepted.title
        assert len(collection.sheets) == 1
        with pytest.raises(ReadOnlyError):
            collection.undo()
    with Collection.open(folder, now=clock):
        pass
    assert (folder / "collection.json").read_bytes() == written
    assert not list(folder.glob("backups/*"))
