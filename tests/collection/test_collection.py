from __future__ import annotations

import errno
import os
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

import engine.collection.collection as room
from engine.collection import Collection
from engine.collection.storage import AtomicStorage, Raw
from engine.model import Game, Picture, Sheet
from engine.model.errors import CollectionError, ReadOnlyError
from engine.model.settings import Settings
from engine.model.stocks import STOCKS

Opens = Callable[[], Collection]
Makes = Callable[..., Game]


def test_what_was_recorded_is_there_at_the_next_opening(
    collection: Collection,
    opens: Opens,
    game: Makes,
    sheet: Callable[..., Sheet],
    picture: Callable[[str], Picture],
) -> None:
    shelf = Settings(stock=STOCKS["letter-card"], batch=("tide",))
    tide = game("tide", notes="Two lines\nof notes", extra={"Shelf": "B2"})
    collection.record(
        "everything", games=[tide], sheets=[sheet(1, "tide")], pictures=[picture("a.png")],
        settings=shelf,
    )  # fmt: skip
    collection.close()
    again = opens()
    assert again.games == {"tide": tide}
    assert again.sheets == {1: sheet(1, "tide")}
    assert again.pictures == {"a.png": picture("a.png")}
    assert again.settings == shelf
    assert [deed.words for deed in again.deeds] == ["everything"]


def test_games_keep_the_order_of_the_list(collection: Collection, game: Makes) -> None:
    collection.record("first", games=map(game, "dba"))
    collection.record("changed", games=[game("b", "Another"), game("c")])
    assert list(collection.games) == ["d", "b", "a", "c"]
    collection.record("gone", forget_games=["b"])
    collection.undo()
    assert list(collection.games) == ["d", "b", "a", "c"]


def test_a_snapshot_stays_as_it_was_taken(collection: Collection, game: Makes) -> None:
    before = collection.games
    collection.record("added", games=[game("tide")])
    assert dict(before) == {}
    with pytest.raises(TypeError):
        before["tide"] = game("tide")  # type: ignore[index]


def test_undo_takes_back_the_last_deed_whatever_it_was(
    collection: Collection, opens: Opens, game: Makes, sheet: Callable[..., Sheet]
) -> None:
    collection.record("added", games=[game("tide"), game("reef")])
    collection.record("pressed", sheets=[sheet(1, "tide")], games=[game("tide", "Changed")])
    collection.record("set up", settings=Settings(threshold=0.9))
    collection.record("forgot", forget_games=["reef"], forget_sheets=[1])
    collection.close()
    again = opens()
    assert again.undo() == "forgot"
    assert (list(again.games), list(again.sheets)) == (["tide", "reef"], [1])
    assert again.undo() == "set up"
    assert again.settings == Settings()
    assert again.undo() == "pressed"
    assert again.games["tide"].title == "Tide"
    assert not again.sheets
    assert again.undo() == "added"
    assert not again.games
    assert again.undo() is None


def test_nothing_changed_is_no_deed(collection: Collection, game: Makes) -> None:
    collection.record("added", games=[game("tide")])
    collection.record("the same again", games=[game("tide")], forget_games=["never was"])
    assert collection.undo() == "added"


