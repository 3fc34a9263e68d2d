"""Stories that press the keys of the first steps, and of what is written of a game."""

from __future__ import annotations

from textual import events

from engine.model import PictureRole
from tests.conftest import draw_cover
from tests.tui.driving import Hand
from tests.tui.stories import presses

PASTED = "Lantern Bay\nHarbour Bay\nTin Bay\n"


async def paste(hand: Hand, text: str) -> None:
    """Paste text, as a terminal brackets it."""
    hand.app.post_message(events.Paste(text))
    await hand.settle()


async def from_palette(hand: Hand, act: str) -> None:
    """Run an action that no key leads to, as the palette does."""
    await hand.screen.run_action(f"app.{act}")
    await hand.settle()


@presses("start", "empty")
async def start(hand: Hand) -> None:
    await hand.do("start")
    assert "no games yet" in hand.sees("#box")
    assert hand.current == "list"
    await hand.do("choose")
    await paste(hand, PASTED)
    await hand.do("choose")
    assert [line.title for line in hand.workshop.games.lines()] == PASTED.split("\n")[:3]
    assert hand.current == "pictures", "the next step"
    assert "List 3 games" in hand.reads("#box")
    await hand.press("down")
    assert hand.current == "case", "a step is skipped"
    await hand.do("choose")
    await hand.pick("keep-case")
    assert [line.case for line in hand.workshop.games.lines()] == ["keep-case"] * 3
    assert "Keep case, wrap: 3" in hand.reads("#box")
    await hand.do("choose")
    await hand.pick("drawer")
    assert hand.workshop.setup.settings().pose == "drawer"
    assert "standing in a box or drawer" in hand.reads("#box")
    assert hand.current == "paper"
    await hand.press("down", "down")
    await hand.do("choose")
    assert not hand.screen.is_modal
    assert len(hand.workshop.batch.games()) == 3, "the first games are on the Bench"


@presses("take_list")
async def take_list(hand: Hand) -> None:
    folder = hand.workshop.folder.parent
    (folder / "more.csv").write_bytes("name;série\nCafé Reef;Reef\n;none\n".encode("cp1252"))
    await from_palette(hand, "take_list")
    await paste(hand, f"{folder}/mo")
    await hand.press("tab")
    assert hand.screen.query_one("PathLine").value == f"{folder}/more.csv"
    await hand.do("choose")
    said = hand.reads("#box")
    assert "1 new game." in said
    assert "title from “name”, series from “série”" in said
    assert "Letters: Windows-1252." in said
    assert "more.csv, line 3: no title." in said
    assert len(hand.workshop.games.lines()) == 14, "nothing is taken in yet"
    await hand.do("choose")
    assert hand.workshop.games.lines()[-1].title == "Café Reef"
    assert "1 game added." in hand.notices()


@presses("take_pictures")
async def take_pictures(hand: Hand) -> None:
    folder = hand.workshop.folder.parent / "found"
    folder.mkdir()
    draw_cover(folder / "Tin Parade.png", (90, 20, 20), (60, 70))
    (folder / "Moss Reef.png").write_bytes(b"no picture")
    await from_palette(hand, "take_pictures")
    await paste(hand, f"{folder}")
    await hand.do("choose")
    assert "1 picture in the folder." in hand.sees("#box")
    assert "Pictures: 1 matched, 0 to confirm" in hand.sees("#box")
    assert "Moss Reef.png" in hand.sees("#box"), "what cannot be opened is told before"
    await hand.do("choose")
    (own,) = hand.workshop.sides.of("tin-parade").pictures
    assert own.source == "Tin Parade.png"


@presses("papers")
async def papers(hand: Hand) -> None:
    await from_palette(hand, "papers")
    await hand.go_to("+", "Table")
    await hand.do("choose")
    for line in ("Board", "250", "353"):
        await paste(hand, line)
        await hand.press("down")
    await hand.do("choose")
    await hand.go_to("board", "Table")
    assert "250 × 353" in hand.sees("#box")
    await hand.do("choose")
    await hand.pick("use")
    assert hand.workshop.setup.settings().stock.id == "board"


