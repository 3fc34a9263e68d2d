"""One declaration for each action: its key, palette, help and page agree."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.tui.conftest import AtWork
from tests.tui.driving import Hand
from tui import screens
from tui.act import Act, shown_key
from tui.actions import (
    ACTIONS,
    ART,
    BENCH,
    BY_ID,
    DIALOG,
    EVERYWHERE,
    PLACES,
    acts_of,
)
from tui.actions.footer import MOST, footer, one_line
from tui.actions.page import keys_page
from tui.app import SCREENS, SpineryApp
from tui.screens.art import ArtDialog
from tui.screens.dialogs import Dialog, KeyList

ROOT = Path(__file__).parents[2]


def test_the_page_of_keys_is_up_to_date() -> None:
    page = (ROOT / "docs" / "keys.md").read_text(encoding="utf-8")
    assert page == keys_page(), "write it anew: python -m tui.actions > docs/keys.md"


def test_no_two_actions_share_a_name() -> None:
    assert len(BY_ID) == len(ACTIONS)


def own(act: Act) -> bool:
    """Return whether a key may mean nothing else.

    Enter does the main thing to what the cursor is on, whatever that is. Escape stops work that
    takes long before it does anything else.
    """
    return act.key not in {"", "enter"} and act.id != "stop"


@pytest.mark.parametrize("place", PLACES)
def test_no_two_actions_of_a_screen_share_a_key(place: str) -> None:
    keys = Counter(act.key for act in (*acts_of(place), *acts_of(EVERYWHERE)) if own(act))
    assert not [key for key, times in keys.items() if times > 1]


def test_no_two_actions_of_the_art_dialog_share_a_key() -> None:
    keys = Counter(act.key for act in (*acts_of(ART), *acts_of(DIALOG)))
    assert not [key for key, times in keys.items() if times > 1]


def test_a_key_that_two_screens_share_does_the_same_on_both() -> None:
    keys: dict[str, set[str]] = {}
    for act in ACTIONS:
        if set(act.screens) - {DIALOG, ART} and own(act):
            keys.setdefault(act.key, set()).add(act.id)
    assert not [acts for acts in keys.values() if len(acts) > 1]


@pytest.mark.parametrize("act", ACTIONS, ids=lambda act: act.id)
def test_an_action_is_labelled_shortly_and_explained_in_a_sentence(act) -> None:
    assert 0 < len(act.label) <= 15
    assert act.help[0].isupper()
    assert act.help.endswith(".")


@pytest.mark.parametrize("act", ACTIONS, ids=lambda act: act.id)
def test_an_action_has_a_method_where_it_is_bound(act) -> None:
    modes = {place: getattr(screens, screen) for place, screen in SCREENS.items()}
    for screen in act.screens:
        owner = {EVERYWHERE: SpineryApp, DIALOG: Dialog, ART: ArtDialog, **modes}[screen]
        assert hasattr(owner, f"action_{act.id}")


@pytest.mark.parametrize(
    ("key", "shown"), [("ctrl+p", "^p"), ("plus", "+"), ("enter", "Enter"), ("P", "P")]
)
def test_keys_are_shown_as_a_person_reads_them(key: str, shown: str) -> None:
    assert shown_key(key) == shown


def test_the_footer_puts_a_group_in_one_place() -> None:
    shown = footer(dict.fromkeys(("crop_left", "crop_right", "zoom", "undo"), True), BENCH)
    assert [(item.keys, item.label) for item in shown] == [
        ("hl", "Crop"),
        ("u", "Undo"),
        ("z", "Zoom"),
    ]


def test_the_footer_names_what_leads_and_fills_up_with_what_is_not_marked() -> None:
    every = dict.fromkeys(BY_ID, True)
    for place in PLACES:
        here = {act.id for act in acts_of(place)} | {act.id for act in acts_of(EVERYWHERE)}
        shown = [item.act for item in footer({act: every[act] for act in here}, place)]
        assert shown[0] in {"stop", "help"}
        marked = [act for act in acts_of(place) if place in act.leads]
        leading = list({act.group or act.id: act.id for act in reversed(marked)}.values())[::-1]
        own = [act for act in shown if EVERYWHERE not in BY_ID[act].screens]
        assert own[: len(leading)] == leading[:MOST]
        assert len(own) <= MOST
    few = footer({"zoom": True, "folded": True, "help": True}, BENCH)
    assert [item.act for item in few] == ["help", "folded", "zoom"], "none of them is marked"


def test_the_footer_leaves_out_what_cannot_be_done() -> None:
    assert [i.act for i in footer({"accept": False, "zoom": True}, BENCH)] == ["zoom"]


@given(st.sets(st.sampled_from([act.id for act in ACTIONS])), st.integers(8, 160))
def test_the_footer_goes_on_one_line_and_always_names_the_list_of_keys(
    acts: set[str], width: int
) -> None:
    line = one_line(footer(dict.fromkeys(acts | {"help"}, True), BENCH), width)
    assert sum(item.width for item in line) + 2 * (len(line) - 1) <= width
    assert "stop" in acts or "help" in [item.act for item in line]


def look(hand: Hand) -> set[str]:
    """Return the actions that work now, which the list of keys and the palette have to name."""
    bound = hand.offered
    listed = [line.plain for line in KeyList(hand.screen.PLACE).lines(200)]
    offered = {c.title for c in hand.app.get_system_commands(hand.screen)}
    for name in bound:
        act = BY_ID[name]
        assert any(act.shown in line and act.label in line and act.help in line for line in listed)
        assert f"{act.label} ({act.shown})" in offered
    (line,) = hand.sees("KeyBar").splitlines()
    assert "? Keys" in line
    named = [item.act for item in hand.screen.query_one("KeyBar").items]
    assert set(named) <= bound
    assert len(named) > 2, "something of the screen is named"
    return bound


async def walk(hand: Hand) -> set[str]:
    """Go through the screens in states that between them allow every action."""
    seen = look(hand)
    await hand.do("change_art")
    seen |= look(hand)
    await hand.do("accept_sure", "sheets")
    seen |= look(hand)
    with hand.watch.holding("sheets.press"):
        hand.send(BY_ID["press"].key)
        await hand.until(lambda: "Esc Stop" in hand.sees("KeyBar"))
        seen |= look(hand)
    await hand.settle()
    await hand.do("leave")
    seen |= look(hand)
    await hand.do("settle", "bench", "next_batch", "go_plain", "accept", "sheets")
    seen |= look(hand)
    await hand.do("press_part", "choose", "leave", "settle")
    await hand.go_to("settled 2", "#sheets")
    seen |= look(hand)
    await hand.do("backlog", "mark_all")
    seen |= look(hand)
    await hand.do("setup")
    seen |= look(hand)
    hand.workshop.designs.change_colour("lantern-parade", "#aa3311")
    hand.workshop.designs.change_colour("lantern-bay", "#aa3311")
    await hand.do("shelf")
    return seen | look(hand)


@pytest.mark.parametrize("size", [(80, 24), (140, 40)])
async def test_every_action_stands_in_the_palette_and_in_the_list_of_keys(
    size, at_work: AtWork
) -> None:
    async with at_work("batch", size=size) as hand:
        seen = await walk(hand)
    wanted = {act.id for act in ACTIONS if act.key and set(act.screens) - {DIALOG, ART}}
    assert wanted == seen


async def test_the_keys_of_a_dialog_stand_at_its_foot(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("change_case")
        assert "Enter Choose  Esc Leave" in hand.sees("Dialog Run")
