from __future__ import annotations

import os
import stat
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path

import msgspec
import pytest

from engine.collection import Collection
from engine.model import Game, Picture
from engine.model.errors import CollectionError, ReadOnlyError

Opens = Callable[[], Collection]
Makes = Callable[..., Game]


def test_a_collection_is_made_on_first_use_with_all_its_folders(
    tmp_path: Path, clock: Callable[[], datetime]
) -> None:
    with Collection.open(tmp_path / "new" / "shelf", now=clock) as collection:
        assert not collection.read_only
        assert not collection.notes
        found = {path.name for path in collection.folder.iterdir() if path.name[0] != "."}
    assert found == {"collection.json", "pictures", "fonts", "sheets", "cases", "backups"}


def test_a_second_program_opens_it_for_reading_and_says_so(
    collection: Collection, game: Makes, folder: Path
) -> None:
    collection.record("added", games=[game("tide")])
    code = (
        "import sys; from datetime import datetime, UTC; from pathlib import Path\n"
        "from engine.collection import Collection\n"
        "from engine.model.errors import ReadOnlyError\n"
        "c = Collection.open(Path(sys.argv[1]), now=lambda: datetime.now(UTC))\n"
        "print(c.read_only, list(c.games)); print(*c.notes)\n"
        "try: c.record('late', forget_games=['tide'])\n"
        "except ReadOnlyError as error: print(error)\n"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code, folder], capture_output=True, text=True, check=True
    )
    state, note, refusal = ran.stdout.splitlines()
    assert state == "True ['tide']"
    assert "open in another program, so nothing can be changed here" in note
    assert "the collection is open for reading only. Close it" in refusal
    assert list(collection.games) == ["tide"]


def test_the_same_program_gets_it_for_writing_once(collection: Collection, opens: Opens) -> None:
    second = opens()
    assert second.read_only
    with pytest.raises(ReadOnlyError):
        second.new_files()
    second.close()
    assert opens().read_only
    collection.close()
    assert not opens().read_only


def test_a_lock_that_a_death_left_holds_nobody_up(folder: Path, opens: Opens) -> None:
    code = (
        "import os, sys; from datetime import datetime, UTC; from pathlib import Path\n"
        "from engine.collection import Collection\n"
        "c = Collection.open(Path(sys.argv[1]), now=lambda: datetime.now(UTC))\n"
        "os.kill(os.getpid(), 9)\n"
    )
    assert subprocess.run([sys.executable, "-c", code, folder], check=False).returncode == -9
    assert not opens().read_only


def test_a_file_is_no_folder(tmp_path: Path, clock: Callable[[], datetime]) -> None:
    file = tmp_path / "list.csv"
    file.write_text("title\n")
    with pytest.raises(CollectionError) as told:
        Collection.open(file, now=clock)
    assert str(told.value) == f"{file}: this is a file. Name a folder."
    with pytest.raises(CollectionError, match=r"a part of this path is a file. Name a folder"):
        Collection.open(file / "shelf", now=clock)
    assert file.read_text() == "title\n"


@pytest.fixture
def locked_out() -> Iterator[Path]:
    """A folder in which this program may only read."""
    # pytest's own folders cannot be entered by anyone but their owner.
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o555)
    owner = os.geteuid()
    if owner == 0:  # the system refuses root nothing
        os.seteuid(65534)
    yield folder
    os.seteuid(owner)
    folder.chmod(0o755)
    for path in sorted(folder.rglob("*"), reverse=True):
        path.rmdir() if path.is_dir() else path.unlink()
    folder.rmdir()


def test_a_collection_cannot_be_made_where_nothing_may_be_written(
    locked_out: Path, clock: Callable[[], datetime]
) -> None:
    for folder in (locked_out, locked_out / "shelf"):
        with pytest.raises(CollectionError) as told:
            Collection.open(folder, now=clock)
        assert str(told.value) == (
            f"{folder}: it may not be written. Give yourself the right to write there."
        )
    assert not list(locked_out.iterdir())


