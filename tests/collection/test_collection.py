from __future__ import annotations

import errno
import json
import os
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from engine.collection import Collection, Edit, history
from engine.model import Game, Picture, Sheet
from engine.model.errors import CollectionError, InputError, ReadOnlyError
from engine.model.settings import Settings
from engine.model.stocks import STOCKS

Opens = Callable[[], Collection]
Makes = Callable[..., Game]


def words(collection: Collection) -> list[str]:
    """Return what the changes are called that the file says can be undone."""
    raw = json.loads((collection.folder / "collection.json").read_text("utf-8"))
    return [change["words"] for change in raw["history"].values()]


def undone(collection: Collection) -> str | None:
    """Undo; return what the change was called that was undone."""
    edits = collection.undo()
    return edits and edits.words


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
    assert words(again) == ["everything"]


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


def test_undo_takes_back_the_last_change_whatever_it_was(
    collection: Collection, opens: Opens, game: Makes, sheet: Callable[..., Sheet]
) -> None:
    collection.record("added", games=[game("tide"), game("reef")])
    collection.record("pressed", sheets=[sheet(1, "tide")], games=[game("tide", "Changed")])
    collection.record("set up", settings=Settings(threshold=0.9))
    collection.record("forgot", forget_games=["reef"], forget_sheets=[1])
    collection.close()
    again = opens()
    assert undone(again) == "forgot"
    assert (list(again.games), list(again.sheets)) == (["tide", "reef"], [1])
    assert undone(again) == "set up"
    assert again.settings == Settings()
    assert undone(again) == "pressed"
    assert again.games["tide"].title == "Tide"
    assert not again.sheets
    assert undone(again) == "added"
    assert not again.games
    assert again.undo() is None


def test_a_change_tells_what_became_of_each_record(
    collection: Collection,
    game: Makes,
    sheet: Callable[..., Sheet],
    picture: Callable[[str], Picture],
) -> None:
    added = collection.record("added", games=[game("tide"), game("reef")])
    assert added is not None
    assert added.games == {"tide": Edit(None, game("tide")), "reef": Edit(None, game("reef"))}
    assert not added.sheets
    assert not added.pictures
    assert added.settings is None
    changed = collection.record(
        "changed",
        games=[game("tide"), game("reef", "Quay"), game("buoy")],
        sheets=[sheet(1)],
        pictures=[picture("a.png")],
        settings=Settings(threshold=0.5),
        forget_games=["tide", "never was"],
    )
    assert changed is not None
    assert changed.words == "changed"
    assert changed.games == {
        "reef": Edit(game("reef"), game("reef", "Quay")),
        "buoy": Edit(None, game("buoy")),
    }, "what is forgotten and given anew is changed, and not at all where it is the same"
    assert changed.sheets == {1: Edit(None, sheet(1))}
    assert changed.pictures == {"a.png": Edit(None, picture("a.png"))}
    assert changed.settings == Edit(Settings(), Settings(threshold=0.5))
    back = collection.undo()
    assert back is not None
    for what in ("games", "sheets", "pictures"):
        there, and_back = getattr(changed, what), getattr(back, what)
        assert and_back == {key: Edit(edit.new, edit.old) for key, edit in there.items()}
    assert back.settings == Edit(Settings(threshold=0.5), Settings())
    with pytest.raises(TypeError):
        back.games["tide"] = Edit(None, None)  # type: ignore[index]


def test_what_did_not_change_is_shared_with_the_mapping_before(
    collection: Collection, game: Makes
) -> None:
    collection.record("added", games=map(game, "abc"))
    games, sheets = collection.games, collection.sheets
    collection.record("renamed", games=[game("b", "Tide")])
    assert collection.sheets is sheets
    assert collection.games["a"] is games["a"]
    assert (games["b"].title, collection.games["b"].title) == ("B", "Tide")


