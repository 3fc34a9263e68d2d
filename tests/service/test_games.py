"""Games added, edited and deleted one by one, and a look at what a list would bring."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from engine import InputError, PictureRole, RefusedError, Stage, Workshop, unpack
from engine.intake.exported import games_as_csv
from engine.model import Accepted, EdgeTitle, Game, Logo
from engine.service.games import look_at_new
from tests.conftest import draw_cover


@pytest.fixture
def shop(stocked: Workshop) -> Workshop:
    return stocked


def titles(shop: Workshop) -> list[str]:
    return [line.title for line in shop.games.lines()]


def test_a_game_is_added_as_it_is_written(shop: Workshop) -> None:
    line = shop.games.add("  Copper  Reef ", "keep-case", series="Reef", notes="lent")
    assert (line.title, line.series, line.notes, line.case) == (
        "Copper Reef",
        "Reef",
        "lent",
        "keep-case",
    )
    again = shop.games.add("Copper Reef")
    assert again.id != line.id, "a second cartridge"
    assert shop.undo() == "added Copper Reef"
    with pytest.raises(InputError, match="title: is empty"):
        shop.games.add(" ")
    with pytest.raises(InputError, match="colour: nothing is written under that"):
        shop.games.add("Moss", colour="red")


def test_another_title_is_set_anew_and_finds_its_picture(shop: Workshop) -> None:
    shop.games.add("Lantrn Baj")
    draw_cover(shop.folder.parent / "Moss Reef.png", (9, 9, 90), (60, 70))
    shop.games.take_in(unpack(None, shop.folder.parent / "Moss Reef.png"))
    assert not shop.sides.of("lantrn-baj").pictures
    shop.designs.accept(["lantrn-baj"])
    shop.designs.reopen(["lantrn-baj"])
    shop.games.edit("lantrn-baj", title="Moss Reef")
    assert [one.source for one in shop.sides.of("lantrn-baj").pictures] == ["Moss Reef.png"]
    first = shop.games.lines()[0]
    shop.designs.accept([first.id])
    shop.games.edit(first.id, notes="lent")
    assert shop.designs.proposal(first.id).stage is Stage.TITLE_SET
    shop.games.edit(first.id, title="Paper Bay")
    proposal = shop.designs.proposal(first.id)
    assert proposal.stage is Stage.ART_CHOSEN
    assert " ".join(proposal.edges[0].lines) == "Paper Bay"


def test_games_are_deleted_and_brought_back_where_they_stood(shop: Workshop) -> None:
    before = titles(shop)
    shop.batch.add(["lantern-bay-2"])
    assert shop.games.delete(["lantern-bay-2", "lantern-bay-5"]) == (
        "Lantern Bay 2",
        "Lantern Bay 5",
    )
    assert titles(shop) == [one for one in before if one[-2:] not in {" 2", " 5"}]
    assert shop.batch.games() == ()
    assert shop.check().ok
    assert shop.undo() == "deleted Lantern Bay 2 and 1 more"
    assert titles(shop) == before
    assert shop.batch.games() == ("lantern-bay-2",)


def test_a_game_on_a_sheet_stays_until_the_sheet_is_withdrawn(shop: Workshop) -> None:
    shop.designs.accept(["lantern-bay-1"])
    (sheet,) = shop.sheets.press(part_full=True).sheets
    with pytest.raises(RefusedError, match=r"is on sheet 1\. Withdraw the sheet first"):
        shop.games.delete(["lantern-bay-1"])
    shop.sheets.withdraw(sheet.number)
    shop.games.delete(["lantern-bay-1"])
    assert shop.check().ok
    assert shop.sheets.report().pressed == ()


def test_a_picture_that_was_dropped_is_given_to_no_game_again(shop: Workshop) -> None:
    (own,) = shop.sides.of("lantern-bay-1").pictures
    shop.designs.accept(["lantern-bay-1"])
    shop.sides.drop("lantern-bay-1", own.source)
    assert shop.designs.proposal("lantern-bay-1").design.art.picture is None
    shop.games.take_in(unpack(None, None))
    assert shop.sides.of("lantern-bay-1").pictures == ()
    shop.sides.give("lantern-bay-1", own.picture, PictureRole.FRONT)
    assert shop.sides.of("lantern-bay-1").pictures[0].picture == own.picture


def test_a_look_says_what_taking_in_then_does(shop: Workshop, tmp_path: Path) -> None:
    path = tmp_path / "more.csv"
    path.write_text("name,case\nLantern Bay 3,\nMoss,shoe box\n,x\n", encoding="utf-8")
    delivery = unpack(path)
    before = (shop.folder / "collection.json").read_bytes()
    look = shop.games.look(delivery)
    assert (shop.folder / "collection.json").read_bytes() == before
    assert look.titles == ("Moss",)
    assert look.columns == {"title": "name", "case": "case"}
    assert look.encoding == "UTF-8"
    new = look_at_new(delivery)
    assert new.titles == ("Lantern Bay 3", "Moss")
    assert shop.games.take_in(delivery) == look.report


def test_a_title_whose_logo_is_not_there_is_open_again(shop: Workshop, tmp_path: Path) -> None:
    logo = EdgeTitle("spine", (), 9.0, logo=Logo("gone.png", 4.0))
    set_with_it = Game(
        "reef", "Copper Reef", datetime(2026, 3, 1, tzinfo=UTC), accepted=Accepted(title=(logo,))
    )
    listed = tmp_path / "export.csv"
    listed.write_text(games_as_csv([set_with_it], {}), "utf-8")
    report = shop.games.take_in(unpack(listed))
    assert report.notes == ("reef: its picture is not there, so it is open again.",)
    assert shop.check().ok
