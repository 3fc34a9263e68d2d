"""What a killed program left goes to the backups, and comes back as soon as a record names it."""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import msgspec
import pytest

from engine.collection import Collection
from engine.model import FontRef, Game, Match, Picture, Printed, Sheet
from engine.model.settings import Lettering, Settings

Opens = Callable[[], Collection]
Makes = Callable[..., Game]
NAME = "0123456789abcdef0123"


def lay(path: Path) -> Path:
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(path.name.encode())
    return path


@pytest.mark.parametrize("place", ["pictures", "fonts"])
def test_what_no_record_knows_is_put_away_and_comes_back_with_its_record(
    collection: Collection, opens: Opens, picture: Callable[[str], Picture], place: str
) -> None:
    collection.close()
    stray = lay(collection.folder / place / f"{NAME}.x")
    own = lay(collection.folder / place / "mine.x")
    again = opens()
    kept = collection.folder / "backups" / place / stray.name
    assert not stray.exists()
    assert kept.exists()
    assert own.exists(), "what a person put there is theirs"
    if place == "pictures":
        again.record("took in", pictures=[picture(stray.name)])
    else:
        font = FontRef(stray.name)
        again.record("set", settings=Settings(lettering=Lettering(font=font)))
    again.close()
    assert opens().folder
    assert stray.exists()
    assert not kept.exists()


def test_what_undo_can_bring_back_stays(
    collection: Collection, opens: Opens, picture: Callable[[str], Picture], game: Makes
) -> None:
    file = lay(collection.folder / "pictures" / NAME)
    collection.record("took in", pictures=[picture(NAME)], games=[game("a", match=Match(NAME, 1))])
    collection.record("forgot", forget_pictures=[NAME], games=[game("a")])
    collection.close()
    opens()
    assert file.exists()


def test_another_page_of_that_number_does_not_come_back(
    collection: Collection, opens: Opens, sheet: Callable[..., Sheet]
) -> None:
    """A killed pressing's page would print what its later namesake does not hold."""
    pages = {name: collection.folder / name / "sheet-0001.pdf" for name in ("sheets", "backups")}
    very = msgspec.structs.replace(
        sheet(1, "tide"), printed=Printed((), {}, sha256(b"very").hexdigest())
    )
    collection.record("pressed", sheets=[very])
    for page, comes_back in ((b"other", False), (b"very", True)):
        pages["backups"].write_bytes(page)
        collection.close()
        collection = opens()
        assert pages["sheets"].exists() is comes_back


def test_half_written_files_go_wherever_they_lie(collection: Collection, opens: Opens) -> None:
    collection.close()
    halves = [lay(collection.folder / p / ".a.new") for p in ("", "pictures", "sheets", "backups")]
    assert opens().check() == ()
    assert not any(half.exists() for half in halves)
