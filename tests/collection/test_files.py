"""Files are replaced as a whole: POSIX.1-2017, rename(), says that a name that is replaced
'shall remain visible to other processes throughout'; fsync() that data is on the device."""

from __future__ import annotations

import errno
import os
import resource
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from engine.collection.files import (
    force,
    not_written,
    unfinished,
    unfinished_in,
    write_out,
    write_whole,
)
from engine.model.errors import CollectionError, InputError

Told = list[str]


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> Told:
    """Records what is forced to the disk and renamed, in order."""
    events: Told = []
    fsync, replace = os.fsync, Path.replace

    def told_fsync(handle: int) -> None:
        events.append(f"forced {Path(f'/proc/self/fd/{handle}').readlink().name}")
        fsync(handle)

    def told_replace(path: Path, target: Path) -> Path:
        events.append(f"renamed {path.name} to {target.name}")
        return replace(path, target)

    monkeypatch.setattr(os, "fsync", told_fsync)
    monkeypatch.setattr(Path, "replace", told_replace)
    return events


def test_the_file_is_on_the_disk_before_it_takes_the_name_and_the_name_before_it_returns(
    tmp_path: Path, told: Told
) -> None:
    write_whole(tmp_path / "a.json", [b"one", b"two"])
    assert (tmp_path / "a.json").read_bytes() == b"onetwo"
    assert told == [
        "forced .a.json.new",
        "renamed .a.json.new to a.json",
        f"forced {tmp_path.name}",
    ]


def test_files_may_be_forced_together_with_their_folders_after_them(
    tmp_path: Path, told: Told
) -> None:
    paths = [tmp_path / f"{place}/{n}" for place in ("one", "two") for n in range(12)]
    for path in paths:
        path.parent.mkdir(exist_ok=True)
        write_whole(path, [b"a", b"b"], forced=False)
    assert not [event for event in told if event.startswith("forced")]
    told.clear()
    force(paths)
    assert sorted(told[:-2]) == sorted(f"forced {path.name}" for path in paths)
    assert told[-2:] == ["forced one", "forced two"]
    force([])
    with pytest.raises(CollectionError, match="two/gone: it is gone, or its folder is"):
        force([tmp_path / "two" / "gone"])


class Died(BaseException):
    """The program ends here."""


@pytest.fixture
def dying(monkeypatch: pytest.MonkeyPatch) -> Callable[[int], None]:
    """Lets the program die at the n-th step of writing, counted from 1."""
    left = [0]

    def step() -> None:
        left[0] -= 1
        if left[0] == 0:
            raise Died

    def dies_first(name: str, owner: object) -> None:
        real = getattr(owner, name)

        def call(*args: object) -> object:
            step()
            return real(*args)

        monkeypatch.setattr(owner, name, call)

    dies_first("fsync", os)
    dies_first("replace", Path)
    dies_first("close", os)

    def at(number: int) -> None:
        left[0] = number

    return at


@pytest.mark.parametrize("step", range(1, 5))
def test_a_death_at_any_step_leaves_the_old_or_the_new(
    tmp_path: Path, dying: Callable[[int], None], step: int
) -> None:
    file = tmp_path / "a.json"
    write_whole(file, [b"old"])
    dying(step)
    with pytest.raises(Died):
        write_whole(file, [b"new"])
    assert file.read_bytes() == (b"old" if step <= 2 else b"new")


@pytest.mark.parametrize("pieces", range(4))
def test_a_death_between_pieces_leaves_the_old(tmp_path: Path, pieces: int) -> None:
    def dies_after() -> Iterator[bytes]:
        yield from [b"new"] * pieces
        raise Died

    file = tmp_path / "a.json"
    write_whole(file, [b"old"])
    with pytest.raises(Died):
        write_whole(file, dies_after())
    assert file.read_bytes() == b"old"
    assert unfinished_in(tmp_path) == [unfinished(file)]


def test_a_refusal_leaves_the_old_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.json"
    write_whole(file, [b"old"])

    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_whole(file, [b"new"])
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]
    assert file.read_bytes() == b"old"


@pytest.fixture
def small_files() -> Iterator[None]:
    """The system itself refuses files of more than 4 kB, as it does when a disk is full."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (4096, hard))
    yield
    resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_a_system_that_writes_only_a_part_leaves_the_old(tmp_path: Path, small_files: None) -> None:
    file = tmp_path / "a.json"
    write_whole(file, [b"old"])
    with pytest.raises(OSError, match="File too large"):
        write_whole(file, [b"x" * 3000] * 4)
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]
    assert file.read_bytes() == b"old"


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "the disk is full. Free some space and do it again"),
        (errno.EACCES, "it may not be written. Give yourself the right to write there"),
        (errno.EROFS, "the disk may only be read. Copy the folder to one that can be written"),
        (errno.EIO, "it could not be written (input/output error). See to the disk"),
    ],
)
def test_a_refusal_is_told_in_a_sentence(number: int, words: str) -> None:
    said = str(not_written(Path("/shelf/collection.json"), OSError(number, os.strerror(number))))
    assert said.startswith(f"/shelf/collection.json: {words}")
    assert said.endswith("; what was saved is unharmed.")


def test_a_file_asked_for_outside_is_written_whole(tmp_path: Path, told: Told) -> None:
    write_out(tmp_path / "net.svg", b"<!-- Spinery --> old")
    write_out(tmp_path / "net.svg", b"new")
    assert (tmp_path / "net.svg").read_bytes() == b"new"
    assert told[0] == "forced .net.svg.new"
    assert [path.name for path in tmp_path.iterdir()] == ["net.svg"]


def test_a_file_of_others_is_written_over_only_when_told_to(tmp_path: Path) -> None:
    path = tmp_path / "letter.pdf"
    path.write_bytes(b"%PDF-1.7 a letter to the bank")
    with pytest.raises(InputError, match="Spinery did not make it"):
        write_out(path, b"new")
    assert path.read_bytes().endswith(b"bank")
    write_out(path, b"new", replace=True)
    assert path.read_bytes() == b"new"


@pytest.mark.parametrize(
    ("make", "what"),
    [
        (lambda path: path.mkdir(), "is a folder. Give the name of a file"),
        (os.mkfifo, "is no file. Give the name of a file"),
        (
            lambda path: path.parent.rmdir(),
            r"cannot be written \(no such file or directory\)\. Give a folder",
        ),
    ],
)
def test_what_cannot_be_written_outside_is_told(
    tmp_path: Path, make: Callable[[Path], None], what: str
) -> None:
    path = tmp_path / "out" / "net.svg"
    path.parent.mkdir()
    make(path)
    with pytest.raises(InputError, match=rf"net\.svg: {what}"):
        write_out(path, b"new")
