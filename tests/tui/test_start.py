"""From an empty folder to the first pressed sheet, inside the program, with the keys counted."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, closing
from pathlib import Path

import pytest
from textual import events

from engine import open_workshop
from tests.conftest import Clock, draw_cover
from tests.tui.conftest import AtWork
from tests.tui.driving import driven
from tests.tui.shelf import FIRST
from tests.tui.start_stories import PASTED, from_palette, paste
from tui.cli.dispatch import run
from tui.welcome import Chosen, Welcome

MOST = 40
"""Keys that the project allows itself, besides paths that are typed."""


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

    async def paste(self, text: str) -> None:
        self.app.post_message(events.Paste(text))
        await self.pilot.pause(0)
        await self.app.workers.wait_for_complete()
        await self.pilot.pause(0)


async def test_an_empty_folder_takes_at_most_40_keys_to_the_first_sheet(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with welcomed(tmp_path, monkeypatch) as asked:
        await asked.press("down", "down", "enter", "enter")
        assert asked.app.return_value == Chosen(tmp_path / "my-shelf")
    keys = asked.keys
    (tmp_path / "games.txt").write_text("\n".join(f"{one} Bay" for one in FIRST), encoding="utf-8")
    (tmp_path / "covers").mkdir()
    draw_cover(tmp_path / "covers" / "lantern bay.png", (90, 20, 20), (60, 70))
    with closing(open_workshop(tmp_path / "my-shelf", Clock())) as workshop:
        async with driven(workshop, leads=True) as hand:
            assert "no games yet" in hand.sees("#box"), "it begins by itself"
            await hand.do("choose")
            await paste(hand, str(tmp_path / "games.txt"))
            await hand.do("choose", "choose")
            assert hand.current == "pictures"
            await hand.do("choose")
            await paste(hand, str(tmp_path / "covers"))
            await hand.do("choose", "choose")
            assert "1 of 6 games have one" in hand.sees("#box")
            assert hand.current == "case"
            for _ in ("case", "storage", "paper"):
                await hand.do("choose", "choose")
            await hand.do("choose", "choose", "leave")
            assert (workshop.folder / "sheets" / "check-a4-card.pdf").exists()
            assert hand.current == "begin"
            await hand.do("choose", *["accept"] * len(FIRST), "sheets", "press")
            (sheet,) = workshop.sheets.report().pressed
            assert Path(sheet.file).read_bytes().startswith(b"%PDF")
            keys += len(hand.pressed)
    assert keys <= MOST
    assert keys == 28, "say so in the README where it differs"


async def test_keys_pressed_while_a_step_is_taken_change_nothing(at_work: AtWork) -> None:
    async with at_work("empty") as hand:
        await hand.do("start", "choose")
        await paste(hand, PASTED)
        with hand.watch.holding("games.take_in"):
            hand.send("enter", "enter", "enter", "g")
            await hand.until(lambda: "games.take_in" in hand.watch.calls)
        await hand.settle()
        assert hand.watch.calls.count("games.take_in") == 1
        assert not hand.workshop.batch.games()


async def test_a_step_that_is_left_is_offered_again(at_work: AtWork) -> None:
    async with at_work("empty") as hand:
        await hand.do("start", "choose", "leave")
        assert hand.current == "list"
        await hand.do("choose")
        await paste(hand, "nowhere.csv")
        await hand.do("choose")
        assert "There is no such file." in hand.notices()
        await hand.do("leave", "leave")
        assert not hand.screen.is_modal


async def test_a_spreadsheet_with_several_sheets_asks_which(at_work: AtWork) -> None:
    from openpyxl import Workbook

    async with at_work("empty") as hand:
        book = Workbook()
        book.active.append(["who", "what"])
        book.create_sheet("Shelf").append(["Title"])
        book["Shelf"].append(["Copper Reef"])
        path = hand.workshop.folder.parent / "games.xlsx"
        book.save(path)
        await from_palette(hand, "take_list")
        await paste(hand, str(path))
        await hand.do("choose")
        assert "Sheet of games.xlsx" in hand.sees("#box")
        assert hand.current == "Shelf", "the one with titles comes first"
        await hand.do("choose")
        assert "Sheet: Shelf." in hand.sees("#box")
        await hand.do("choose")
        assert [line.title for line in hand.workshop.games.lines()] == ["Copper Reef"]


async def test_a_path_is_picked_from_what_lies_there(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_work("empty") as hand:
        folder = hand.workshop.folder.parent / "lists"
        folder.mkdir()
        (folder / "a.txt").write_text("Copper Reef\n", encoding="utf-8")
        monkeypatch.chdir(hand.workshop.folder.parent)
        await from_palette(hand, "take_list")
        await hand.press("down", "down")
        assert hand.current == "lists/"
        await hand.do("choose")
        assert hand.screen.query_one("PathLine").value == "lists/"
        await hand.press("down")
        await hand.do("choose")
        assert "What a.txt brings" in hand.sees("#box")


async def test_what_cannot_be_opened_is_told_before_anything_is_taken(at_work: AtWork) -> None:
    async with at_work("empty") as hand:
        broken = hand.workshop.folder.parent / "broken"
        broken.mkdir()
        (broken / "Copper Reef.png").write_bytes(b"no picture")
        await from_palette(hand, "take_pictures")
        await paste(hand, str(broken))
        await hand.do("choose")
        assert "Copper Reef.png" in hand.reads("#box")
        await hand.do("leave")
        assert not hand.workshop.readings.found()


async def test_the_first_screen_can_be_left_and_opens_what_is_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with welcomed(tmp_path, monkeypatch) as asked:
        await asked.press("down", "enter")
        await asked.paste("nowhere")
        await asked.press("enter")
        assert asked.app.is_running
        await asked.press("escape", "escape")
    assert asked.app.return_value is None
    async with welcomed(tmp_path, monkeypatch) as asked:
        await asked.press("enter", "enter")
    assert asked.app.return_value == Chosen(tmp_path / "harbour-street", demo=True)


def test_where_nobody_can_be_asked_the_command_says_what_to_give(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run([]) == 2
    assert "Give its folder: spinery FOLDER" in capsys.readouterr().err
