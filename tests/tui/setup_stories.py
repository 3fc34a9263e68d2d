"""Stories that press the keys of the setup."""

from __future__ import annotations

from engine.model import InkMode
from tests.tui.driving import Hand
from tests.tui.stories import presses

KIND = "snap-shell"


async def at_kind(hand: Hand) -> None:
    """Go to the case kind of most games."""
    await hand.do("setup")
    await hand.go_to(KIND, "#kinds")


@presses("setup")
async def setup(hand: Hand) -> None:
    await hand.do("setup")
    assert hand.app.current_mode == "setup"
    assert "games" in hand.sees("#kinds")
    assert "A4 card, 200 g/m²" in hand.sees("#settings")


@presses("new_case", rests=True)
async def new_case(hand: Hand) -> None:
    await hand.do("setup", "new_case")
    await hand.pick("strip")
    await hand.type("Tin edge")
    await hand.press("down")
    await hand.type("70")
    await hand.press("down")
    await hand.type("12")
    await hand.press("enter")
    assert hand.workshop.kinds.kind("tin-edge").name == "Tin edge"
    assert hand.current == "tin-edge"
    assert "cases/tin-edge.toml" in hand.notices()


@presses("trial")
async def trial(hand: Hand) -> None:
    await at_kind(hand)
    await hand.do("trial")
    assert (hand.workshop.folder / "sheets" / "trial-snap-shell.pdf").is_file()
    assert "Trial cut" in hand.sees("#box")
    assert "sharps box" in hand.reads("#box")


@presses("correct")
async def correct(hand: Hand) -> None:
    await at_kind(hand)
    await hand.do("correct")
    before = hand.workshop.kinds.kind("snap-shell")
    await hand.type("0.5")
    assert "becomes" in hand.sees("#preview")
    await hand.press("enter")
    assert hand.workshop.kinds.kind("snap-shell") != before


@presses("kind_pose")
async def kind_pose(hand: Hand) -> None:
    await at_kind(hand)
    await hand.do("kind_pose")
    await hand.pick("drawer")
    assert hand.workshop.setup.settings().poses == {"snap-shell": "drawer"}
    await hand.do("kind_pose")
    await hand.press("end", "enter")
    assert hand.workshop.setup.settings().poses == {}


@presses("stock")
async def stock(hand: Hand) -> None:
    await hand.do("setup", "stock")
    await hand.pick("a4-heavy")
    assert hand.workshop.setup.settings().stock.id == "a4-heavy"
    assert hand.setting("stock") == "A4 heavy paper, 160 g/m²"


@presses("margins")
async def margins(hand: Hand) -> None:
    await hand.do("setup", "margins")
    await hand.press("home", "delete")
    await hand.type("4")
    await hand.press("enter")
    assert hand.workshop.setup.settings().stock.margins.left == 4
    assert hand.setting("margins") == "left 4 right 6 top 6 bottom 12 mm"


@presses("caliper")
async def caliper(hand: Hand) -> None:
    await hand.do("setup", "caliper")
    await hand.press("end", *["backspace"] * 6)
    await hand.type("0.31")
    await hand.press("enter")
    assert hand.workshop.setup.settings().stock.caliper == 0.31


@presses("rule")
async def rule(hand: Hand) -> None:
    await hand.do("setup", "rule")
    await hand.press("down", "enter")
    assert hand.workshop.setup.settings().rule == "knife"


@presses("pose")
async def pose(hand: Hand) -> None:
    await hand.do("setup", "pose")
    await hand.press("home", "down", "down", "enter")
    assert hand.workshop.setup.settings().pose == "stack"
    assert hand.setting("pose") == "stacked, face up"
    await hand.do("pose")
    await hand.press("end", "enter")
    assert hand.workshop.setup.settings().pose is None


@presses("spine_habit")
async def spine_habit(hand: Hand) -> None:
    await hand.do("setup", "spine_habit")
    await hand.press("down", "enter")
    assert hand.workshop.setup.settings().spine == "ascending"


@presses("all_panels")
async def all_panels(hand: Hand) -> None:
    await hand.do("setup", "all_panels")
    await hand.go_to("long", "Table")
    await hand.press("space", "enter")
    assert hand.workshop.setup.settings().left_out == {"": ("long",)}


@presses("usual_case")
async def usual_case(hand: Hand) -> None:
    await hand.do("setup", "usual_case")
    await hand.go_to("soft-cassette", "Table")
    assert "eye protection" in hand.reads("#box")
    await hand.press("enter")
    assert hand.workshop.setup.settings().case == "soft-cassette"


@presses("batch_size")
async def batch_size(hand: Hand) -> None:
    await hand.do("setup", "batch_size")
    await hand.press("backspace")
    await hand.type("9")
    await hand.press("enter")
    assert hand.workshop.setup.settings().batch_size == 9


