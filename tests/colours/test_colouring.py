"""Colours of groups: one for each, followed until printed, and told in reports."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest

from engine import (
    Colours,
    Decision,
    InkMode,
    InputError,
    RefusedError,
    Stage,
    Workshop,
    open_workshop,
)
from engine.colours.colouring import Colouring, columns_of
from engine.model import Accepted, Game
from engine.model.settings import Settings
from engine.model.stages import accepted_design
from tests.colours.telling import smallest_difference
from tests.conftest import SERIES, Clock


@pytest.fixture
def shop(grouped: Path, tmp_path: Path) -> Iterator[Workshop]:
    import shutil

    shutil.copytree(grouped, tmp_path / "shelf")
    shop = open_workshop(tmp_path / "shelf", Clock())
    shop.setup.change(colour_by="series")
    yield shop
    shop.close()


def of_series(shop: Workshop, name: str) -> list[str]:
    return [game.id for game in shop.games.lines() if game.series == name]


def bases(shop: Workshop, ids: list[str]) -> set[str]:
    return {shop.designs.proposal(game).design.colours.base for game in ids}


def print_all(shop: Workshop, ids: list[str]) -> None:
    shop.designs.accept(ids)
    for sheet in shop.sheets.press(part_full=True).sheets:
        shop.sheets.settle(sheet.number or 0)


def test_each_group_has_one_colour_and_no_two_the_same(shop: Workshop) -> None:
    colours = [bases(shop, of_series(shop, name)) for name in SERIES]
    assert [len(each) for each in colours] == [1, 1, 1]
    assert len(set.union(*colours)) == 3
    for game in shop.games.lines():
        # WCAG 2.2, 1.4.3: 4.5 to 1.
        assert shop.designs.proposal(game.id).contrast >= 4.5


def test_a_group_takes_the_colour_that_its_pictures_agree_on(shop: Workshop) -> None:
    (base,) = bases(shop, of_series(shop, "Harbour"))
    red, green, blue = (int(base[place : place + 2], 16) for place in (1, 3, 5))
    assert red > 2 * max(green, blue)
    assert {group.origin for group in shop.colours.report().groups} == {"pictures"}


def test_a_game_in_no_group_has_its_pictures_colour(shop: Workshop) -> None:
    alone = of_series(shop, "")
    before = bases(shop, alone)
    shop.setup.change(colour_by="picture")
    assert bases(shop, alone) == before
    assert shop.designs.proposal(alone[0]).group == ""


def test_the_report_tells_the_smallest_difference_to_every_eye(shop: Workshop) -> None:
    report = shop.colours.report()
    assert set(report.seen) == {"normal", "protan", "deutan", "tritan"}
    assert report.smallest == min(report.seen.values())
    # The palette's own figure is not rounded to whole levels of sRGB.
    colours = [group.colours.base for group in report.groups]
    assert report.smallest == pytest.approx(smallest_difference(colours), abs=0.5)
    assert report.columns == ("picture", "series", "shelf")
    assert report.note == ""


def test_wraps_that_need_the_height_of_a_sheet_are_counted_when_printed_again(
    shop: Workshop,
) -> None:
    """273 mm of 297, one on a sheet: the names then stand up its side."""
    harbour = of_series(shop, "Harbour")[:2]
    shop.designs.change_cases(harbour, "keep-case")
    print_all(shop, harbour)
    assert shop.colours.pin({"harbour": "#004466"}).reprint_sheets == 2


def test_what_was_accepted_follows_its_group_until_it_is_printed(shop: Workshop) -> None:
    harbour = of_series(shop, "Harbour")
    (before,) = bases(shop, harbour)
    print_all(shop, harbour[:2])
    shop.designs.accept(harbour[2:])
    assert shop.designs.proposal(harbour[2]).stage is Stage.TITLE_SET
    report = shop.colours.pin({"harbour": "#004466"})
    assert bases(shop, harbour[2:]) == {"#004466"}, "those in the queue follow"
    assert bases(shop, harbour[:2]) == {before}, "those on paper stay"
    assert shop.designs.proposal(harbour[0]).stage is Stage.PRINTED
    (group,) = (group for group in report.groups if group.name == "Harbour")
    assert group.origin == "pinned"
    assert group.reprint == tuple(harbour[:2])
    assert report.reprint_sheets == 1
    assert "harbour" not in shop.undo()
    assert bases(shop, harbour) == {before}


def test_a_printed_one_takes_its_groups_colour_when_told_and_is_printed_again(
    shop: Workshop,
) -> None:
    harbour = of_series(shop, "Harbour")
    (before,) = bases(shop, harbour)
    print_all(shop, harbour[:2])
    shop.colours.pin({"Harbour": "#004466"})
    report = shop.colours.follow(harbour[:1])
    assert shop.designs.proposal(harbour[0]).design.colours.base == "#004466"
    assert shop.progress().reprints == 1
    assert report.groups[0].reprint == (harbour[1],)
    shop.colours.pin({"Harbour": before})
    assert shop.progress().reprints == 0, "the paper that is there is right again"


def test_a_pressed_sheet_holds_its_colour_and_lets_go_when_withdrawn(shop: Workshop) -> None:
    harbour = of_series(shop, "Harbour")
    (before,) = bases(shop, harbour)
    shop.designs.accept(harbour[:2])
    (sheet,) = shop.sheets.press(part_full=True).sheets
    shop.colours.pin({"Harbour": "#004466"})
    assert bases(shop, harbour[:2]) == {before}
    shop.sheets.withdraw(sheet.number or 0)
    assert bases(shop, harbour[:2]) == {"#004466"}


def test_what_was_printed_in_a_later_colour_of_its_group_stays(shop: Workshop) -> None:
    harbour = of_series(shop, "Harbour")
    shop.designs.accept(harbour[:2])
    shop.colours.pin({"Harbour": "#004466"})
    (sheet,) = shop.sheets.press(part_full=True).sheets
    shop.sheets.settle(sheet.number or 0)
    shop.colours.pin({"Harbour": "#663300"})
    assert bases(shop, harbour[:2]) == {"#004466"}
    assert {shop.designs.proposal(game).stage for game in harbour[:2]} == {Stage.PRINTED}


def test_a_spoiled_one_follows_again(shop: Workshop) -> None:
    harbour = of_series(shop, "Harbour")
    shop.designs.accept(harbour[:2])
    (sheet,) = shop.sheets.press(part_full=True).sheets
    shop.sheets.settle(sheet.number or 0, spoiled=[1])
    shop.colours.pin({"Harbour": "#004466"})
    spoiled, good = (placement.game for placement in sheet.placements)
    assert bases(shop, [spoiled]) == {"#004466"}
    assert shop.designs.proposal(good).stage is Stage.PRINTED


def test_a_colour_of_its_own_stays(shop: Workshop) -> None:
    first, *others = of_series(shop, "Orchard")
    shop.designs.change_colour(first, "#552200")
    shop.colours.pin({"Orchard": "#004466"})
    assert bases(shop, [first]) == {"#552200"}
    assert shop.designs.proposal(first).group == ""
    assert shop.colours.report().own == 1
    shop.designs.change_colour(first, "#004466")
    shop.colours.pin({"Orchard": "#335500"})
    assert bases(shop, [first, *others]) == {"#335500"}, "its group's colour follows the group"


def test_what_was_coloured_before_there_were_groups_takes_them_when_told(shop: Workshop) -> None:
    shop.setup.change(colour_by="picture")
    lantern = of_series(shop, "Lantern")
    shop.designs.accept(lantern)
    shop.designs.change_colour(lantern[0], "#552200")
    shop.setup.change(colour_by="series")
    assert bases(shop, lantern[:1]) == {"#552200"}
    shop.colours.follow()
    assert len(bases(shop, lantern)) == 1
    assert shop.colours.report().own == 0


def test_a_groups_colour_holds_once_it_was_accepted(shop: Workshop, tmp_path: Path) -> None:
    shop.setup.change(colour_by="shelf")
    ids = [game.id for game in shop.games.lines()]
    shop.designs.accept(ids[:1], [Decision.COLOUR])
    (before,) = bases(shop, ids[:1])
    assert [group.origin for group in shop.colours.report().groups] == ["kept", "chosen"]
    more = tmp_path / "more.csv"
    more.write_text("title,shelf\n" + "".join(f"Tin Moss {n},row {n}\n" for n in range(1, 9)))
    shop.games.intake(more, None, "snap-shell")
    assert len(shop.colours.report().groups) == 9
    assert bases(shop, ids[:1]) == {before}


def test_too_many_groups_have_a_second_sign_and_say_so(shop: Workshop, tmp_path: Path) -> None:
    many = tmp_path / "many.csv"
    many.write_text("title,series\n" + "".join(f"Salt Ember {n},Tale {n}\n" for n in range(1, 28)))
    shop.games.intake(many, None, "snap-shell")
    report = shop.colours.report()
    assert "too many to tell apart" in report.note
    looks = {(group.colours.base, group.colours.sign) for group in report.groups}
    assert len(looks) == 30
    assert any(group.colours.sign != "none" for group in report.groups)


def test_choices_begin_with_the_groups_colour(shop: Workshop) -> None:
    game = of_series(shop, "Harbour")[0]
    first, *others = shop.colours.choices(game)
    assert first.base == shop.designs.proposal(game).design.colours.base
    assert first.words == "series: Harbour"
    assert others


def test_what_cannot_be_is_said(shop: Workshop) -> None:
    with pytest.raises(InputError, match=r"no such group of games\. Groups are Harbour, Orchard"):
        shop.colours.pin({"Kite": "#112233"})
    with pytest.raises(InputError, match="is no colour"):
        shop.colours.pin({"Harbour": "reddish"})
    with pytest.raises(InputError, match=r"no such column\. Columns are series"):
        shop.setup.change(colour_by="maker")
    with pytest.raises(RefusedError, match="is in no group"):
        shop.colours.follow(of_series(shop, "")[:1])


def test_pins_are_kept_for_each_column(shop: Workshop) -> None:
    shop.colours.pin({"Harbour": "#004466"})
    shop.setup.change(colour_by="shelf")
    shop.setup.change(colour_by="series")
    assert bases(shop, of_series(shop, "Harbour")) == {"#004466"}


def test_the_ink_mode_of_the_setup_is_followed_until_printed(shop: Workshop) -> None:
    one, two, *_ = of_series(shop, "Harbour")
    print_all(shop, [one])
    shop.designs.accept([two])
    shop.setup.change(ink="grey")
    assert shop.designs.proposal(one).design.ink is InkMode.FULL
    assert shop.designs.proposal(one).stage is Stage.PRINTED
    assert shop.designs.proposal(two).design.ink is InkMode.GREY


def test_columns_are_those_that_say_something() -> None:
    when = Clock()()
    games = [
        Game(id="a", title="A", added_at=when, maker="Quay", extra={"Shelf": "1", "note": ""}),
        Game(id="b", title="B", added_at=when),
    ]
    assert columns_of(games) == ("maker", "Shelf")


def test_groups_are_told_apart_whatever_the_capitals() -> None:
    when = Clock()()
    games = {
        str(n): Game(id=str(n), title=str(n), added_at=when, series=said)
        for n, said in enumerate(("Night  Boat", "night boat", "Day boat"))
    }
    colouring = Colouring(games, {}, Settings(colour_by="series"))
    assert list(colouring.groups) == ["Night Boat", "Day boat"]
    assert colouring.proposed(games["0"], None) == colouring.proposed(games["1"], None)


def test_without_pictures_and_groups_it_is_slate_with_white() -> None:
    game = Game(id="a", title="A", added_at=Clock()())
    assert Colouring({}, {}, Settings()).proposed(game, None) == Colours("#3d4f5c", "#ffffff")


def test_what_an_older_program_wrote_is_read_and_printed_alike() -> None:
    accepted = {
        "case": "snap-shell",
        "art": {"picture": "ab.png", "fit": "stretch", "focus": [0.4, 0.5]},
        "art_at": "2026-03-01T12:00:00Z",
        "colours": {"base": "#204060", "text": "#ffffff"},
        "title": [{"panel": "long", "lines": ["Tide", "Race"], "size": 11.5}],
        "title_at": "2026-03-01T12:00:00Z",
    }
    design = accepted_design(msgspec.convert(accepted, Accepted))
    assert design is not None
    # As fingerprinted before designs had an ink mode and colours a sign: prints still count.
    assert design.fingerprint == "cda93747c141467f"


def test_a_printed_one_stays_printed_when_the_setup_changes(
    shop: Workshop,
) -> None:
    one = of_series(shop, "Harbour")[0]
    print_all(shop, [one])
    shop.setup.change(ink="draft", colour_by="shelf")
    assert shop.designs.proposal(one).stage is Stage.PRINTED