@presses("check_page")
async def check_page(hand: Hand) -> None:
    await from_palette(hand, "check_page")
    await hand.do("choose")
    page = hand.workshop.folder / "sheets" / "check-a4-card.pdf"
    assert page.read_bytes().startswith(b"%PDF")
    await hand.do("leave")
    true = hand.workshop.printers.report().true
    await from_palette(hand, "check_page")
    await hand.pick("measured")
    for name in ("level", "upright", "rising", "falling", "left_below", "left_above", "bottom"):
        await paste(hand, f"{getattr(true, name):.1f}")
        await hand.press("down")
    await hand.do("choose")
    assert hand.workshop.printers.report().calibration is not None


@presses("health")
async def health(hand: Hand) -> None:
    await from_palette(hand, "health")
    assert "All is well." in hand.sees("#box")
    await hand.press("enter")
    (hand.workshop.folder / "sheets" / "stray.pdf").write_bytes(b"")
    await from_palette(hand, "health")
    assert "stray.pdf" in hand.sees("#box")
    await hand.do("choose")
    assert "stray.pdf" in hand.sees("#box"), "what was mended is told"
    assert not (hand.workshop.folder / "sheets" / "stray.pdf").exists()


@presses("record", "batch")
async def record(hand: Hand) -> None:
    await hand.do("record")
    assert [row.id for row in hand.screen.query_one("Table").rows] == [
        "edit_game",
        "own_pictures",
        "add_game",
        "delete_games",
    ]
    await hand.do("leave")


@presses("add_game")
async def add_game(hand: Hand) -> None:
    await hand.do("record")
    await hand.pick("add_game")
    await paste(hand, "Copper Reef")
    await hand.press("down")
    await paste(hand, "Reef")
    await hand.do("choose")
    line = hand.workshop.games.lines()[-1]
    assert (line.title, line.series) == ("Copper Reef", "Reef")


@presses("edit_game", "batch")
async def edit_game(hand: Hand) -> None:
    await hand.do("record")
    await hand.pick("edit_game")
    assert "Edit Lantern Bay" in hand.sees("#box")
    await paste(hand, "Lantern Bay Two")
    await hand.do("choose")
    assert hand.workshop.games.lines()[0].title == "Lantern Bay Two"
    assert "Lantern Bay Two" in hand.sees("#batch Table")


@presses("own_pictures", "batch")
async def own_pictures(hand: Hand) -> None:
    picture = hand.workshop.folder.parent / "back.png"
    draw_cover(picture, (20, 90, 20), (60, 70))
    await hand.do("record")
    await hand.pick("own_pictures")
    await hand.pick("+")
    await paste(hand, str(picture))
    await hand.do("choose")
    await hand.pick("back")
    pictures = hand.workshop.sides.of("lantern-bay").pictures
    assert {(one.role, one.source) for one in pictures} == {
        (PictureRole.FRONT, "lantern_bay.png"),
        (PictureRole.BACK, "back.png"),
    }
    front = next(one.picture for one in pictures if one.role is PictureRole.FRONT)
    await hand.pick(front)
    await hand.pick("-")
    (left,) = hand.workshop.sides.of("lantern-bay").pictures
    assert left.source == "back.png"


@presses("delete_games")
async def delete_games(hand: Hand) -> None:
    await hand.do("backlog", "mark", "mark", "record")
    await hand.pick("delete_games")
    assert "Delete 2 games" in hand.sees("#box")
    assert "Harbour Bay" in hand.sees("#box")
    await hand.do("choose")
    assert "12 of 12" in hand.sees("#status")
    await hand.do("undo")
    assert "14 of 14" in hand.sees("#status")