# --- The list of settings ---------------------------------------------------------------


async def walk_to(hand: Hand, act: str) -> None:
    """Walk down the list of settings to the one that an action changes."""
    await hand.do("setup", "other_list")
    settings = hand.screen.query_one("#settings")
    for _ in settings.rows:
        if settings.current == act:
            return
        await hand.press("down")
    raise AssertionError(f"{act} is not among the settings")


@presses("other_list")
async def other_list(hand: Hand) -> None:
    await hand.do("setup", "other_list")
    await hand.press("down")
    assert "› M Margins" in hand.sees("#settings")
    assert "What the printer" not in hand.sees("#kinds")
    assert "Type what the printer leaves white" in " ".join(hand.sees("#words").split())
    first = hand.current
    await hand.do("other_list")
    await hand.press("down")
    assert hand.current != first


@presses("change_setting")
async def change_setting(hand: Hand) -> None:
    await at_kind(hand)
    await walk_to(hand, "rule")
    await hand.do("change_setting")
    await hand.press("down", "enter")
    assert hand.workshop.setup.settings().rule == "knife"
    await hand.do("other_list", "change_setting")
    assert "Clear snap shell" in hand.sees("#box")
    await hand.pick("kind_pose")
    await hand.pick("shelf")
    assert hand.workshop.setup.settings().poses == {"snap-shell": "shelf"}


@presses("kind_stock")
async def kind_stock(hand: Hand) -> None:
    await at_kind(hand)
    await hand.do("change_setting")
    await hand.press("enter")
    assert "as for all: A4 card" in hand.sees("#box")
    await hand.pick("a5-card")
    assert hand.workshop.setup.settings().stocks == {"snap-shell": "a5-card"}
    assert hand.workshop.setup.settings().stock_of(KIND).name == "A5 card, 200 g/m²"
    await walk_to(hand, "kind_stock")
    said = " ".join(hand.sees("#words").split())
    assert ": A5 card, 200 g/m²" in said
    await hand.do("undo")
    assert hand.workshop.setup.settings().stocks == {}
    await hand.do("change_setting")
    await hand.press("home", "enter")
    assert hand.workshop.setup.settings().stocks == {"snap-shell": "a4-card"}
    await hand.do("change_setting")
    await hand.press("end", "enter")
    assert hand.workshop.setup.settings().stocks == {}


@presses("patience")
async def patience(hand: Hand) -> None:
    await walk_to(hand, "patience")
    await hand.do("change_setting")
    await hand.press("backspace", "0", "enter")
    assert "Give a whole number, 1 or more." in hand.notices()
    await hand.press("backspace", "9", "enter")
    assert hand.workshop.setup.settings().patience == 9
    assert "9 sheets, then the oldest" in " ".join(hand.sees("#words").split())
    await hand.do("undo")
    assert hand.workshop.setup.settings().patience == 4


@presses("kerf")
async def kerf(hand: Hand) -> None:
    await walk_to(hand, "kerf")
    await hand.do("change_setting")
    await hand.press("backspace")
    await hand.type("x")
    await hand.press("enter")
    assert "Give mm, 0 or more." in hand.notices()
    await hand.press("backspace")
    await hand.type("0.5")
    await hand.press("enter")
    assert hand.workshop.setup.settings().kerf == 0.5
    assert "0.5 mm" in hand.sees("#words")
    await hand.do("change_setting")
    await hand.press(*["backspace"] * 3, "9", "enter")
    assert "9 mm is more than the 2 mm between two inserts" in hand.notices()
    await hand.do("undo")
    assert hand.workshop.setup.settings().kerf == 0


# --- Colours and ink --------------------------------------------------------------------


@presses("colour_by")
async def colour_by(hand: Hand) -> None:
    await hand.do("setup", "colour_by")
    assert "each from its picture" in hand.sees()
    await hand.pick("maker")
    assert hand.workshop.setup.settings().colour_by == "maker"


@presses("group_colours")
async def group_colours(hand: Hand) -> None:
    await hand.do("setup", "group_colours")
    assert "No groups" in hand.notices()
    await hand.do("colour_by")
    await hand.pick("maker")
    await hand.do("group_colours")
    assert "Smallest difference" in hand.sees()
    await hand.pick("Quayworks")
    await hand.type("#123456")
    await hand.press("enter")
    assert hand.workshop.setup.settings().pins == {"maker": {"Quayworks": "#123456"}}
    assert "#123456" in hand.sees(), "the groups are shown again"
    await hand.pick("Quayworks")
    await hand.press("down", "enter")
    assert hand.workshop.setup.settings().pins == {}


@presses("usual_ink")
async def usual_ink(hand: Hand) -> None:
    await hand.do("setup", "usual_ink")
    await hand.pick("grey")
    assert hand.workshop.setup.settings().ink is InkMode.GREY
