from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import msgspec
import pytest

from engine.collection import Collection
from engine.model import Accepted, Art, Game, Match, Picture, Sheet
from engine.model.settings import Settings

Makes = Callable[..., Game]
LATER = datetime(2026, 3, 2, tzinfo=UTC)


@pytest.fixture
def whole(
    collection: Collection,
    tmp_path: Path,
    game: Makes,
    sheet: Callable[..., Sheet],
    picture: Callable[[str], Picture],
) -> Collection:
    """A collection in which everything is as it should be."""
    source = tmp_path / "tide.png"
    source.write_bytes(b"picture")
    with collection.new_files() as files:
        name = files.picture(source)
        files.sheet_page(1, b"%PDF")
        tide = game("tide", match=Match(name, 1.0), accepted=Accepted(art=Art(picture=name)))
        collection.record(
            "all",
            games=[tide, game("reef")],
            pictures=[picture(name)],
            sheets=[sheet(1, "tide")],
            files=files,
        )
    return collection


def found(collection: Collection) -> list[tuple[str, str]]:
    findings = collection.check()
    assert all(one.mend for one in findings)
    return [(one.what, one.where) for one in findings]


def only_picture(collection: Collection) -> Path:
    (name,) = collection.pictures
    return collection.picture_path(name)


def test_nothing_is_found_in_a_whole_collection(whole: Collection) -> None:
    assert whole.check() == ()


def test_a_picture_that_is_gone(whole: Collection) -> None:
    path = only_picture(whole)
    path.unlink()
    assert found(whole) == [(f"the picture of scan of {path.name} is gone", str(path))]


def test_a_picture_that_is_damaged(whole: Collection) -> None:
    path = only_picture(whole)
    path.write_bytes(b"pictuer")
    assert found(whole) == [(f"the picture of scan of {path.name} is damaged", str(path))]


def test_a_picture_that_no_record_knows(whole: Collection) -> None:
    stray = whole.folder / "pictures" / "stray.png"
    stray.write_bytes(b"stray")
    (whole.folder / "pictures" / ".DS_Store").write_bytes(b"left by a system")
    assert found(whole) == [("no record knows this picture", str(stray))]


def test_a_picture_that_undo_can_bring_back_is_not_to_be_deleted(whole: Collection) -> None:
    whole.record("forgot", games=[msgspec.structs.replace(whole.games["tide"], match=None,
        accepted=Accepted())], forget_pictures=list(whole.pictures))  # fmt: skip
    assert not found(whole)
    whole.undo()
    assert not found(whole)


def test_a_game_that_names_a_picture_nobody_knows(whole: Collection, game: Makes) -> None:
    whole.record("changed", games=[game("reef", match=Match("a.png", 0.9),
        accepted=Accepted(art=Art(picture="a.png")))])  # fmt: skip
    assert found(whole) == [("its picture a.png is not in the collection", "reef")]


def test_a_sheet_that_names_a_game_nobody_knows(whole: Collection) -> None:
    whole.record("forgot", forget_games=["tide"])
    assert found(whole) == [("the game tide is not known", "sheet 1")]


def test_a_batch_that_names_a_game_nobody_knows(whole: Collection) -> None:
    whole.record("changed", settings=Settings(batch=("reef", "gone")))
    assert found(whole) == [("the game gone is not known", "today's batch")]


def test_a_game_on_two_pressed_sheets(whole: Collection, sheet: Callable[..., Sheet]) -> None:
    whole.record("pressed", sheets=[sheet(2, "reef", "tide")])
    whole.sheet_path(2).write_bytes(b"%PDF")
    assert found(whole) == [("it is on the pressed sheets 1 and 2 at once", "tide")]


@pytest.mark.parametrize("over", ["settled_at", "withdrawn_at"])
def test_a_game_may_be_printed_again(
    whole: Collection, sheet: Callable[..., Sheet], over: str
) -> None:
    whole.record("pressed", sheets=[sheet(2, "tide", **{over: LATER})])
    assert not found(whole)


def test_a_pressed_sheet_without_its_pdf(whole: Collection) -> None:
    whole.sheet_path(1).unlink()
    assert found(whole) == [("the PDF is gone", str(whole.sheet_path(1)))]


def test_a_pdf_without_its_sheet(whole: Collection) -> None:
    whole.sheet_path(2).write_bytes(b"%PDF")
    assert found(whole) == [
        ("no sheet of the collection is in this file", str(whole.sheet_path(2)))
    ]


def test_a_backup_that_would_be_of_no_use(whole: Collection) -> None:
    backup = whole.folder / "backups" / "collection-20260101T000000Z.json"
    backup.write_bytes(b"half a fi")
    ((what, where),) = found(whole)
    assert what.startswith("the backup cannot be used: the file is damaged")
    assert where == str(backup)
