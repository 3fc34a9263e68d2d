"""A path is completed as soon as it is known what lies there, and no key waits for that."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event

import pytest
from textual import events

from engine import PathLook, Sought, look_at_path
from tests.tui.conftest import AtWork
from tests.tui.driving import Hand
from tests.tui.start_stories import from_palette, paste
from tui.screens import taking
from tui.screens.paths import PathDialog
from tui.widgets.table import Table


@contextmanager
def reading_held(patch: pytest.MonkeyPatch) -> Iterator[None]:
    """Let nothing be known of what lies where until the end."""
    gate = Event()

    def look(typed: str, sought: Sought) -> PathLook:
        gate.wait()
        return look_at_path(typed, sought)

    with patch.context() as held:
        held.setattr(taking, "look_at_path", look)
        try:
            yield
        finally:
            gate.set()


async def begin(hand: Hand, patch: pytest.MonkeyPatch, *keys: str) -> str:
    """Paste the beginning of a path, and press Tab and keys before it is known what lies there.

    Return what the line has become once it is known.
    """
    folder = f"{hand.workshop.folder.parent}/"
    Path(folder, "more.csv").write_text("Copper Reef", encoding="utf-8")
    await from_palette(hand, "take_list")
    line = hand.screen.query_one("PathLine")
    with reading_held(patch):
        hand.app.post_message(events.Paste(f"{folder}mo"))
        hand.send("tab")
        await hand.until(lambda: hand.screen._tabbed == f"{folder}mo")
        for key in keys:
            before = line.value, line.cursor_position
            hand.send(key)
            await hand.until(lambda before=before: (line.value, line.cursor_position) != before)
    await hand.settle()
    return str(line.value).removeprefix(folder)


async def test_tab_completes_once_it_is_known_what_lies_there_unless_a_key_is_pressed(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_work() as hand:
        assert await begin(hand, monkeypatch) == "more.csv"
        await hand.do("leave")
        assert await begin(hand, monkeypatch, "left") == "mo"
        await hand.do("leave")
        assert await begin(hand, monkeypatch, "r", "backspace") == "mo"


async def test_enter_takes_the_one_thing_that_a_name_typed_in_part_can_become(
    at_work: AtWork,
) -> None:
    async with at_work() as hand:
        folder = hand.workshop.folder.parent
        (folder / "lists").mkdir()
        (folder / "lists" / "more.csv").write_text("Copper Reef", encoding="utf-8")
        (folder / "lists" / "most.csv").write_text("Copper Reef", encoding="utf-8")
        await from_palette(hand, "take_list")
        await paste(hand, f"{folder}/li")
        await hand.do("choose")
        assert hand.screen.query_one("PathLine").value == f"{folder}/lists/", "gone into"
        await paste(hand, "mo")
        await hand.do("choose")
        assert "There is no such file." in hand.notices(), "it may become two"
        await paste(hand, "r")
        await hand.do("choose")
        assert "What more.csv brings" in hand.sees("#box")


async def test_what_was_typed_is_kept_where_it_is_refused(at_work: AtWork) -> None:
    async with at_work() as hand:
        folder = hand.workshop.folder.parent
        (folder / "wrong.xlsx").write_bytes(b"PK\x03\x04")
        (folder / "bare").mkdir()
        for act, name in (("take_list", "wrong.xlsx"), ("take_pictures", "bare")):
            await from_palette(hand, act)
            await paste(hand, f"{folder}/{name}")
            await hand.do("choose")
            assert name in hand.notices(), "it says what is wrong"
            assert hand.screen.query_one("PathLine").value == f"{folder}/{name}"
            await hand.do("leave")
            assert not hand.screen.is_modal


@pytest.mark.parametrize(
    ("sought", "words"),
    [
        (Sought.COLLECTION, "No folder begins so."),
        (Sought.PICTURES, "Nothing of the kind is there."),
    ],
)
def test_a_folder_that_is_to_be_made_is_not_missed(sought: Sought, words: str) -> None:
    dialog = PathDialog("", "", sought, lambda *_: None, choice="Make")
    assert [one.empty for one in dialog.body() if isinstance(one, Table)] == [words]
