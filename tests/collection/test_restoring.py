"""Going back: the newest state that can be read, and nothing overwritten on the way."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from engine.collection import Collection, backups
from engine.collection.restoring import copies, restore
from engine.model import Game
from engine.model.errors import CollectionError, DamagedError, InputError, RefusedError

Opens = Callable[[], Collection]
Makes = Callable[..., Game]
Now = Callable[[], datetime]


@pytest.fixture
def thrice(opens: Opens, game: Makes) -> Path:
    """The file of a collection of three games, with backups of one and two."""
    for name in ("tide", "reef", "quay"):
        collection = opens()
        collection.record("added", games=[game(name)])
        collection.close()
    return collection.folder / "collection.json"


def test_a_damaged_file_goes_back_to_the_newest_good_backup_and_is_kept(
    thrice: Path, opens: Opens, clock: Now
) -> None:
    thrice.write_bytes(b'{"games": {')
    newest = backups.backups(thrice.parent)[0]
    newest.write_bytes(b"")
    with pytest.raises(DamagedError, match="spinery restore --collection"):
        opens()
    done = restore(thrice.parent, "", clock)
    assert (done.games, done.backup) == (1, backups.backups(thrice.parent)[1].name)
    assert done.aside is not None
    assert (thrice.parent / "backups" / done.aside).read_bytes() == b'{"games": {'
    listed = copies(thrice.parent)
    assert [(one.games, one.aside) for one in listed] == [(None, True), (None, False), (1, False)]
    assert list(opens().games) == ["tide"]


def test_going_back_can_be_taken_back(thrice: Path, opens: Opens, clock: Now) -> None:
    before = thrice.read_bytes()
    done = restore(thrice.parent, backups.backups(thrice.parent)[-1].name, clock)
    assert done.aside is not None
    restore(thrice.parent, done.aside, clock)
    assert thrice.read_bytes() == before
    assert len(backups.asides(thrice.parent)) == 2
    assert list(opens().games) == ["tide", "reef", "quay"]


def test_nothing_is_gone_back_to_under_a_program_that_writes(
    thrice: Path, opens: Opens, clock: Now
) -> None:
    opens()
    with pytest.raises(CollectionError, match="open in another program"):
        restore(thrice.parent, "", clock)


def test_what_cannot_be_gone_back_to_is_told(thrice: Path, clock: Now) -> None:
    with pytest.raises(InputError, match="no backup of that name"):
        restore(thrice.parent, "../collection.json", clock)
    copy = backups.backups(thrice.parent)[0]
    copy.write_bytes(b"half")
    with pytest.raises(InputError, match="this backup cannot be read"):
        restore(thrice.parent, copy.name, clock)
    for path in backups.backups(thrice.parent):
        path.unlink()
    with pytest.raises(RefusedError, match="no backup is there"):
        restore(thrice.parent, "", clock)