def test_nothing_is_written_where_one_record_of_a_change_is_wrong(
    collection: Collection, game: Makes
) -> None:
    file = collection.folder / "collection.json"
    before = file.read_bytes()
    with pytest.raises(InputError, match="settings, field patience"):
        collection.record("wrong", games=[game("tide")], settings=Settings(patience=0))
    assert file.read_bytes() == before
    assert not collection.games
    assert collection.undo() is None


def test_words_with_halves_of_characters_are_kept(collection: Collection, game: Makes) -> None:
    collection.record("took in caf\udce9.csv", games=[game("tide")])
    assert undone(collection) == "took in caf\ufffd.csv"


def test_nothing_changed_is_no_change(collection: Collection, game: Makes) -> None:
    collection.record("added", games=[game("tide")])
    said = collection.record("the same again", games=[game("tide")], forget_games=["never was"])
    assert said is None
    assert undone(collection) == "added"


def test_old_changes_make_room_but_the_last_can_always_be_undone(
    collection: Collection, game: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(history, "CHANGES_KEPT", 4)
    monkeypatch.setattr(history, "RECORDS_KEPT", 3)
    collection.record("added", games=map(game, "abcdef"))
    for said in ("one", "two", "three", "four"):
        collection.record(said, games=[game("a", said)])
    assert words(collection) == ["two", "three", "four"]
    collection.record("all", games=[game(each, "All") for each in "abcdef"])
    assert words(collection) == ["all"]
    assert undone(collection) == "all"
    assert collection.games["a"].title == "four"


def test_what_was_undone_makes_room_but_the_next_can_always_be_done_again(
    collection: Collection, game: Makes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(history, "RECORDS_KEPT", 3)
    for names in ("ab", "cde", "f"):
        collection.record(f"added {names}", games=map(game, names))
    while collection.undo():
        pass
    assert words(collection) == ["added ab"]
    assert not collection.games
    back = collection.redo()
    assert back is not None
    assert list(collection.games) == ["a", "b"]
    assert collection.redo() is None


@pytest.fixture
def full_disk(monkeypatch: pytest.MonkeyPatch) -> Callable[[bool], None]:
    """Says whether the disk is full from now on."""
    fsync, full = os.fsync, [False]

    def force(handle: int) -> None:
        if full[0]:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        fsync(handle)

    monkeypatch.setattr(os, "fsync", force)

    def fill(is_full: bool) -> None:
        full[0] = is_full

    return fill


def test_a_change_that_the_disk_refuses_did_not_happen(
    collection: Collection, opens: Opens, game: Makes, full_disk: Callable[[bool], None]
) -> None:
    collection.record("added", games=[game("tide")])
    before = collection.games
    full_disk(True)
    with pytest.raises(CollectionError) as told:
        collection.record("renamed", games=[game("tide", "Reef")])
    assert str(told.value) == (
        f"{collection.folder / 'collection.json'}: the disk is full. "
        "Free some space and do it again; what was saved is unharmed."
    )
    with pytest.raises(CollectionError, match="the disk is full"):
        collection.undo()
    assert collection.games is before
    assert before == {"tide": game("tide")}
    full_disk(False)
    collection.record("added another", games=[game("reef")])
    collection.close()
    again = opens()
    assert list(again.games) == ["tide", "reef"]
    assert words(again) == ["added", "added another"]
    assert again.games["tide"].title == "Tide"


def test_nothing_is_written_after_closing(collection: Collection, game: Makes) -> None:
    collection.close()
    with pytest.raises(ReadOnlyError, match="open for reading only"):
        collection.record("late", games=[game("tide")])
    with pytest.raises(ReadOnlyError):
        collection.undo()


def test_changes_from_several_threads_all_come_through(
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
    """Changes, undoing and opening again, against a list of everything that ever was."""

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
        said = undone(self.collection)
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


def test_changes_and_undoing_in_any_order(
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
        suppress_health_check=list(HealthCheck),
    )
    InAFolder.TestCase("runTest").runTest()
