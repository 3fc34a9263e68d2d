"""Files that belong to a change: named by content (SHA-256 of FIPS 180-4, as hashlib gives it),
forced to the disk before the record, gone when there is none."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from threading import Thread

import pytest

from engine.collection import Collection
from engine.model import Game, Picture, Sheet
from engine.model.errors import CollectionError, FontError, InputError, PictureError, ReadOnlyError
from engine.model.settings import Settings

Makes = Callable[..., Game]
Pictured = Callable[[str], Picture]


@pytest.fixture
def source(tmp_path: Path) -> Path:
    path = tmp_path / "a.png"
    path.write_bytes(b"picture")
    return path


def take_in(collection: Collection, picture: Pictured, path: Path, suffix: str = "") -> Path:
    with collection.new_files() as files:
        name = files.picture(path, suffix)
        collection.record("took in", pictures=[picture(name)], files=files)
    return collection.picture_path(name)


def inside(collection: Collection) -> list[str]:
    places = (collection.folder / name for name in ("pictures", "fonts", "sheets"))
    return sorted(path.name for place in places for path in place.iterdir())


def test_a_picture_is_named_by_what_it_holds(
    collection: Collection, picture: Pictured, tmp_path: Path
) -> None:
    content = os.urandom(3 << 20)
    path = tmp_path / "Harbour, The.PNG"
    path.write_bytes(content)
    kept = take_in(collection, picture, path)
    assert kept.name == sha256(content).hexdigest()[:20] + ".png"
    path.unlink()
    assert kept.read_bytes() == content


def test_the_true_format_may_be_told(
    collection: Collection, picture: Pictured, source: Path
) -> None:
    assert take_in(collection, picture, source, ".jpg").suffix == ".jpg"
    assert take_in(collection, picture, source, "JPEG").suffix == ".jpeg"


def test_the_same_picture_is_copied_once(
    collection: Collection, picture: Pictured, source: Path
) -> None:
    first = take_in(collection, picture, source)
    before = first.stat().st_ino
    other = source.with_name("b.png")
    other.write_bytes(source.read_bytes())
    assert take_in(collection, picture, other) == first
    assert first.stat().st_ino == before


@pytest.mark.parametrize("spoilt", [b"pict", b"PICTURE"])
def test_a_copy_that_is_damaged_is_made_again(
    collection: Collection, picture: Pictured, source: Path, spoilt: bytes
) -> None:
    kept = take_in(collection, picture, source)
    kept.write_bytes(spoilt)
    take_in(collection, picture, source)
    assert kept.read_bytes() == b"picture"


def test_files_and_their_folders_are_forced_to_the_disk_before_the_record_that_names_them(
    collection: Collection,
    source: Path,
    picture: Pictured,
    sheet: Callable[..., Sheet],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    forced: list[str] = []
    fsync = os.fsync

    def told(handle: int) -> None:
        forced.append(Path(f"/proc/self/fd/{handle}").readlink().name)
        fsync(handle)

    monkeypatch.setattr(os, "fsync", told)
    with collection.new_files() as files:
        name = files.picture(source)
        files.sheet_page(1, b"%PDF")
        files.cut_page(1, b"%PDF cuts")
        collection.record("all", pictures=[picture(name)], sheets=[sheet(1)], files=files)
    brought = {name, "sheet-0001.pdf", "sheet-0001-cuts.pdf"}
    assert set(forced[:3]) == brought
    assert forced[3:] == ["pictures", "sheets", ".collection.json.new", collection.folder.name]
    assert collection.picture_path(name).read_bytes() == b"picture"
    assert collection.sheet_path(1).read_bytes() == b"%PDF"


def nothing_recorded(collection: Collection, game: Makes) -> None:
    collection.record("the same again", games=[game("tide")])


def refused(collection: Collection, game: Makes) -> None:
    with pytest.raises(InputError):
        collection.record("wrong", games=[game("reef")], settings=Settings(patience=0))


def interrupted(collection: Collection, game: Makes) -> None:
    raise KeyboardInterrupt


@pytest.mark.parametrize("end", [nothing_recorded, refused, interrupted])
def test_files_of_a_change_that_is_not_recorded_are_removed(
    collection: Collection,
    game: Makes,
    picture: Pictured,
    source: Path,
    end: Callable[[Collection, Makes], None],
) -> None:
    collection.record("added", games=[game("tide")])
    known = take_in(collection, picture, source).name
    fresh = source.with_name("b.png")
    fresh.write_bytes(b"another picture")
    before = collection.games
    try:
        with collection.new_files() as files:
            assert files.picture(source) == known
            name = files.picture(fresh)
            files.font(fresh)
            files.sheet_page(7, b"%PDF")
            files.cut_page(7, b"%PDF")
            assert collection.picture_path(name).is_file(), "it can be opened before its record"
            end(collection, game)
    except KeyboardInterrupt:
        assert end is interrupted
    assert inside(collection) == [known]
    assert collection.games is before


def test_a_disk_that_refuses_the_record_keeps_no_file_of_it(
    collection: Collection, picture: Pictured, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fsync = os.fsync

    def full(handle: int) -> None:
        if Path(f"/proc/self/fd/{handle}").readlink().name == ".collection.json.new":
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        fsync(handle)

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CollectionError, match=r"the disk is full. Free some space"):
        take_in(collection, picture, source)
    assert inside(collection) == []
    assert dict(collection.pictures) == {}


def test_a_file_that_the_disk_refuses_is_named_and_nothing_recorded(
    collection: Collection, picture: Pictured, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CollectionError, match=r"pictures/\w+\.png: the disk is full"):
        take_in(collection, picture, source)
    assert inside(collection) == []


def test_what_was_recorded_stays_whatever_comes_after(
    collection: Collection, picture: Pictured, source: Path
) -> None:
    with collection.new_files() as files:
        name = files.picture(source)
        collection.record("took in", pictures=[picture(name)], files=files)
        files.sheet_page(1, b"%PDF")
    assert inside(collection) == [name]


def test_other_changes_wait_until_the_files_of_one_are_settled(
    collection: Collection, game: Makes, source: Path
) -> None:
    with collection.new_files() as files:
        files.font(source)
        other = Thread(target=collection.record, args=("added",), kwargs={"games": [game("reef")]})
        other.start()
        other.join(0.05)
        assert not collection.games
        collection.record("added", games=[game("tide")], files=files)
    other.join()
    assert list(collection.games) == ["tide", "reef"]


@pytest.mark.parametrize(
    ("make", "what"),
    [
        (lambda path: None, "there is no such file"),
        (lambda path: path.mkdir(), "this is no file"),
        (os.mkfifo, "this is no file"),
    ],
)
def test_what_is_no_file_is_not_taken_in(
    collection: Collection, tmp_path: Path, make: Callable[[Path], None], what: str
) -> None:
    path = tmp_path / "b.png"
    make(path)
    with collection.new_files() as files:
        with pytest.raises(PictureError, match=f"{what}. Give the picture's own path"):
            files.picture(path)
        with pytest.raises(FontError, match=f"{what}. Give the font's own path"):
            files.font(path)
    assert inside(collection) == []


def test_nothing_is_brought_into_a_collection_that_is_closed(collection: Collection) -> None:
    collection.close()
    with pytest.raises(ReadOnlyError):
        collection.new_files()
    with pytest.raises(ReadOnlyError):
        collection.keep_kind("tin", "")
    with pytest.raises(ReadOnlyError):
        collection.keep_trial("tin", b"")
