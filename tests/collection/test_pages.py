from __future__ import annotations

from pathlib import Path

import pytest

from engine.collection import Collection
from engine.collection.pages import keep_pages


def test_pages_follow_their_sheets(collection: Collection) -> None:
    for number in (1, 2):
        collection.sheet_path(number).write_bytes(b"page %d" % number)
    keep_pages(collection.folder, {1})
    assert [path.name for path in (collection.folder / "sheets").iterdir()] == ["sheet-0001.pdf"]
    keep_pages(collection.folder, {1, 2})
    assert collection.sheet_path(2).read_bytes() == b"page 2"


def test_a_page_pressed_anew_is_not_replaced_by_an_old_one(collection: Collection) -> None:
    collection.sheet_path(1).write_bytes(b"old")
    keep_pages(collection.folder, ())
    collection.sheet_path(1).write_bytes(b"new")
    keep_pages(collection.folder, {1})
    assert collection.sheet_path(1).read_bytes() == b"new"


def test_what_is_no_page_stays_where_it_is(collection: Collection) -> None:
    other = collection.folder / "sheets" / "sheet-of-mine.pdf"
    other.touch()
    keep_pages(collection.folder, ())
    assert other.exists()


def test_a_page_that_cannot_be_moved_holds_nobody_up(
    collection: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path, target: Path) -> Path:
        raise PermissionError

    collection.sheet_path(1).touch()
    monkeypatch.setattr(Path, "replace", refuse)
    keep_pages(collection.folder, ())
    assert collection.sheet_path(1).exists()
