"""Containers and places, as the workshop keeps them."""

from __future__ import annotations

import pytest

from engine import CaseError, InputError, RefusedError, Workshop


@pytest.fixture
def two_shelves(stocked: Workshop) -> Workshop:
    """Twelve games, and two shelves with room for eight shells of 12 mm each, six at first."""
    stocked.room.measure_case("snap-shell", (66, 74, 12))
    for name in ("Left", "Right"):
        stocked.room.add(name, (100, 80, 70), growth=0.25)
    return stocked


def test_capacities_by_hand(two_shelves: Workshop) -> None:
    """100 / 12 = 8 on a shelf. Seen from its head: 100 / 66 = 1 row of 70 / 12 = 5.

    Lying, its spine of 74 mm to the front: 100 / 74 = 1 pile of 80 / 12 = 6.
    """
    (left, _) = two_shelves.room.report().containers
    (fill,) = left.holds
    assert (fill.case, fill.shelf, fill.drawer, fill.stack) == ("snap-shell", 8, 5, 6)
    assert (left.games, left.room) == (6, 2)
    assert (left.first, left.last) == ("Lantern Bay 1", "Lantern Bay 6")


def test_a_divider_takes_the_room_that_it_stands_in(two_shelves: Workshop) -> None:
    """Of 96.2 mm, 8 cases of 12 mm take 96; 6 mm of a divider's edges leave room for 7.

    Without its edges a divider is a card of 0.25 mm: 96.25 are too many still. 0.19 are not.
    """
    shop = two_shelves
    shop.room.add("Left", (96.2, 80, 70), growth=0.0)

    def held() -> int:
        left, _ = shop.room.report().containers
        return left.games + left.room

    assert held() == 8
    shop.dividers.add()
    assert held() == 7
    shop.room.measure_case("divider", (66, 80, 12.2))
    assert held() == 7
    shop.room.measure_case("divider", (66, 80, 12.3))
    assert held() == 6
    shop.room.measure_case("divider", None)
    shop.setup.change(left_out={"divider": ("side", "top")})
    assert held() == 7
    shop.setup.change(stocks={"divider": "a4-heavy"})
    assert held() == 8, "A4 of 160 g/m2 is 0.19 mm thick (common practice)"


def test_places_are_settled_in_one_change_and_stay(two_shelves: Workshop) -> None:
    shop = two_shelves
    assert len(shop.room.report().new) == 12
    kept = shop.room.keep()
    assert kept.new == kept.moves == ()
    assert all(place.kept for place in kept.places)
    shop.room.add("Right", (20, 80, 70))
    report = shop.room.report()
    assert [place.title for place in report.moves] == ["Lantern Bay 7", "Lantern Bay 8"]
    assert report.homeless == ("Lantern Bay 10", "Lantern Bay 11", "Lantern Bay 12")
    shop.undo()
    assert shop.undo() == "put in its place Lantern Bay 1 and 11 more"
    assert len(shop.room.report().new) == 12


def test_a_game_is_found_with_slips_in_its_title(two_shelves: Workshop) -> None:
    two_shelves.room.keep()
    (found,) = two_shelves.room.where("lantern bay 10")
    assert found.place is not None
    assert found.place.spot == ("Right", 1, 4)
    assert (found.after, found.before) == ("Lantern Bay 9", "Lantern Bay 11")
    assert found.colour.startswith("#")
    assert two_shelves.room.where("lanten bay 1")[0].title == "Lantern Bay 1"
    assert two_shelves.room.where("quartz zebra") == two_shelves.room.where(" ") == ()


def test_what_fits_nowhere_is_said(stocked: Workshop) -> None:
    stocked.room.add("Low", (500, 60, 200))
    report = stocked.room.report()
    assert len(report.homeless) == 12
    assert "12 games in snap-shell fit nowhere" in report.notes[0]


def test_cases_that_are_stored_otherwise_are_told(stocked: Workshop) -> None:
    stocked.room.add("Drawer", (500, 100, 500), pose="drawer")
    assert "spinery setup --stored-of snap-shell=POSE" in stocked.room.report().notes[0]


def test_bad_figures_are_refused(stocked: Workshop) -> None:
    room = stocked.room
    with pytest.raises(InputError, match="no such container"):
        room.add("Hall")
    with pytest.raises(InputError, match="above 0"):
        room.add("Hall", (0, 10, 10))
    with pytest.raises(CaseError, match="no such case kind"):
        room.add("Hall", (10, 10, 10), kinds=("vellum",))
    with pytest.raises(CaseError, match="no such case kind"):
        room.measure_case("vellum", None)
    with pytest.raises(RefusedError, match="no shelf, drawer or box"):
        room.keep()
    with pytest.raises(InputError, match="Containers are none yet"):
        room.forget("Hall")
    assert stocked.setup.settings().containers == ()


def test_what_was_in_a_forgotten_container_is_nowhere(two_shelves: Workshop) -> None:
    two_shelves.room.keep()
    two_shelves.room.forget("Left")
    report = two_shelves.room.report()
    assert len(report.new) + len(report.homeless) >= 6
    assert [one.container.name for one in report.containers] == ["Right"]
