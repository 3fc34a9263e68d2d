"""Setup: every setting changed in its list, case kinds, and what its forms refuse."""

from __future__ import annotations

import shutil
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator
from pathlib import Path

import pytest

from engine import SETTINGS, Margins, Stock, Workshop, open_workshop
from tests.conftest import Clock
from tests.lettering.making_fonts import make_font
from tests.tui.driving import NAMES, Hand, driven
from tests.tui.setup_stories import KIND, at_kind, at_setting


@pytest.fixture
async def hand(stocked: Workshop) -> AsyncIterator[Hand]:
    """Someone at the keys of a collection of twelve games."""
    async with driven(stocked, (80, 24), rests=True) as someone:
        yield someone


@pytest.fixture
async def hasty(stocked: Workshop) -> AsyncIterator[Hand]:
    """Someone who goes on before anything is drawn."""
    async with driven(stocked, (80, 24)) as someone:
        yield someone


@pytest.fixture
def in_groups(grouped: Path, tmp_path: Path) -> Iterator[Workshop]:
    """A workshop with sixteen games in three series."""
    shop = open_workshop(Path(shutil.copytree(grouped, tmp_path / "shelf")), Clock())
    yield shop
    shop.close()


# --- settings ---------------------------------------------------------------------------

Answer = Callable[[Hand], Awaitable[None]]


def picks(*rows: str) -> Answer:
    """Choose one row after the other."""

    async def answer(hand: Hand) -> None:
        for row in rows:
            await hand.pick(row)

    return answer


def types(*lines: str) -> Answer:
    """Type anew into the lines of a form, one after the other."""

    async def answer(hand: Hand) -> None:
        for n, line in enumerate(lines):
            if n:
                await hand.press("down")
            hand.send("end", *["backspace"] * len(hand.screen.focused.value))
            await hand.settle()
            hand.send(*(NAMES.get(sign, sign) for sign in line))
            await hand.settle()
        await hand.press("enter")

    return answer


def leaves_out(kind: str) -> Answer:
    """Leave the second panel out of a kind, or of all."""

    async def answer(hand: Hand) -> None:
        await hand.pick(kind)
        await hand.press("down", "space", "enter")

    return answer


def finds(words: str) -> Answer:
    """Type words and take the first row that is like them."""

    async def answer(hand: Hand) -> None:
        await hand.type(words)
        await hand.press("enter")

    return answer


ANSWERS: dict[str, tuple[Answer, object]] = {
    "stock": (picks("a4-heavy"), "a4-heavy"),
    "margins": (types("4", "5.5", "6", "7"), (4, 5.5, 6, 7)),
    "caliper": (types("0.31"), 0.31),
    "stocks": (picks(KIND, "a5-card"), {KIND: "a5-card"}),
    "printer": (types("Desk printer"), "Desk printer"),
    "rule": (picks("knife"), "knife"),
    "patience": (types("9"), 9),
    "bleed": (types("0.5"), 0.5),
    "gutter": (types("4"), 4),
    "free_bleed": (types("1.5"), 1.5),
    "free_gutter": (types("8"), 8),
    "kerf": (types("0.5"), 0.5),
    "least_distance": (types("15"), 15),
    "least_edge": (types("40"), 40),
    "stack": (types("1"), 1),
    "reverse": (picks("long"), "long"),
    "machine": (picks("dxf"), "dxf"),
    "batch_size": (types("9"), 9),
    "threshold": (types("0.95"), 0.95),
    "case": (picks("keep-case"), "keep-case"),
    "pose": (picks("stack"), "stack"),
    "poses": (picks(KIND, "drawer"), {KIND: "drawer"}),
    "spine": (picks("ascending"), "ascending"),
    "left_out": (leaves_out(KIND), {KIND: ("long",)}),
    "colour_by": (picks("series"), "series"),
    "ink": (picks("grey"), "grey"),
    "order": (picks("year"), "year"),
    "alphabet": (picks("sv"), "sv"),
    "articles": (types("de French"), ("de", "fr")),
    "dividers": (picks("yes"), True),
    "mode": (picks("free"), "free"),
    "lines": (picks("1"), 1),
    "smallest": (types("6"), 6),
    "largest": (types("18"), 18),
    "narrowest": (types("0.8"), 0.8),
    "distance": (types("700"), 700),
    "upright": (picks(KIND, "yes"), (KIND,)),
    "dictionary": (types("Bay=By, Lantern=Ln."), {"Bay": "By", "Lantern": "Ln."}),
    "mark": (finds("ser"), "series"),
    "mark_room": (types("8"), 8),
    "mark_end": (picks("head"), "head"),
    "mark_across": (picks("yes"), True),
    "stripe": (picks("series"), "series"),
    "stripe_room": (types("3"), 3),
}
"""What is chosen or typed for each setting, and what is set then."""


