"""Setup: what it shows of kinds and settings, and what its forms refuse."""

from __future__ import annotations

import pytest

from engine.model.errors import CollectionError
from tests.tui.conftest import AtWork
from tests.tui.driving import Hand
from tests.tui.setup_stories import at_kind
from tui.actions import BY_ID
from tui.arguments import parser


async def fill(hand: Hand, *values: str) -> None:
    """Type into the lines of a form, one after the other."""
    for n, value in enumerate(values):
        if n:
            await hand.press("down")
        await hand.type(value)


async def describe(hand: Hand, shape: str, *values: str) -> None:
    """Begin a case of one's own of a shape."""
    await hand.do("setup", "new_case")
    await hand.pick(shape)
    await fill(hand, *values)


async def test_a_kind_is_shown_with_its_sizes_cautions_and_sources(at_work: AtWork) -> None:
    async with at_work(size=(140, 40), rests=True) as hand:
        await at_kind(hand)
        assert "› Clear snap shell, standard handheld cartridge 12" in hand.reads("#kinds")
        await hand.go_to("soft-cassette", "#kinds")
        said = " ".join(hand.sees("#about").split())
        assert "Flat 149.0 × 107.0 mm" in said
        assert "Stored upright on a shelf: spine shows" in said
        assert "! A one-piece soft case needs its two hubs snipped off" in said
        assert "Figures:" in said


@pytest.mark.parametrize("size", [(80, 24), (140, 40)])
async def test_the_list_with_the_cursor_has_the_most_room_and_says_all_of_a_setting(
    size, at_work: AtWork
) -> None:
    async with at_work(size=size, rests=True) as hand:
        await hand.do("setup")
        kinds, settings = (hand.screen.query_one(one) for one in ("#kinds", "#settings"))
        assert "A Paper" in hand.sees("#settings")
        before = settings.region.height
        await hand.do("other_list")
        assert settings.region.height >= before
        assert settings.region.height >= kinds.region.height
        await hand.press("down")
        said = " ".join(hand.sees("#words").split())
        assert "left 6 right 6 top 6 bottom 12 mm" in said
        assert "Enter or M changes it. u takes a change back." in said
        assert not hand.screen.query_one("#kind").display
        await hand.press("end")
        assert settings.current == "upright"
        await hand.do("other_list")
        assert "Flat" in hand.sees("#about")


async def test_every_setting_of_the_command_line_stands_in_the_list(at_work: AtWork) -> None:
    """Each option of ``spinery setup`` has its row; one that is added needs one."""
    rows = {
        "stock": "stock",
        "rule": "rule",
        "margins": "margins",
        "caliper": "caliper",
        "case": "usual_case",
        "batch_size": "batch_size",
        "stock_of": "kind_stock",
        "patience": "patience",
        "kerf": "kerf",
        "stored": "pose",
        "spines": "spine_habit",
        "without": "all_panels",
        "colour_by": "colour_by",
        "ink": "usual_ink",
        "font": "font",
        "face": "font",
        "lettering": "lettering",
        "lines": "type_sizes",
        "smallest": "type_sizes",
        "largest": "type_sizes",
        "narrowest": "type_sizes",
        "reads_at": "type_sizes",
        "upright": "upright",
        "short": "type_sizes",
        "mark": "edge_marks",
        "mark_room": "edge_marks",
        "mark_end": "edge_marks",
        "mark_across": "edge_marks",
        "stripe": "edge_marks",
        "stripe_room": "edge_marks",
    }
    asked = vars(parser().parse_args(["setup"])).keys() - {"command", "collection", "json"}
    assert asked == rows.keys()
    async with at_work() as hand:
        await hand.do("setup")
        listed = {row.id for row in hand.screen.query_one("#settings").rows}
        assert set(rows.values()) <= listed
        assert listed <= BY_ID.keys()
        offered = {command.title for command in hand.app.get_system_commands(hand.screen)}
        assert {"Patience", "Kerf", "Paper of kind", "Paper (A)"} <= offered


async def test_nothing_is_set_in_a_read_only_collection(at_work: AtWork) -> None:
    async with at_work(twice=True) as hand:
        await hand.do("setup", "change_setting", "other_list", "change_setting")
        assert not hand.screen.is_modal
        offered = {command.title for command in hand.app.get_system_commands(hand.screen)}
        assert "Patience" not in offered


async def test_folded_shows_another_picture_and_stays_so(at_work: AtWork) -> None:
    async with at_work(rests=True) as hand:
        await at_kind(hand)
        flat = hand.picture("Proof")
        await hand.do("folded")
        assert hand.picture("Proof") == hand.workshop.kinds.folded_picture("snap-shell") != flat
        await hand.go_to("soft-cassette", "#kinds")
        assert hand.picture("Proof") == hand.workshop.kinds.folded_picture("soft-cassette")
        await hand.do("zoom")
        assert "Soft cassette case" in hand.sees("#box")
        await hand.do("leave", "folded")
        assert hand.picture("Proof") == hand.workshop.kinds.net_picture("soft-cassette")


# --- A case of one's own ----------------------------------------------------------------