def test_old_deeds_make_room_but_the_last_can_always_be_undone(
    collection: Collection, game: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(room, "DEEDS_KEPT", 4)
    monkeypatch.setattr(room, "IMAGES_KEPT", 3)
    collection.record("added", games=map(game, "abcdef"))
    for words in ("one", "two", "three", "four"):
        collection.record(words, games=[game("a", words)])
    assert [deed.words for deed in collection.deeds] == ["two", "three", "four"]
    collection.record("all", games=[game(each, "All") for each in "abcdef"])
    assert [deed.words for deed in collection.deeds] == ["all"]
    assert collection.undo() == "all"
    assert collection.games["a"].title == "four"


def test_a_deed_that_the_disk_refuses_did_not_happen(
    folder: Path, clock: Callable[[], datetime], game: Makes
) -> None:
    class Full(AtomicStorage):
        full = False

        def write(self, data: Raw) -> None:
            if self.full:
                error = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
                raise CollectionError(str(self.path), "the disk is full") from error
            super().write(data)

    with Collection.open(folder, now=clock, storage=Full) as collection:
        collection.record("added", games=[game("tide")])
        Full.full = True
        with pytest.raises(CollectionError, match="the disk is full"):
            collection.record("renamed", games=[game("tide", "Reef")])
        with pytest.raises(CollectionError, match="the disk is full"):
            collection.undo()
        assert collection.games == {"tide": game("tide")}
        Full.full = False
        collection.record("added another", games=[game("reef")])
    with Collection.open(folder, now=clock) as again:
        assert list(again.games) == ["tide", "reef"]
        assert [deed.words for deed in again.deeds] == ["added", "added another"]
        assert again.games["tide"].title == "Tide"


def test_a_system_that_refuses_is_told_in_a_sentence(
    collection: Collection, game: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CollectionError) as told:
        collection.record("added", games=[game("tide")])
    assert str(told.value) == (
        f"{collection.folder / 'collection.json'}: the disk is full. "
        "Free some space and do it again; what was saved is unharmed."
    )


def test_nothing_is_written_after_closing(collection: Collection, game: Makes) -> None:
    collection.close()
    with pytest.raises(ReadOnlyError, match="open for reading only"):
        collection.record("late", games=[game("tide")])
    with pytest.raises(ReadOnlyError):
        collection.undo()


def test_deeds_from_several_threads_all_come_through(
    collection: Collection, opens: Opens, game: Makes
) -> None:
    def work(name: str) -> None:
        for number in range(10):
            collection.record(f"{name}{number}", games=[game(f"{name}{number}")])

    threads = [Thread(target=work, args=(name,)) for name in "abc"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    collection.close()
    assert set(opens().games) == {f"{name}{number}" for name in "abc" for number in range(10)}


@pytest.mark.parametrize("name", ["../collection.json", "a/b.png", "..", ""])
def test_a_picture_lies_nowhere_but_in_its_folder(collection: Collection, name: str) -> None:
    with pytest.raises(CollectionError, match="no name of a picture"):
        collection.picture_path(name)


def test_sheets_have_names_that_sort(collection: Collection) -> None:
    names = [collection.sheet_path(number).name for number in (2, 10, 300)]
    assert names == sorted(names)


class Remembering(RuleBasedStateMachine):
    """Deeds, undoing and opening again, against a list of everything that ever was."""

    ids = st.sampled_from(["tide", "reef", "quay", "buoy"])

    @initialize()
    def begin(self) -> None:
        self.states: list[dict[str, str]] = [{}]

    def open_at(self, folder: Path) -> None:
        self.folder = folder
        self.collection = Collection.open(folder, now=lambda: datetime(2026, 3, 1, tzinfo=UTC))

    @rule(changes=st.dictionaries(ids, st.sampled_from("ABC"), min_size=1), gone=st.sets(ids))
    def record(self, changes: dict[str, str], gone: set[str]) -> None:
        added = datetime(2026, 3, 1, tzinfo=UTC)
        gone = gone - set(changes)
        self.collection.record(
            "changed",
            games=[Game(name, title, added) for name, title in changes.items()],
            forget_games=gone,
        )
        kept = {name: title for name, title in self.states[-1].items() if name not in gone}
        if (new := kept | changes) != self.states[-1]:
            self.states.append(new)

    @rule()
    def undo(self) -> None:
        said = self.collection.undo()
        if len(self.states) > 1:
            self.states.pop()
            assert said == "changed"
        else:
            assert said is None

    @rule()
    def open_again(self) -> None:
        self.collection.close()
        self.open_at(self.folder)

    @invariant()
    def nothing_is_lost(self) -> None:
        titles = {name: each.title for name, each in self.collection.games.items()}
        assert titles == self.states[-1]

    def teardown(self) -> None:
        self.collection.close()


def test_deeds_and_undoing_in_any_order(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "fsync", lambda handle: None)  # what a test wrote may be lost

    class InAFolder(Remembering):
        def __init__(self) -> None:
            super().__init__()
            self.open_at(tmp_path_factory.mktemp("collection"))

    InAFolder.TestCase.settings = settings(
        max_examples=25,
        stateful_step_count=12,
        deadline=None,
        suppress_health_check=list(HealthCheck),
    )
    InAFolder.TestCase("runTest").runTest()