def test_every_setting_is_tried() -> None:
    elsewhere = {"font", "pins"}
    assert ANSWERS.keys() | elsewhere == SETTINGS.keys()


async def test_a_setting_is_changed_and_taken_back(in_groups: Workshop) -> None:
    """One after the other in one program: what is taken back leaves no trace for the next."""

    def present(name: str) -> object:
        found = SETTINGS[name].value(in_groups.setup.settings())
        if isinstance(found, Margins):
            return (found.left, found.right, found.top, found.bottom)
        return found.id if isinstance(found, Stock) else found

    async with driven(in_groups, (80, 24), rests=False) as hand:
        for name, (answer, value) in ANSWERS.items():
            setting, before = SETTINGS[name], present(name)
            await at_setting(hand, name)
            await hand.do("change_setting")
            assert setting.title.removesuffix(" of a case kind") in hand.sees("#box"), name
            await answer(hand)
            assert present(name) == value
            shown = next(one.words for one in in_groups.setup.lines() if one.setting.id == name)
            assert shown in hand.reads("#words"), name
            assert setting.title in hand.sees("#settings"), name
            await hand.do("undo")
            assert f"Taken back: changed {setting.called}" in hand.notices()
            assert present(name) == before, name


async def test_the_font_is_found_by_its_name_or_its_file(hasty: Hand, tmp_path: Path) -> None:
    await at_setting(hasty, "font")
    await hasty.do("change_setting")
    assert "the font that ships" in hasty.sees("#box")
    await hasty.type("noto sans")
    await hasty.press("enter")
    assert hasty.workshop.setup.settings().lettering.font is not None
    assert "Noto Sans" in hasty.reads("#words")
    await hasty.do("change_setting")
    await hasty.press("enter")
    assert hasty.workshop.setup.settings().lettering.font is None
    await hasty.do("change_setting")
    hasty.screen.query_one("Input").value = str(make_font(tmp_path / "boxes.ttf"))
    await hasty.settle()
    await hasty.press("enter")
    assert hasty.workshop.setup.font_name() == "Boxes Regular"


async def test_groups_are_looked_at_and_given_colours(in_groups: Workshop) -> None:
    async with driven(in_groups, (80, 24), rests=False) as hand:
        await at_setting(hand, "pins")
        await hand.do("change_setting")
        assert "No groups" in hand.notices()
        in_groups.setup.change(colour_by="series")
        await hand.do("change_setting")
        assert "Smallest difference" in hand.reads("#box")
        await hand.pick("Orchard")
        await hand.type("#123456")
        await hand.press("enter")
        assert in_groups.setup.settings().pins == {"series": {"Orchard": "#123456"}}
        assert "#123456" in hand.sees("#box"), "the groups are shown again"
        await hand.pick("Orchard")
        await hand.press("down", "enter")
        assert in_groups.setup.settings().pins == {}


async def test_every_setting_stands_in_the_list_and_in_the_palette(hasty: Hand) -> None:
    await hasty.do("setup")
    assert [row.id for row in hasty.screen.query_one("#settings").rows] == list(SETTINGS)
    await hasty.do("palette")
    await hasty.type("reading dist")
    await hasty.press("down", "enter")
    assert "Reading distance, mm" in hasty.sees("#box")


async def test_nothing_is_set_in_a_read_only_collection(stocked: Workshop) -> None:
    second = open_workshop(stocked.folder)
    try:
        async with driven(second, (80, 24), rests=False) as hand:
            await hand.do("setup", "change_setting", "other_list", "change_setting")
            assert not hand.screen.is_modal
            await hand.do("palette")
            await hand.type("patience")
            await hand.press("down", "enter")
            assert "Patience, sheets" not in hand.sees()
    finally:
        second.close()


@pytest.mark.parametrize("size", [(80, 24), (140, 40)])
async def test_the_list_with_the_keys_has_the_most_room(stocked: Workshop, size) -> None:
    async with driven(stocked, size, rests=True) as hand:
        await hand.do("setup")
        kinds, settings = (hand.screen.query_one(one) for one in ("#kinds", "#settings"))
        before = settings.region.height
        await hand.do("other_list")
        assert settings.region.height >= before
        assert settings.region.height >= kinds.region.height
        await hand.press("down")
        assert "left 6 right 6 top 6 bottom 12 mm" in hand.reads("#words")
        assert "Enter Change" in hand.sees("KeyBar")
        assert not hand.screen.query_one("#kind").display
        await hand.press("end")
        assert settings.current == list(SETTINGS)[-1]
        await hand.do("other_list")
        assert "Flat" in hand.sees("#about")


