"""Setup shows what a setting does, and in its dialog what a value would do before it is taken."""

from __future__ import annotations

import pytest
from textual.geometry import Size

from engine import Workshop
from tests.tui.driving import Hand, driven
from tests.tui.setup_stories import KIND, at_setting
from tui.widgets.effect import EffectView
from tui.widgets.proof import Proof
from tui.widgets.sheetmap import SheetMap


def view(hand: Hand) -> EffectView:
    """Return what shows it, on the screen or in the dialog over it."""
    return hand.screen.query_one(EffectView)


def shown(hand: Hand) -> set[str]:
    """Return which of the map and the picture are to be seen."""
    parts = {"map": view(hand).query_one(SheetMap), "picture": view(hand).query_one(Proof)}
    return {name for name, part in parts.items() if part.display and part.region}


def says(hand: Hand) -> str:
    return hand.reads("EffectView")


async def test_the_highlighted_setting_shows_what_it_does(stocked: Workshop) -> None:
    async with driven(stocked, (80, 24), rests=True) as hand:
        await at_setting(hand, "stock")
        assert shown(hand) == {"map"}
        # 2 by 3 inserts of 72.75 × 80.75 mm on A4: by arithmetic in tests/service/test_effects.py.
        assert "6 to a sheet" in says(hand)
        assert "instead of" not in says(hand)
        assert "Lan" in hand.sees("SheetMap")
        await hand.go_to("printer", "#settings")
        assert shown(hand) == set()
        assert says(hand) == ""
        await hand.go_to("pose", "#settings")
        assert shown(hand) == {"picture"}
        assert "title from top to bottom" in says(hand)
        picture = view(hand).query_one(Proof)
        assert picture.picture.region.size.area > 0.2 * picture.region.size.area
        await hand.go_to("lines", "#settings")
        assert "smallest type" in says(hand)
        assert "Lantern Bay 10, " in says(hand)
        assert picture.picture.region.size != Size(0, 0)


async def test_a_value_is_shown_before_it_is_taken(stocked: Workshop) -> None:
    async with driven(stocked, (80, 24), rests=True) as hand:
        saved = hand.saved
        await at_setting(hand, "stock")
        await hand.do("change_setting")
        assert "6 to a sheet," in says(hand), "as it is"
        await hand.go_to("a5-card", "Table")
        assert "2 to a sheet instead of 6" in says(hand)
        assert shown(hand) == {"map"}
        assert hand.saved == saved, "nothing is taken yet"
        await hand.do("leave")
        assert "6 to a sheet," in says(hand)
        await hand.do("change_setting")
        await hand.pick("a5-card")
        assert "2 to a sheet," in says(hand)
        assert hand.saved != saved


async def test_what_is_typed_is_shown_while_it_can_be_so(stocked: Workshop) -> None:
    async with driven(stocked, (80, 24), rests=True) as hand:
        await at_setting(hand, "largest")
        await hand.do("change_setting")
        await hand.type("6")
        assert "smallest type 6 pt instead of" in says(hand)
        assert shown(hand) == {"picture"}
        await hand.type("x")
        assert "6x is no figure." in hand.reads("#preview")
        assert "smallest type 6 pt" not in says(hand)
        await hand.do("leave")
        await hand.go_to("bleed", "#settings")
        await hand.do("change_setting")
        await hand.type("3")
        assert "less than twice the bleed" in says(hand)
        assert shown(hand) == set()
        assert not hand.notices(), "it is only tried"


async def test_panels_fonts_and_kinds_are_tried_too(stocked: Workshop) -> None:
    async with driven(stocked, (80, 24), rests=True) as hand:
        await at_setting(hand, "left_out")
        await hand.do("change_setting")
        await hand.pick(KIND)
        await hand.press("down", "space")
        assert "9 to a sheet instead of 6" in says(hand)
        assert shown(hand) == {"picture"}
        await hand.do("leave")
        await hand.go_to("mark", "#settings")
        await hand.do("change_setting")
        hand.screen.query_one("Input").value = "=★"
        await hand.settle()
        assert "Lantern Bay 1, 19.8 pt, mark ★, instead of Lantern Bay 1, 19.8 pt." in says(hand)
        picture = view(hand).query_one(Proof).picture.region
        assert picture.size.height > 2
        assert view(hand).region.contains_region(picture)
        await hand.do("leave")
        await hand.go_to("poses", "#settings")
        await hand.do("change_setting")
        await hand.pick(KIND)
        await hand.go_to("stack", "Table")
        assert "title level, instead of" in says(hand)


async def test_the_keys_go_on_and_the_latest_wins(stocked: Workshop) -> None:
    async with driven(stocked, (80, 24), rests=True) as hand:
        await at_setting(hand, "margins")
        before = says(hand)
        with hand.watch.holding("effects.effect"):
            hand.send("down", "down", "down")
            table = hand.screen.query_one("#settings")
            await hand.until(lambda: table.current == "printer")
            hand.send("up", "up")
            await hand.until(lambda: table.current == "caliper")
            assert "72.75 mm wide" not in says(hand), "it is still worked out"
            assert before not in says(hand) or before == "", "nor is the last one shown for it"
        await hand.settle()
        assert "flat 72.75 mm wide" in says(hand)
        assert not hand.notices(), "what was walked past is given up without a word"


async def test_it_says_so_where_there_is_no_game(workshop: Workshop) -> None:
    async with driven(workshop, (80, 24), rests=True) as hand:
        await at_setting(hand, "order")
        assert "No game is there to show it on." in says(hand)
        await hand.go_to("stock", "#settings")
        assert "6 to a sheet" in says(hand)


async def test_without_colours_the_words_and_the_map_stay(
    stocked: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """NO_COLOR (no-color.org) asks for no colour; pictures of blocks would be nothing but that."""
    monkeypatch.setenv("NO_COLOR", "1")
    async with driven(stocked, (80, 24), rests=True) as hand:
        await at_setting(hand, "rule")
        assert "10 cuts" in says(hand)
        assert shown(hand) == {"map"}
        await hand.go_to("pose", "#settings")
        assert "title from top to bottom" in says(hand)
        assert "NO_COLOR is set" in says(hand)
