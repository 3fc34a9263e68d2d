from __future__ import annotations

import errno
import os
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from engine.collection import Collection, backups
from engine.model import Game

Opens = Callable[[], Collection]
Makes = Callable[..., Game]
NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)


def test_each_opening_keeps_what_was_there(opens: Opens, game: Makes, folder: Path) -> None:
    for name in ("tide", "reef", "quay"):
        collection = opens()
        collection.record("added", games=[game(name)])
        collection.close()
    sizes = [path.stat().st_size for path in backups.backups(folder)]
    assert len(sizes) == 2
    assert sizes == sorted(sizes, reverse=True)


def test_the_same_content_is_not_kept_twice(opens: Opens, folder: Path) -> None:
    for _ in range(4):
        opens().close()
    assert len(backups.backups(folder)) == 1


def test_the_newest_and_the_last_of_each_day_are_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "fsync", lambda _: None)
    file = tmp_path / "collection.json"
    for day, hour in [*((day, hour) for day in range(34) for hour in (1, 2)), (34, 1)]:
        file.write_text(f"{day} {hour}")
        backups.keep(file, NOON + timedelta(days=day, hours=hour))
    kept = [path.read_text() for path in backups.backups(tmp_path)]
    ten = ["34 1", *(f"{day} {hour}" for day in range(33, 28, -1) for hour in (2, 1))][:10]
    assert kept == [*ten, *(f"{day} 2" for day in range(28, 4, -1))]
    assert len({stamp.partition(" ")[0] for stamp in kept}) == 30


def test_a_clock_set_back_makes_no_copy_older_than_those_before_it(tmp_path: Path) -> None:
    file = tmp_path / "collection.json"
    for number in range(15):
        file.write_text(str(number))
        backups.keep(file, NOON - timedelta(days=400 * number))
    assert [path.read_text() for path in backups.backups(tmp_path)] == [
        str(number) for number in range(14, 4, -1)
    ]


def test_two_copies_of_one_second_are_both_kept(tmp_path: Path) -> None:
    file = tmp_path / "collection.json"
    for text in ("one", "two"):
        file.write_text(text)
        backups.keep(file, NOON)
    assert [path.read_text() for path in backups.backups(tmp_path)] == ["two", "one"]


def test_the_zone_of_the_clock_does_not_change_the_order(tmp_path: Path) -> None:
    file = tmp_path / "collection.json"
    file.write_text("first")
    backups.keep(file, NOON)
    file.write_text("second")
    backups.keep(file, datetime.fromisoformat("2026-03-01T08:00:00-05:00"))  # an hour later
    assert [path.read_text() for path in backups.backups(tmp_path)] == ["second", "first"]


def test_a_backup_that_cannot_be_written_is_told_and_holds_nobody_up(
    collection: Collection, opens: Opens, game: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    collection.record("added", games=[game("tide")])
    collection.close()

    def full(file: Path, now: datetime) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(backups, "keep", full)
    again = opens()
    assert not again.read_only
    folder = collection.folder / "backups"
    assert again.notes == (f"{folder}: no backup could be written (no space left on device).",)


def test_a_collection_that_stays_open_is_copied_each_day(folder: Path, game: Makes) -> None:
    days = iter([NOON, NOON + timedelta(hours=1), NOON + timedelta(days=1), NOON])
    with Collection.open(folder, now=lambda: next(days)) as collection:
        for name in ("tide", "reef", "quay"):
            collection.record("added", games=[game(name)])
    (copy,) = backups.backups(folder)
    assert b"reef" in copy.read_bytes()
    assert b"quay" not in copy.read_bytes()