WRONG = [
    ("margins", "x", "Left: give mm, 0 or more."),
    ("margins", "-4", "Left: give mm, 0 or more."),
    ("batch_size", "", "nothing is no figure."),
    ("batch_size", "0", "batch size: it is 1 or more."),
    ("batch_size", "1.5", "1.5 is no whole number."),
    ("kerf", "thin", "thin is no figure."),
    ("narrowest", "0.2", "narrowest: it is from 0.7 to 1."),
    ("dictionary", "Adventure", "Adventure: write the words and the form"),
]
TOGETHER = [
    ("margins", "60000", "leave a field"),
    ("kerf", "9", "9 mm is more than the 2 mm between two inserts"),
    ("bleed", "1.5", "less than twice the bleed"),
    ("smallest", "30", "is larger than the largest size"),
]
"""What is typed, and what is said against it: of the line itself, and beside other settings."""


async def test_what_is_wrong_is_said_while_it_is_typed(hasty: Hand) -> None:
    before = hasty.saved
    for name, typed, said in WRONG:
        await at_setting(hasty, name)
        await hasty.do("change_setting")
        await types(typed)(hasty)
        assert said in hasty.reads("#preview")
        assert said in " ".join(hasty.notices().split())
        assert hasty.screen.is_modal, "it stays to be put right"
        await hasty.do("leave")
        hasty.app.clear_notifications()
    assert hasty.saved == before


async def test_what_does_not_go_together_is_told(hasty: Hand) -> None:
    before = hasty.saved
    for name, typed, said in TOGETHER:
        await at_setting(hasty, name)
        await hasty.do("change_setting")
        await types(typed)(hasty)
        assert said in hasty.notices()
        hasty.app.clear_notifications()
        if hasty.screen.is_modal:
            await hasty.do("leave")
    assert hasty.saved == before


async def test_a_short_form_that_is_rubbed_out_is_taken_back(hasty: Hand) -> None:
    hasty.workshop.setup.change(dictionary={"Bay": "By", "Sea": "S."})
    await at_setting(hasty, "dictionary")
    await hasty.do("change_setting")
    await types("Sea=S.")(hasty)
    assert hasty.workshop.setup.settings().lettering.dictionary == {"Sea": "S."}


async def test_a_sign_of_ones_own_is_a_mark(hasty: Hand) -> None:
    await at_setting(hasty, "mark")
    await hasty.do("change_setting")
    assert "no mark" in hasty.sees("#box")
    hasty.screen.query_one("Input").value = "=★"
    await hasty.settle()
    assert "a sign of your own" in hasty.sees("#box")
    await hasty.press("enter")
    assert hasty.workshop.setup.settings().lettering.mark == "=★"


async def test_panels_of_every_kind_say_of_which_they_are(hasty: Hand) -> None:
    await at_setting(hasty, "left_out")
    await hasty.do("change_setting")
    await hasty.pick("")
    said = hasty.sees("#box")
    assert "Panels left out: every case kind" in said
    assert " kinds" in said, "many have a back"
    await hasty.press("space", "enter")
    (left_out,) = hasty.workshop.setup.settings().left_out[""]
    assert left_out in said


async def test_one_panel_of_a_kind_has_to_be_kept(hasty: Hand) -> None:
    await at_kind(hasty)
    await hasty.do("panels")
    await hasty.press("space", "down", "space", "down", "space")
    assert "Keep at least one." in hasty.sees("#box")
    await hasty.press("enter")
    assert "Keep at least one." in hasty.sees("#box")
    await hasty.press("space", "enter")
    assert hasty.workshop.setup.settings().left_out == {KIND: ("back", "long")}
    await hasty.do("panels")
    assert hasty.sees("#box").count("left out") == 3, "two rows and the title"


async def test_cautions_show_where_a_kind_is_chosen(hasty: Hand) -> None:
    await at_setting(hasty, "case")
    await hasty.do("change_setting")
    assert "hubs" not in hasty.sees("#box")
    await hasty.go_to("soft-cassette", "Table")
    assert "eye protection" in hasty.reads("#box")


async def test_a_kind_is_chosen_for_a_setting_from_the_one_the_cursor_is_on(hasty: Hand) -> None:
    await at_kind(hasty)
    await at_setting(hasty, "poses")
    await hasty.do("change_setting")
    assert hasty.screen.query_one("Table").current == KIND


# --- case kinds -------------------------------------------------------------------------


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


def own(hand: Hand) -> list[str]:
    """Return the case kinds that were added."""
    return [line.id for line in hand.workshop.kinds.lines() if line.own]


