from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest

from engine.collection import Collection, backups
from engine.model import Accepted, Art, Game, Match, PictureRole, Sheet, SidePicture
from engine.model.errors import CollectionError
from engine.model.settings import Settings

Makes = Callable[..., Game]


def test_what_needs_no_decision_is_mended_after_a_backup(
    collection: Collection, game: Makes, sheet: Callable[..., Sheet]
) -> None:
    side = SidePicture("gone.png", PictureRole.BACK)
    collection.record(
        "all",
        games=[
            game("tide", match=Match("gone.png", 0.9), sides=(side,)),
            game("reef", accepted=Accepted(art=Art(picture="gone.png"))),
        ],
        sheets=[sheet(1, withdrawn_at=datetime(2026, 3, 2, tzinfo=UTC))],
        settings=Settings(batch=("tide", "nobody")),
    )
    before = (collection.folder / "collection.json").read_bytes()
    strays = {
        "pictures/mine.png": "backups/pictures/mine.png",
        "sheets/mine.pdf": "backups/sheets/mine.pdf",
        "sheets/sheet-0001.pdf": "backups/sheet-0001.pdf",
        "backups/collection-20200101T000000Z.json": (
            "backups/unusable/collection-20200101T000000Z.json"
        ),
    }
    for stray in strays:
        (collection.folder / stray).write_bytes(b"{")
    said, edits = collection.mend(collection.check())
    assert len(said) == 2 + len(strays)
    assert edits is not None
    assert collection.games["tide"].match is None
    assert collection.games["tide"].sides == ()
    assert collection.settings.batch == ("tide",)
    assert backups.backups(collection.folder)[0].read_bytes() == before
    for stray, kept in strays.items():
        assert not (collection.folder / stray).exists()
        assert (collection.folder / kept).read_bytes() == b"{"
    (left,) = collection.check()
    assert (left.where, left.mends) == ("reef", False), "what a person accepted is theirs"
    assert collection.undo() is not None
    assert collection.settings.batch == ("tide", "nobody")


def test_two_files_of_one_name_are_both_kept(collection: Collection) -> None:
    for content in (b"one", b"two"):
        (collection.folder / "pictures" / "mine.png").write_bytes(content)
        collection.mend(collection.check())
    kept = (collection.folder / "backups" / "pictures").iterdir()
    assert {path.read_bytes() for path in kept} == {b"one", b"two"}


def test_nothing_is_recorded_where_a_file_cannot_be_moved(collection: Collection) -> None:
    collection.record("all", settings=Settings(batch=("nobody",)))
    (collection.folder / "pictures" / "mine.png").write_bytes(b"{")
    (collection.folder / "backups" / "pictures").write_bytes(b"in the way")
    with pytest.raises(CollectionError, match="mine"):
        collection.mend(collection.check())
    assert collection.settings.batch == ("nobody",)
