"""The file is TinyDB's: TinyDB itself reads it, with its own storage and with ours."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from tinydb import JSONStorage, TinyDB

from engine.collection import Collection
from engine.collection.schema import meta
from engine.collection.storage import AtomicStorage, texts
from engine.model import Game, Picture, Sheet
from engine.model.errors import CollectionError
from engine.model.settings import Settings

Opens = Callable[[], Collection]
Makes = Callable[..., Game]


@pytest.fixture
def file(
    collection: Collection,
    game: Makes,
    picture: Callable[[str], Picture],
    sheet: Callable[..., Sheet],
) -> Path:
    """The file of a collection in which rows were added, changed, taken away and undone."""
    collection.record("added", games=map(game, "abc"), pictures=[picture("a.png")])
    collection.record("set up", settings=Settings(threshold=0.5))
    collection.record("renamed", games=[game("b", "Straße 北")], sheets=[sheet(1, "a", "b")])
    collection.record("forgot", forget_games=["a"])
    collection.undo()
    collection.record("forgot", forget_games=["c"])
    collection.close()
    return collection.folder / "collection.json"


def as_read_by_tinydb(file: Path, storage: type) -> dict[str, dict[int, object]]:
    with TinyDB(file, storage=storage) as db:
        return {
            name: {row.doc_id: dict(row) for row in db.table(name)} for name in sorted(db.tables())
        }


def test_tinydb_reads_what_was_recorded(file: Path, opens: Opens) -> None:
    found = as_read_by_tinydb(file, JSONStorage)
    assert found == as_read_by_tinydb(file, AtomicStorage)
    assert found["meta"] == {1: meta()}
    collection = opens()
    for name, record, held in (
        ("games", Game, collection.games),
        ("pictures", Picture, collection.pictures),
        ("sheets", Sheet, collection.sheets),
    ):
        read = [msgspec.convert(row, record) for row in found[name].values()]
        assert read == list(held.values())
    assert [msgspec.convert(row, Settings) for row in found["settings"].values()] == [
        collection.settings
    ]
    undone = iter(collection.undo, None)
    assert [row["words"] for row in found["history"].values()] == [  # type: ignore[index]
        edits.words for edits in undone
    ][::-1]


@pytest.mark.parametrize("storage", [JSONStorage, AtomicStorage])
def test_a_collection_reads_what_tinydb_wrote(file: Path, opens: Opens, storage: type) -> None:
    with TinyDB(file, storage=storage) as db:
        row = dict(db.table("games").all()[0])
        db.table("games").insert({**row, "id": "d", "title": "Tide"})
        db.table("games").update({"title": "Reef"}, doc_ids=[1])
    collection = opens()
    titles = {name: game.title for name, game in collection.games.items()}
    assert titles == {"a": "Reef", "b": "Straße 北", "d": "Tide"}
    assert collection.undo() is not None


def rows_in(file: Path) -> set[str]:
    lines = file.read_text("utf-8").splitlines()
    return {line.rstrip(",") for line in lines if line.startswith('    "')}


def test_each_row_stands_on_a_line_and_only_lines_of_changed_rows_change(
    file: Path, opens: Opens, game: Makes
) -> None:
    before = rows_in(file)
    (line,) = (line for line in before if line.startswith('    "2": {"id": "b"'))
    assert line == (
        '    "2": {"id": "b", "title": "Straße 北", "added_at": "2026-03-01T00:00:00Z"}'
    )
    collection = opens()
    collection.record("renamed", games=[game("b", "Tide")])
    after = rows_in(file)
    assert before - after == {line}
    renamed, noted = sorted(after - before)
    assert renamed == line.replace("Straße 北", "Tide")
    assert '"words": "renamed"' in noted


def test_a_row_that_is_not_changed_keeps_the_form_in_which_it_stood(
    file: Path, opens: Opens, game: Makes
) -> None:
    file.write_text(json.dumps(json.loads(file.read_text("utf-8")), indent=2))
    collection = opens()
    collection.record("renamed", games=[game("b", "Tide")])
    text = file.read_text("utf-8")
    assert '    "1": {\n      "id": "a",\n' in text
    assert '    "2": {"id": "b", "title": "Tide"' in text
    collection.close()
    assert opens().games["b"].title == "Tide"


def test_where_a_file_is_damaged_is_told(tmp_path: Path) -> None:
    file = tmp_path / "collection.json"
    for data, where in (
        (b'{\n  "games": {\n    "1": {"id": ?}\n', "line 3, column 17"),
        (b'{\n  "games": {\n', "line 3, column 1"),
        (b'{\n  "games": {\n    "1": {"id": "ti\xff"}\n}}', "line 3, column 20"),
    ):
        file.write_bytes(data)
        for read in (AtomicStorage(file).read, AtomicStorage(file).read_texts):
            with pytest.raises(CollectionError, match=f"the file is damaged at {where}"):
                read()


def test_rows_read_unread_are_the_rows(file: Path) -> None:
    storage = AtomicStorage(file)
    plain, unread = storage.read(), storage.read_texts()
    assert plain is not None
    assert unread is not None
    for name, rows in unread.items():
        assert {key: msgspec.json.decode(text) for key, text in rows.items()} == plain[name]
    assert {name: list(rows) for name, rows in texts(plain).items()} == {
        name: list(rows) for name, rows in unread.items()
    }
