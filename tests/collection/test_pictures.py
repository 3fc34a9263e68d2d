from __future__ import annotations

import errno
import os
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest

from engine.collection import Collection
from engine.model import Picture
from engine.model.errors import CollectionError, PictureError


def test_a_picture_is_named_by_what_it_holds(collection: Collection, tmp_path: Path) -> None:
    content = os.urandom(3 << 20)
    source = tmp_path / "Harbour, The.PNG"
    source.write_bytes(content)
    name = collection.add_picture(source)
    assert name == sha256(content).hexdigest()[:20] + ".png"
    assert collection.picture_path(name).read_bytes() == content
    source.unlink()
    assert collection.picture_path(name).read_bytes() == content


def test_the_true_format_may_be_told(collection: Collection, tmp_path: Path) -> None:
    source = tmp_path / "scan.png"
    source.write_bytes(b"a JPEG with the wrong name")
    assert collection.add_picture(source, ".jpg").endswith(".jpg")
    assert collection.add_picture(source, "JPEG").endswith(".jpeg")


def test_the_same_picture_is_copied_once(collection: Collection, tmp_path: Path) -> None:
    for name in ("a.png", "b.png"):
        (tmp_path / name).write_bytes(b"the same")
    first = collection.add_picture(tmp_path / "a.png")
    before = collection.picture_path(first).stat().st_ino
    assert collection.add_picture(tmp_path / "b.png") == first
    assert collection.picture_path(first).stat().st_ino == before


def test_a_copy_that_was_cut_short_is_made_again(collection: Collection, tmp_path: Path) -> None:
    source = tmp_path / "a.png"
    source.write_bytes(b"the whole of it")
    name = collection.add_picture(source)
    collection.picture_path(name).write_bytes(b"the")
    assert collection.add_picture(source) == name
    assert collection.picture_path(name).read_bytes() == b"the whole of it"


def test_the_folder_is_forced_to_the_disk_before_the_record_that_names_the_picture(
    collection: Collection,
    tmp_path: Path,
    picture: Callable[[str], Picture],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    source = tmp_path / "a.png"
    source.write_bytes(b"picture")
    forced: list[str] = []
    fsync = os.fsync

    def told(handle: int) -> None:
        forced.append(Path(f"/proc/self/fd/{handle}").readlink().name)
        fsync(handle)

    monkeypatch.setattr(os, "fsync", told)
    name = collection.add_picture(source)
    collection.record("took in", pictures=[picture(name)])
    assert forced.index("pictures") < forced.index(".collection.json.new")


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
    make(tmp_path / "a.png")
    with pytest.raises(PictureError, match=what):
        collection.add_picture(tmp_path / "a.png")
    assert not list((collection.folder / "pictures").iterdir())


def test_a_full_disk_leaves_no_half_picture(
    collection: Collection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    source = tmp_path / "a.png"
    source.write_bytes(b"picture")
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CollectionError, match=r"the disk is full. Free some space"):
        collection.add_picture(source)
    assert not list((collection.folder / "pictures").iterdir())
