"""Stories of what is done with the collection as a whole; the palette leads to each."""

from __future__ import annotations

import csv
from pathlib import Path

from PIL import Image

from engine.model.house import Pack
from tests.tui.driving import Hand
from tests.tui.start_stories import from_palette, paste
from tests.tui.stories import presses


async def write_to(hand: Hand, path: Path) -> None:
    """Type a path in the place of the one that is proposed, and write there."""
    await hand.press("ctrl+u")
    await paste(hand, str(path))
    await hand.do("choose")


@presses("where")
async def where(hand: Hand) -> None:
    hand.workshop.room.add("Top shelf", (800, 220, 180))
    await from_palette(hand, "where")
    await hand.type("moss")
    found = hand.reads("#box")
    assert "Moss Bay" in found
    assert "Top shelf, 9 from the left" in found
    await hand.do("choose")
    assert hand.app.current_mode == "shelf"
    assert hand.screen.current_game == "moss-bay"
    await from_palette(hand, "where")
    await hand.type("tin par")
    await hand.do("choose")
    assert hand.screen.current_game == "tin-parade"


@presses("room")
async def room(hand: Hand) -> None:
    await from_palette(hand, "room")
    await hand.pick("+")
    for line in ("Drawer", "400", "90", "none"):
        await paste(hand, line)
        await hand.press("down")
    await hand.do("choose")
    assert "Depth: none is no length in mm." in hand.notices()
    await hand.press("up", "ctrl+u")
    await paste(hand, "300")
    await hand.do("choose")
    await hand.pick("drawer")
    (box,) = hand.workshop.setup.settings().containers
    assert (box.name, box.width, box.height, box.depth) == ("Drawer", 400, 90, 300)
    assert (box.pose, box.growth, box.kinds) == ("drawer", 0.1, ())
    assert "14 games without a place" in hand.reads("#box")
    await hand.pick("keep")
    assert "14 games without a settled place." in hand.sees("#box")
    await hand.do("choose")
    assert not hand.workshop.room.report().new
    await hand.pick("case")
    await hand.pick("snap-shell")
    for line in ("66", "74", "12"):
        await paste(hand, line)
        await hand.press("down")
    await hand.do("choose")
    assert hand.workshop.setup.settings().case_sizes["snap-shell"] == (66, 74, 12)
    await hand.pick("of Drawer")
    await hand.pick("forget")
    assert "14 games in it will have no place" in hand.reads("#box")
    await hand.do("choose")
    assert not hand.workshop.setup.settings().containers


@presses("labels")
async def labels(hand: Hand) -> None:
    await from_palette(hand, "labels")
    said = hand.reads("#box")
    wanted = hand.workshop.dividers.report().wanted
    assert wanted
    assert f"{len(wanted)} more wanted (Enter adds them)" in said
    await hand.do("choose")
    there = hand.workshop.dividers.report()
    assert [one.title for one in there.present] == [one.title for one in wanted]
    assert there.present[0].id in hand.sees("#box")


@presses("supplies")
async def supplies(hand: Hand) -> None:
    await from_palette(hand, "supplies")
    await hand.pick("case:snap-shell")
    await paste(hand, "2")
    await hand.press("down", "down")
    await paste(hand, "4.5")
    await hand.press("down")
    await paste(hand, "€")
    await hand.do("choose")
    assert "Say what a pack of that price holds." in hand.notices()
    await hand.press("up", "up")
    await paste(hand, "5")
    await hand.do("choose")
    house = hand.workshop.setup.settings().house
    assert house.have["case:snap-shell"] == 2
    assert house.packs["case:snap-shell"] == Pack(5, 4.5)
    assert house.currency == "€"
    needed = next(n for n in hand.workshop.supplies.report(0).needs if n.item == "case:snap-shell")
    row = next(one for one in hand.screen.query_one("Table").rows if one.id == needed.item)
    assert row.cells[1:4] == (f"{needed.needed:.0f}", "2", f"{needed.needed - 2:.0f}")
    await hand.pick("whole")
    assert "In all" in hand.reads("#box")
    await hand.do("leave")


@presses("ink_use", "batch")
async def ink_use(hand: Hand) -> None:
    await from_palette(hand, "ink_use")
    (ink,) = hand.workshop.ink.report(["lantern-bay"]).inserts
    assert f"{ink.coverage['black']:.1f} %" in hand.sees("#box")
    await hand.press("enter")


@presses("index_file")
async def index_file(hand: Hand) -> None:
    folder = hand.workshop.folder.parent
    (folder / "there.csv").write_text("of others")
    await from_palette(hand, "index_file")
    await write_to(hand, folder / "nowhere" / "index.csv")
    assert "in a folder that is not there" in hand.notices()
    await write_to(hand, folder / "there.csv")
    assert "Write over it?" in hand.sees("#box")
    await hand.do("leave")
    assert (folder / "there.csv").read_text() == "of others"
    await hand.do("choose", "choose")
    with (folder / "there.csv").open(encoding="utf-8-sig", newline="") as file:
        assert "Lantern Bay" in {cell for row in csv.reader(file) for cell in row}
    assert "there.csv" in hand.notices()
    await from_palette(hand, "index_file")
    await write_to(hand, folder / "index.odd")
    assert "an index is a PDF or CSV" in hand.notices()
    assert hand.screen.query_one("PathLine").value == str(folder / "index.odd")


@presses("shelf_file")
async def shelf_file(hand: Hand) -> None:
    page = hand.workshop.folder.parent / "shelf.pdf"
    await from_palette(hand, "shelf_file")
    await hand.do("choose")
    await write_to(hand, page)
    assert page.read_bytes().startswith(b"%PDF")


@presses("proof_file", "batch")
async def proof_file(hand: Hand) -> None:
    picture = hand.workshop.folder.parent / "proof.png"
    await from_palette(hand, "proof_file")
    await hand.do("choose")
    assert hand.screen.query_one("PathLine").value == "lantern-bay.png"
    await write_to(hand, picture)
    with Image.open(picture) as drawn:
        assert drawn.format == "PNG"


@presses("net_file")
async def net_file(hand: Hand) -> None:
    folder = hand.workshop.folder.parent
    await from_palette(hand, "net_file")
    await hand.pick("keep-case")
    await hand.pick("flat")
    await write_to(hand, folder / "net.svg")
    assert "<svg" in (folder / "net.svg").read_text()


@presses("export")
async def export(hand: Hand) -> None:
    folder = hand.workshop.folder.parent / "out"
    await from_palette(hand, "export")
    await write_to(hand, hand.workshop.folder)
    assert "Name a new folder." in hand.notices()
    await write_to(hand, folder)
    assert "14 games" in hand.sees("#box")
    assert (folder / "games.csv").is_file()
