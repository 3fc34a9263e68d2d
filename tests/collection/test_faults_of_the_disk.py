"""What the disk does to a collection that is open, and what is said of it.

The errors are those of POSIX.1-2017 for write(), fsync(), rename() and mkdir(), and ENOLCK of
flock(2) on Linux.
"""

from __future__ import annotations

import errno
import fcntl
import json
import os
import shutil
import sys
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from engine.collection import Collection, backups, files
from engine.model import Game, Picture
from engine.model.errors import (
    ChangedError,
    CollectionError,
    ReadOnlyError,
    UnconfirmedError,
)

Opens = Callable[[], Collection]
Makes = Callable[..., Game]
Pictured = Callable[[str], Picture]


def refuse(number: int) -> Callable[..., None]:
    def call(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    return call


def test_what_the_disk_does_not_confirm_is_done_and_said_to_be(
    collection: Collection, opens: Opens, game: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(files, "force_folder", refuse(errno.EIO))
        edits = collection.record("added", games=[game("tide")])
    assert edits is not None
    assert isinstance(edits.doubt, UnconfirmedError)
    assert "this is done and written, but the disk did not confirm it (input/output error)" in str(
        edits.doubt
    )
    assert list(collection.games) == ["tide"]
    collection.record("added", games=[game("reef")])
    collection.close()
    assert list(opens().games) == ["tide", "reef"]


def test_a_disk_that_forces_no_folders_is_not_in_doubt(
    collection: Collection, game: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    fsync = os.fsync

    def files_only(handle: int) -> None:
        if Path(f"/proc/self/fd/{handle}").readlink().is_dir():
            refuse(errno.EINVAL)()
        fsync(handle)

    monkeypatch.setattr(os, "fsync", files_only)
    edits = collection.record("added", games=[game("tide")])
    assert edits is not None
    assert edits.doubt is None


def test_a_folder_that_is_gone_is_told_and_not_made_anew(
    collection: Collection, game: Makes
) -> None:
    collection.record("added", games=[game("tide")])
    away = collection.folder.rename(collection.folder.with_name("pulled"))
    for _ in range(2):
        with pytest.raises(CollectionError, match=r"gone, or its folder is\. Bring it back"):
            collection.record("added", games=[game("reef")])
    assert not collection.folder.exists()
    assert list(collection.games) == ["tide"]
    away.rename(collection.folder)
    collection.record("added", games=[game("reef")])
    assert list(collection.games) == ["tide", "reef"]


@pytest.fixture
def elsewhere(collection: Collection, game: Makes, tmp_path: Path) -> Collection:
    """A collection whose file another computer changed while it is open here."""
    collection.record("added", games=[game("tide")])
    copy = tmp_path / "copy"
    shutil.copytree(collection.folder, copy)
    with Collection.open(copy, now=lambda: datetime.fromisoformat("2026-03-01T00:00Z")) as other:
        other.record("added there", games=[game("reef")])
    (copy / "collection.json").replace(collection.folder / "collection.json")
    return collection


def test_a_file_that_was_changed_underneath_is_noticed_and_both_are_kept(
    elsewhere: Collection, opens: Opens, game: Makes, picture: Pictured, tmp_path: Path
) -> None:
    source = tmp_path / "a.png"
    source.write_bytes(b"picture")
    theirs = (elsewhere.folder / "collection.json").read_bytes()
    with pytest.raises(ChangedError) as told:
        take_in(elsewhere, picture, source)
    assert "another program or another computer changed the file" in str(told.value)
    assert (elsewhere.folder / "collection.json").read_bytes() == theirs
    (mine,) = backups.asides(elsewhere.folder)
    with pytest.raises(ReadOnlyError):
        elsewhere.record("here", games=[game("quay")])
    assert elsewhere.go_on()
    assert list(elsewhere.games) == ["tide", "reef"]
    elsewhere.close()
    (elsewhere.folder / "collection.json").write_bytes(mine.read_bytes())
    again = opens()
    assert list(again.games) == ["tide"]
    (name,) = again.pictures
    assert again.picture_path(name).read_bytes() == b"picture"


def test_a_file_that_was_only_copied_or_touched_is_as_good_as_left_alone(
    collection: Collection, game: Makes
) -> None:
    collection.record("added", games=[game("tide")])
    file = collection.folder / "collection.json"
    shutil.copy(file, file.with_name("copy"))
    file.with_name("copy").replace(file)
    assert collection.record("added", games=[game("reef")]) is not None
    assert not backups.asides(collection.folder)


def test_a_file_that_a_newer_program_wrote_is_left_though_no_record_differs(
    collection: Collection, game: Makes
) -> None:
    file = collection.folder / "collection.json"
    whole = json.loads(file.read_bytes())
    whole["meta"]["1"]["schema"] += 1
    file.write_text(json.dumps(whole), "utf-8")
    theirs = file.read_bytes()
    with pytest.raises(ChangedError):
        collection.record("added", games=[game("tide")])
    assert file.read_bytes() == theirs


def test_a_second_program_goes_on_when_the_first_has_ended(
    collection: Collection, opens: Opens, game: Makes
) -> None:
    second = opens()
    assert second.may_go_on
    assert not second.go_on()
    collection.record("added", games=[game("tide")])
    collection.close()
    assert second.go_on()
    assert list(second.games) == ["tide"]
    second.record("added", games=[game("reef")])
    second.close()
    assert not second.go_on(), "what is closed stays closed"


@pytest.mark.skipif(sys.platform == "win32", reason="flock is of POSIX systems")
@pytest.mark.parametrize(
    ("number", "words"),
    [(errno.ENOSPC, "the disk is full"), (errno.ENOLCK, "no locks available")],
)
def test_a_lock_that_cannot_be_had_is_no_other_program(
    collection: Collection,
    opens: Opens,
    monkeypatch: pytest.MonkeyPatch,
    number: int,
    words: str,
) -> None:
    collection.close()
    monkeypatch.setattr(fcntl, "flock", refuse(number))
    again = opens()
    monkeypatch.undo()
    assert again.read_only
    assert not again.may_go_on
    assert words in again.notes[0]
    assert "another program" not in again.notes[0]


class Stopped(KeyboardInterrupt):
    """Control-C."""


@pytest.fixture
def stopping(monkeypatch: pytest.MonkeyPatch) -> Callable[[int], None]:
    """Interrupt after the n-th step of writing, counted from 1."""
    left = [0]

    def interrupt_after(owner: object, name: str) -> None:
        real = getattr(owner, name)

        def call(*args: object) -> object:
            found = real(*args)
            left[0] -= 1
            if left[0] == 0:
                raise Stopped
            return found

        monkeypatch.setattr(owner, name, call)

    interrupt_after(os, "fsync")
    interrupt_after(Path, "replace")
    return lambda number: left.__setitem__(0, number)


def test_control_c_at_any_step_takes_no_picture_from_a_record(
    collection: Collection,
    opens: Opens,
    picture: Pictured,
    tmp_path: Path,
    stopping: Callable[[int], None],
) -> None:
    """Six steps: the picture's name, its content, its folder; the file, its name, its folder."""
    for number in range(1, 7):
        source = tmp_path / "a.png"
        source.write_bytes(b"%d" % number)
        stopping(number)
        with pytest.raises(Stopped):
            take_in(collection, picture, source)
        collection.close()
        collection = opens()
        assert collection.check() == ()
    assert len(collection.pictures) == 2


def take_in(collection: Collection, picture: Pictured, source: Path) -> None:
    with collection.new_files() as brought:
        name = brought.picture(source)
        collection.record("took in", pictures=[picture(name)], files=brought)
