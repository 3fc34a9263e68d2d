from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from engine.collection import Collection
from engine.model import Sheet

Opens = Callable[[], Collection]
Makes = Callable[..., Sheet]
LATER = datetime(2026, 3, 2, tzinfo=UTC)


def press(collection: Collection, sheet: Sheet, page: bytes = b"page") -> None:
    with collection.new_files() as files:
        files.sheet_page(sheet.number, page)
        files.cut_page(sheet.number, page)
        collection.record(f"pressed sheet {sheet.number}", sheets=[sheet], files=files)


def pages(collection: Collection) -> list[str]:
    return sorted(path.name for path in (collection.folder / "sheets").iterdir())


BOTH = ["sheet-0001-cuts.pdf", "sheet-0001.pdf"]


def test_pages_follow_their_sheets(collection: Collection, sheet: Makes) -> None:
    press(collection, sheet(1))
    press(collection, sheet(2), b"page 2")
    assert pages(collection) == [*BOTH, "sheet-0002-cuts.pdf", "sheet-0002.pdf"]
    collection.record("withdrew", sheets=[sheet(2, withdrawn_at=LATER)])
    assert pages(collection) == BOTH
    collection.undo()
    assert collection.sheet_path(2).read_bytes() == b"page 2"
    collection.undo()
    assert pages(collection) == BOTH
    assert collection.check() == ()


def test_a_page_pressed_anew_is_not_replaced_by_an_old_one(
    collection: Collection, sheet: Makes
) -> None:
    press(collection, sheet(1), b"old")
    collection.undo()
    press(collection, sheet(1), b"new")
    assert collection.sheet_path(1).read_bytes() == b"new"


def test_pages_whose_sheet_was_never_recorded_are_put_away_at_the_next_opening(
    collection: Collection, opens: Opens, sheet: Makes
) -> None:
    press(collection, sheet(1))
    collection.close()
    collection.sheet_path(2).write_bytes(b"a death came before its record")
    again = opens()
    assert pages(again) == BOTH
    assert again.check() == ()


def test_what_is_no_page_stays_where_it_is(collection: Collection, sheet: Makes) -> None:
    other = collection.folder / "sheets" / "sheet-of-mine.pdf"
    other.touch()
    press(collection, sheet(1))
    assert other.exists()


def test_a_page_that_cannot_be_moved_holds_nobody_up(
    collection: Collection, sheet: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    press(collection, sheet(1))
    replace = Path.replace

    def refuse(path: Path, target: Path) -> Path:
        if path.suffix == ".pdf":
            raise PermissionError
        return replace(path, target)

    monkeypatch.setattr(Path, "replace", refuse)
    collection.record("withdrew", sheets=[sheet(1, withdrawn_at=LATER)])
    assert pages(collection) == BOTH
    assert [one.what for one in collection.check()] == ["sheet 1 was withdrawn"] * 2
