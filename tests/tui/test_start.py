"""What to open, and the first steps; ``tests.bench.keys`` counts the keys to the first sheet."""

from __future__ import annotations

import gc
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from openpyxl import Workbook
from textual import events

from tests.tui.conftest import AtWork
from tests.tui.start_stories import PASTED, from_palette, paste
from tui.cli.dispatch import run
from tui.welcome import Chosen, Welcome
from tui.widgets.keybar import Run


@asynccontextmanager
async def welcomed(folder: Path, monkeypatch: pytest.MonkeyPatch) -> AsyncIterator[Asked]:
    """Ask what to open, in a folder."""
    monkeypatch.chdir(folder)
    app = Welcome()
    async with app.run_test(size=(80, 24)) as pilot:
        yield Asked(app, pilot)


class Asked:
    def __init__(self, app: Welcome, pilot) -> None:
        self.app = app
        self.pilot = pilot
        self.keys = 0

    async def press(self, *keys: str) -> None:
        self.keys += len(keys)
        for key in keys:
            await self.pilot.press(key)
            await self.app.workers.wait_for_complete()
            await self.pilot.pause(0)

    @property
    def foot(self) -> list[str]:
        """What the keys at the foot of the dialog do."""
        return [item.label for item in self.app.screen.query_one(Run).items]

    async def paste(self, text: str) -> None:
        self.app.post_message(events.Paste(text))
        await self.pilot.pause(0)
        await self.app.workers.wait_for_complete()
        await self.pilot.pause(0)


async def test_letters_typed_faster_than_they_are_looked_at_leave_no_warning(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, recwarn: pytest.WarningsRecorder
) -> None:
    async with welcomed(tmp_path, monkeypatch) as asked:
        await asked.press("enter")
        dialog = asked.app.screen
        dialog.on_input_changed()
        dialog.on_input_changed()
        await asked.press("escape")
    gc.collect()
    assert not [one for one in recwarn if "never awaited" in str(one.message)]


async def test_keys_pressed_while_a_step_is_taken_change_nothing(at_work: AtWork) -> None:
    async with at_work("empty") as hand:
        await hand.do("start", "choose", "leave")
        assert hand.current == "list", "a step that is left is offered again"
        await hand.do("choose")
        await paste(hand, "nowhere.csv")
        await hand.do("choose")
        assert "There is no such file." in hand.notices()
        await paste(hand, PASTED)
        with hand.watch.holding("games.take_in"):
            hand.send("enter", "enter", "enter", "g")
            await hand.until(lambda: "games.take_in" in hand.watch.calls)
        await hand.settle()
        assert hand.watch.calls.count("games.take_in") == 1
        assert not hand.workshop.batch.games()


async def test_a_list_is_picked_from_what_lies_there_and_of_it_a_sheet(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = Workbook()
    book.active.append(["who", "what"])
    book.create_sheet("Shelf").append(["Title"])
    book["Shelf"].append(["Copper Reef"])
    async with at_work("empty") as hand:
        monkeypatch.chdir(hand.workshop.folder.parent)
        Path("lists").mkdir()
        book.save("lists/games.xlsx")
        await from_palette(hand, "take_list")
        await hand.press("down", "down")
        assert hand.current == "lists/"
        await hand.do("choose")
        assert hand.screen.query_one("PathLine").value == "lists/"
        await hand.press("down")
        await hand.do("choose")
        assert "Sheet of games.xlsx" in hand.sees("#box")
        assert hand.current == "Shelf", "the one with titles comes first"
        await hand.do("leave")
        assert hand.screen.query_one("PathLine").value == "lists/games.xlsx", "kept to try again"
        await hand.do("choose", "choose")
        assert "Sheet: Shelf." in hand.sees("#box")
        await hand.do("choose")
        assert [line.title for line in hand.workshop.games.lines()] == ["Copper Reef"]


async def test_the_first_screen_asks_until_there_is_something_to_open(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with welcomed(tmp_path, monkeypatch) as asked:
        await asked.press("down", "enter")
        assert asked.foot == ["Open", "Back"]
        await asked.paste("nowhere")
        await asked.press("enter")
        assert asked.app.is_running, "a folder that is to be there already is not"
        await asked.press("escape", "up", "enter")
        assert asked.foot == ["Make", "Back"]
        await asked.press("enter")
    assert asked.app.return_value == Chosen(tmp_path / "harbour-street", demo=True)


def test_where_nobody_can_be_asked_the_command_says_what_to_give(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run([]) == 2
    assert "Give its folder: spinery FOLDER" in capsys.readouterr().err
