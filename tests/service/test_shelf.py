"""The shelf of a collection: what moves on it, and what it would look like."""

from __future__ import annotations

from contextlib import closing
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from engine import Clash, Stage, open_workshop
from engine.model.errors import InputError
from tests.conftest import Clock

LIST = """title,case,series,maker,year
Tide,snap-shell,Tide,Quay,1990
Tide III,snap-shell,Tide,Quay,1991
Tide II,soft-cassette,Tide,Attic,1992
The Anchor,keep-case,,Attic,1989
"""


@pytest.fixture
def shop(tmp_path: Path):
    (tmp_path / "games.csv").write_text(LIST, encoding="utf-8")
    with closing(open_workshop(tmp_path / "shelf", Clock())) as workshop:
        workshop.games.intake(tmp_path / "games.csv")
        yield workshop


def test_a_game_is_moved_by_hand_filed_and_taken_back(shop) -> None:
    assert shop.shelf.order() == ("anchor", "tide", "tide-ii", "tide-iii")
    shop.shelf.move("anchor", 2)
    assert shop.shelf.order() == ("tide", "tide-ii", "anchor", "tide-iii")
    shop.shelf.move("tide-iii", -99)
    assert shop.shelf.order() == ("tide-iii", "tide", "tide-ii", "anchor")
    assert [shop.undo(), shop.undo()] == ["moved Tide III", "moved The Anchor"]
    assert shop.setup.settings().order == "title"
    shop.shelf.file_under("tide-ii", " A first ")
    assert shop.shelf.order()[0] == "tide-ii"
    shop.shelf.file_under("tide-ii", "Tide II")
    assert shop.shelf.report().games[2].sort_title == ""


def test_a_report_tells_sizes_as_they_are_seen(shop) -> None:
    anchor, tide, *_ = shop.shelf.report().games
    assert (anchor.case, tide.case) == ("keep-case", "snap-shell")
    assert anchor.height > 150
    assert anchor.width < 20
    shop.setup.change(pose="drawer")
    assert all(one.width > one.height for one in shop.shelf.report().games)


def test_what_is_tried_changes_nothing_and_is_proposed_anew(shop) -> None:
    ids = [game.id for game in shop.games.lines()]
    shop.designs.accept(ids)
    before = (shop.folder / "collection.json").read_bytes()
    now = {one.game: one.colours.base for one in shop.shelf.report().games}
    tried = shop.shelf.report({"colour_by": "maker", "order": "year"})
    assert [one.game for one in tried.games] == ["anchor", "tide", "tide-iii", "tide-ii"]
    colours = {one.game: one.colours.base for one in tried.games}
    assert colours["tide"] == colours["tide-iii"] != colours["anchor"]
    assert now == {one.game: one.colours.base for one in shop.shelf.report().games}
    assert (shop.folder / "collection.json").read_bytes() == before


def test_a_colour_that_breaks_a_series_is_told(shop) -> None:
    shop.designs.change_colour("tide-ii", "#aa0000")
    (found,) = [one for one in shop.shelf.report().clashes if one.what is Clash.SERIES]
    assert found.games[0] == "tide-ii"


def test_a_picture_has_both_shelves_and_a_page_is_written(shop, tmp_path: Path) -> None:
    shop.shelf.write(tmp_path / "one.png", ppi=40)
    shop.shelf.write(tmp_path / "both.png", ppi=40, what_if={"order": "year"}, finished=True)
    with Image.open(tmp_path / "one.png") as one, Image.open(tmp_path / "both.png") as both:
        assert both.height > 1.8 * one.height
    shop.shelf.write(tmp_path / "shelf.pdf")
    assert (tmp_path / "shelf.pdf").read_bytes().startswith(b"%PDF")
    sight = shop.shelf.sight("tide", (480, 240), 2)
    with Image.open(BytesIO(sight.png)) as seen:
        assert seen.size == pytest.approx((480, 240), abs=2)
    shop.setup.change(pose="drawer")
    spots = shop.shelf.sight("Tide", (480, 37), 2).spots
    assert min(spot.y for spot in spots.values()) >= 0, "no pile is higher than what is in sight"


@pytest.mark.parametrize(
    ("name", "more"),
    [("a.jpg", {}), ("a.png", {"row": 1}), ("a.png", {"ppi": 5}),
     ("a.png", {"what_if": {"order": "size"}}), ("a.png", {"what_if": {"colour_by": "hue"}})],
)  # fmt: skip
def test_what_cannot_be_drawn_is_said(shop, tmp_path: Path, name: str, more) -> None:
    with pytest.raises(InputError):
        shop.shelf.write(tmp_path / name, **more)
    assert not (tmp_path / name).exists()


def test_what_stands_nowhere_on_the_shelf_is_told(shop) -> None:
    shop.declaring.declare(["anchor"], Stage.UNWANTED)
    divider, *_ = shop.dividers.add().present
    for one in ("anchor", divider.id):
        for ask in (
            lambda game: shop.shelf.move(game, 1),
            lambda game: shop.shelf.sight(game, (60, 60)),
            shop.shelf.edge,
        ):
            with pytest.raises(InputError, match="stands nowhere on the shelf"):
                ask(one)


def test_a_shelf_on_which_nothing_stands_is_not_written(shop, tmp_path: Path) -> None:
    shop.declaring.declare(shop.shelf.order(), Stage.UNWANTED)
    with pytest.raises(InputError, match="no games"):
        shop.shelf.write(tmp_path / "empty.png")