async def test_a_kind_is_shown_with_its_sizes_cautions_and_sources(stocked: Workshop) -> None:
    async with driven(stocked, (140, 40), rests=True) as hand:
        await hand.do("setup")
        assert "12" in hand.sees("#kinds"), "games in snap shells"
        await hand.go_to("soft-cassette", "#kinds")
        said = hand.reads("#about")
        assert "Flat 149.0 × 107.0 mm" in said
        assert "Stored upright on a shelf: spine shows" in said
        assert "Printed on A4 card, 200 g/m²" in said
        assert "! A one-piece soft case needs its two hubs snipped off" in said
        assert "Figures:" in said


async def test_folded_shows_another_picture_and_stays_so(hand: Hand) -> None:
    await at_kind(hand)

    def picture() -> bytes:
        return hand.screen.query_one("Proof").query("*").first().image.getvalue()

    flat = picture()
    await hand.do("folded")
    assert picture() == hand.workshop.kinds.folded_picture(KIND) != flat
    await hand.press("up")
    await hand.press("down")
    assert picture() == hand.workshop.kinds.folded_picture(KIND)
    await hand.do("zoom")
    assert "Clear snap shell" in hand.sees("#box")
    await hand.do("leave", "folded")
    assert picture() == hand.workshop.kinds.net_picture(KIND)


async def test_a_case_is_drawn_while_it_is_typed(hand: Hand) -> None:
    await describe(hand, "wrap", "Tin", "100", "64")
    assert "once all is typed" in hand.reads("#flat")
    assert hand.screen.query_one("#folded").picture is None
    await hand.press("down")
    await hand.type("140")
    assert hand.screen.query_one("#flat").picture.image is not None
    assert hand.screen.query_one("#folded").picture.image is not None
    # 64 − 0.5 − 0.125 and 140 − 0.5 − 0.125, by docs/cases/caliper.md.
    assert "Flat 202.8 × 99.5 mm" in hand.sees("#sizes")
    assert "Is it 14?" in hand.reads("#preview")
    await hand.press("backspace")
    assert "rare" not in hand.sees("#preview")
    assert "Flat 76.8 × 99.5 mm" in hand.sees("#sizes")
    assert own(hand) == []


async def test_enter_goes_to_the_line_that_lacks(hand: Hand) -> None:
    await describe(hand, "strip", "", "70", "12")
    assert "Give it a name." in hand.sees("#preview")
    await hand.press("enter")
    await hand.type("Edge")
    await hand.press("enter")
    assert own(hand) == ["edge"]


async def test_what_is_no_length_is_told(hand: Hand) -> None:
    await describe(hand, "strip", "Edge", "7o")
    assert "7o is no length in mm." in hand.sees("#preview")
    await hand.press("enter")
    assert own(hand) == []


async def test_a_case_that_cannot_be_says_why_in_place_of_its_net(hand: Hand) -> None:
    await describe(hand, "strip", "Edge", "70", "0.3")
    assert "edge" in hand.reads("#flat"), "the clearance of 0.5 mm leaves nothing of it"
    assert hand.sees("#sizes").strip() == ""
    await hand.press("enter")
    assert own(hand) == []
    assert "A case of your own" in hand.sees("#box")


async def test_a_case_that_cannot_be_kept_stays_to_be_put_right(hand: Hand) -> None:
    await describe(hand, "strip", "Snap shell", "70", "12")
    await hand.press("enter")
    assert "is taken" in hand.notices()
    assert "A case of your own" in hand.sees("#box")
    await hand.press("up", "up", "end")
    await hand.type(" edge")
    await hand.press("enter")
    assert own(hand) == ["snap-shell-edge"]
    assert hand.current == "snap-shell-edge"


async def test_a_comma_is_a_decimal_point(hand: Hand) -> None:
    await at_kind(hand)
    await hand.do("correct")
    await hand.press("0", "comma", "5")
    await hand.press("enter")
    assert "0.5 mm less" in hand.workshop.kinds.kind(KIND).sources[-1]


async def test_a_correction_tells_what_becomes_of_it_or_what_is_wrong(hand: Hand) -> None:
    await at_kind(hand)
    await hand.do("correct")
    assert "Leave blank what fits." in hand.sees("#preview")
    await hand.press("enter")
    assert "Too long on the trial cut" in hand.sees("#box"), "nothing is typed yet"
    await hand.type("half")
    assert "half: is no figure in mm." in hand.sees("#preview")
    await hand.press(*["backspace"] * 4)
    await hand.type("-0.5")
    assert "becomes" in hand.sees("#preview")
    await hand.do("leave")
    assert own(hand) == []