async def test_a_case_is_drawn_while_it_is_typed(at_work: AtWork) -> None:
    async with at_work(rests=True) as hand:
        await describe(hand, "wrap", "Tin", "100", "64")
        assert "once all is typed" in " ".join(hand.sees("#flat").split())
        assert hand.screen.query_one("#folded").query("*").first().image is None
        await hand.press("down")
        await hand.type("140")
        assert hand.screen.query_one("#flat").query("*").first().image is not None
        assert hand.screen.query_one("#folded").query("*").first().image is not None
        # 64 − 0.5 − 0.125 and 140 − 0.5 − 0.125, by docs/cases/caliper.md.
        assert "Flat 202.8 × 99.5 mm" in hand.sees("#sizes")
        assert "Is it 14?" in " ".join(hand.sees("#preview").split())
        await hand.press("backspace")
        assert "rare" not in hand.sees("#preview")
        assert "Flat 76.8 × 99.5 mm" in hand.sees("#sizes")
        assert "kinds.add" not in hand.watch.calls


async def test_enter_goes_to_the_line_that_lacks(at_work: AtWork) -> None:
    async with at_work() as hand:
        await describe(hand, "strip", "", "70", "12")
        assert "Give it a name." in hand.sees("#preview")
        await hand.press("enter")
        await hand.type("Edge")
        await hand.press("enter")
        assert hand.workshop.kinds.kind("edge").name == "Edge"


async def test_what_is_no_length_is_told(at_work: AtWork) -> None:
    async with at_work() as hand:
        await describe(hand, "strip", "Edge", "7o")
        assert "7o is no length in mm." in hand.sees("#preview")
        await hand.press("enter")
        assert "kinds.add" not in hand.watch.calls


async def test_a_case_that_cannot_be_says_why_in_place_of_its_net(at_work: AtWork) -> None:
    async with at_work(rests=True) as hand:
        await describe(hand, "strip", "Edge", "70", "0.3")
        said = " ".join(hand.sees("#flat").split())
        assert "edge" in said, "the clearance of 0.5 mm leaves nothing of it"
        assert hand.sees("#sizes").strip() == ""
        await hand.press("enter")
        assert "A case of your own" in hand.sees("#box")
        assert not (hand.workshop.folder / "cases" / "edge.toml").exists()


async def test_a_case_that_cannot_be_kept_stays_to_be_put_right(at_work: AtWork) -> None:
    async with at_work() as hand:
        await describe(hand, "strip", "Snap shell", "70", "12")
        await hand.press("enter")
        assert "is taken" in hand.notices()
        assert "A case of your own" in hand.sees("#box")
        await hand.press("up", "up", "end")
        await hand.type(" edge")
        error = CollectionError("cases", "cannot be written", "Make room on the disk")
        with hand.watch.failing("kinds.add", error):
            await hand.press("enter")
        assert "cannot be written" in hand.notices()
        await hand.press("enter")
        assert hand.current == "snap-shell-edge"


async def test_a_comma_is_a_decimal_point(at_work: AtWork) -> None:
    async with at_work() as hand:
        await at_kind(hand)
        await hand.do("correct")
        await hand.press("0", "comma", "5")
        await hand.press("enter")
        assert "0.5 mm less" in hand.workshop.kinds.kind("snap-shell").sources[-1]


async def test_a_correction_tells_what_becomes_of_it_or_what_is_wrong(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("setup", "correct")
        assert "Leave blank what fits." in hand.sees("#preview")
        await hand.press("enter")
        assert "Too long on the trial cut" in hand.sees("#box"), "nothing is typed yet"
        await hand.type("half")
        assert "half: is no figure in mm." in hand.sees("#preview")
        await hand.press(*["backspace"] * 4)
        await hand.type("-0.5")
        assert "becomes" in hand.sees("#preview")
        await hand.do("leave")
        assert "kinds.correct" not in hand.watch.calls


# --- Panels and settings ----------------------------------------------------------------


async def test_the_panel_of_every_kind_says_of_which_it_is(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("setup", "all_panels")
        said = hand.sees("#box")
        assert "Edge label for a case" in said
        assert "10 kinds" in said, "most have a back"


async def test_margins_and_counts_that_are_none_are_told(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("setup", "margins")
        await hand.type("x")
        assert "Left: give mm" in hand.sees("#preview")
        await hand.press("enter")
        await hand.do("leave", "batch_size")
        await hand.press("backspace")
        assert "1 or more" in hand.sees("#preview")
        await hand.press("0", "enter")
        await hand.do("leave")
        assert "setup.change" not in hand.watch.calls


async def test_margins_that_leave_no_field_are_refused(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("setup", "margins")
        await hand.press("end")
        await hand.type("0000")
        await hand.press("enter")
        assert "leave a field" in hand.notices()
        assert hand.workshop.setup.settings().stock.margins.left == 6


async def test_the_setup_is_taken_back_by_undo(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("setup", "rule")
        await hand.press("down", "enter")
        await hand.do("undo")
        assert hand.workshop.setup.settings().rule == "trimmer"
        assert hand.setting("rule") == "trimmer: every cut goes edge to edge"