def test_a_collection_that_may_not_be_written_opens_for_reading(
    locked_out: Path, clock: Callable[[], datetime], game: Makes
) -> None:
    nobody, owner = os.geteuid(), locked_out.stat().st_uid
    os.seteuid(owner)
    locked_out.chmod(0o755)
    with Collection.open(locked_out, now=clock) as collection:
        collection.record("added", games=[game("tide")])
    locked_out.chmod(stat.S_IREAD | stat.S_IEXEC | 0o055)
    os.seteuid(nobody)
    with Collection.open(locked_out, now=clock) as collection:
        assert collection.read_only
        assert collection.notes == (
            f"{locked_out}: it may not be written, so nothing can be changed here.",
        )
        assert list(collection.games) == ["tide"]


def spoilt(opens: Opens, game: Makes) -> Path:
    """A collection opened twice, so that it has a backup; return its file."""
    first = opens()
    first.record("added", games=[game("tide"), game("quay")])
    first.close()
    second = opens()
    second.record("renamed", games=[game("tide", "Reef")])
    second.close()
    return second.folder / "collection.json"


CUT_SHORT = "damaged at line "


@pytest.mark.parametrize(
    ("spoil", "what"),
    [
        (lambda data: data[: len(data) // 2], CUT_SHORT),
        (lambda data: b"", "the file is empty"),
        (lambda data: bytes(len(data)), "the file is empty"),
        (lambda data: b"[1, 2]", "the file is not a collection"),
        (lambda data: b'{"games": 3}', "the file is not a collection"),
        (lambda data: b"\xff\xfe" + data, CUT_SHORT),
        (lambda data: b"{}", "meta, row 1, field schema: a number from 1 is expected"),
        (lambda data: data.replace(b'"title": "Reef"', b'"title": 7'), "a record cannot be read: "),
        (lambda data: data.replace(b'"games"', b'"gamez"'), "gamez: no such table"),
    ],
)
def test_a_damaged_collection_is_left_as_it_is_and_the_backup_offered(
    opens: Opens, game: Makes, spoil: Callable[[bytes], bytes], what: str
) -> None:
    file = spoilt(opens, game)
    damaged = spoil(file.read_bytes())
    file.write_bytes(damaged)
    backup = next((file.parent / "backups").iterdir())
    for _ in range(2):
        with pytest.raises(CollectionError) as told:
            opens()
        assert str(told.value).startswith(f"{file}: ")
        assert what in str(told.value)
        assert str(told.value).endswith(
            f". It was left as it is. spinery restore --collection {file.parent} goes back to the "
            "newest good backup (2026-03-01 12:02 UTC)."
        )
        assert file.read_bytes() == damaged
    file.write_bytes(backup.read_bytes())
    assert opens().games["tide"].title == "Tide"


def test_every_fault_of_a_damaged_collection_is_named(opens: Opens, game: Makes) -> None:
    file = spoilt(opens, game)
    raw = msgspec.json.decode(file.read_bytes())
    del raw["games"]["1"]["title"]
    raw["games"]["2"]["added_at"] = "yesterday"
    file.write_bytes(msgspec.json.encode(raw))
    with pytest.raises(CollectionError) as told:
        opens()
    assert told.value.what == (
        "2 records cannot be read: games, row 1 (tide), field title: missing; "
        "games, row 2 (quay), field added_at: no time as ISO 8601 writes it"
    )


def test_a_collection_whose_file_is_gone_is_not_begun_anew(opens: Opens, game: Makes) -> None:
    file = spoilt(opens, game)
    file.unlink()
    with pytest.raises(CollectionError, match=r"the file is gone\. .* newest good backup"):
        opens()
    assert not file.exists()


def test_a_refused_opening_gives_the_lock_back(opens: Opens, game: Makes) -> None:
    file = spoilt(opens, game)
    whole = file.read_bytes()
    file.write_bytes(b"{")
    with pytest.raises(CollectionError):
        opens()
    file.write_bytes(whole)
    assert not opens().read_only


def test_what_a_death_left_unfinished_is_cleared_away(
    collection: Collection, opens: Opens, picture: Callable[[str], Picture]
) -> None:
    collection.close()
    names = (".collection.json.new", "pictures/.a.png.new", "sheets/.sheet-0001.pdf.new")
    left = [collection.folder / name for name in names]
    for path in left:
        path.write_bytes(b"half")
    assert opens().check() == ()
    assert not any(path.exists() for path in left)
