"""Words for how art lies, and for which picture is shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine import CROP_STEP, LINE_STEP, TURN_STEP, Decision, InputError, PictureChoice, figure
from tui.actions import BY_ID
from tui.artchanges import CHANGES, LINES, SPINE, ArtChange, cropped, moved, turned
from tui.gamewords import art_choices
from tui.plain.deciding import listed, tell_changed
from tui.plain.word import Do, Words

if TYPE_CHECKING:
    from tui.plain.desk import Desk

LYING = Words("To lay art")

word = LYING.word

LISTED = 9
"""Pictures that are listed at a time."""

HOW = "pictures WORDS"

NONE = "none"
"""In the place of a picture."""

WAYS = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}


def change(desk: Desk, act: str, how: ArtChange) -> None:
    """Change the art of the game at hand, and tell what an action of the screens comes to."""
    game = how(desk.shop, desk.present)
    tell_changed(desk, game, Decision.ART)
    for acts, words in art_choices(game):
        if act in acts and act != "change_art":
            desk.say(f"{_name(acts)}: {words}.")


def _name(acts: tuple[str, ...]) -> str:
    return BY_ID[acts[0]].group or BY_ID[acts[0]].label


def _changing(act: str) -> Do:
    return lambda desk, _: change(desk, act, CHANGES[act])


def _percent(said: str, usual: float) -> float:
    """Return a part of the picture that is given in percent."""
    return usual if not said else _number(said.removesuffix("%").strip(), "percent", "5") / 100


def _number(said: str, unit: str, example: str) -> float:
    value = figure(said)
    if value is None:
        raise InputError(said, "is no number", f"Give {unit}, as {example}")
    return value


for _typed, _act in {
    "art": "change_art",
    "plain": "go_plain",
    "split": "split",
    "matte": "next_matte",
    "pattern": "next_pattern",
    "inkmode": "next_ink",
}.items():
    LYING.act(_typed, _act, _changing(_act))


@word("details", acts="edit_art")
def details(desk: Desk, _: str) -> None:
    """Tell how the art lies, choice by choice."""
    desk.say(f"{_name(acts)}: {words}." for acts, words in art_choices(desk.proposal()))


@word("crop", "left|right|up|down [PERCENT]", acts="crop_left crop_right crop_up crop_down")
def crop(desk: Desk, rest: str) -> None:
    """Keep more of that side of a cropped picture, by ten percent of it or so many as are said."""
    way, _, by = rest.partition(" ")
    if way not in WAYS:
        raise InputError(way or "crop", "is no way to go", f"Give one of {', '.join(WAYS)}")
    right, down = (part * _percent(by, CROP_STEP) for part in WAYS[way])
    change(desk, f"crop_{way}", cropped(right, down))


@word("trim", "[left|top|right|bottom PERCENT]", acts="next_trim next_line line_in line_out")
def trim(desk: Desk, rest: str) -> None:
    """Trim half a percent more of a side, or so many as are said.

    A negative number gives some back. Alone, take the next trim that was found: the border, a bar
    or banner, nothing.
    """
    side, _, by = rest.partition(" ")
    if not side:
        change(desk, "next_trim", CHANGES["next_trim"])
    elif side in LINES:
        change(desk, "next_trim", moved(side, _percent(by, LINE_STEP)))
    else:
        raise InputError(side, "is no side", "Give one of left, top, right, bottom")


@word("spine", "begins|ends [PERCENT]", acts="next_line line_in line_out")
def spine(desk: Desk, rest: str) -> None:
    """Move where the spine of a flat cover begins or ends to the right, by half a percent.

    Or by so many as are said; a negative number moves it to the left.
    """
    line, _, by = rest.partition(" ")
    if f"spine {line}" not in SPINE:
        raise InputError(line or "spine", "is no line of it", "Give begins or ends")
    change(desk, "split", moved(f"spine {line}", _percent(by, LINE_STEP)))


@word("turn", "left|right [DEGREES]", acts="turn_left turn_right")
def turn(desk: Desk, rest: str) -> None:
    """Turn the picture to straighten it, by a quarter of a degree or so many as are said.

    Left is counter-clockwise.
    """
    way, _, by = rest.partition(" ")
    if way not in {"left", "right"}:
        raise InputError(way or "turn", "is no way to turn", "Give left or right")
    degrees = _number(by, "degrees", "1.5") if by else TURN_STEP
    change(desk, f"turn_{way}", turned(degrees if way == "left" else -degrees))


# --- which picture ----------------------------------------------------------------------------


@word("pictures", "[WORDS]", acts="change_picture")
def pictures(desk: Desk, words: str) -> None:
    """List pictures that are like some words, or like the title."""
    found = desk.shop.choosing.pictures(words or desk.proposal().title)[:LISTED]
    desk.pictures = tuple(one.name for one in found)
    for number, one in enumerate(found, start=1):
        desk.say(f"{number}: {picture_words(one)}")
    desk.say("picture and a number takes one." if found else "No picture is like it.")


def picture_words(one: PictureChoice) -> str:
    """Return a picture's file name, its size in pixels, and whose it is."""
    of = f", {one.role} of {one.owner}" if one.owner else ", no game's"
    return f"{one.source}, {one.width} by {one.height} pixels{of}"


@word("picture", "NUMBER", acts="change_picture")
def picture(desk: Desk, rest: str) -> None:
    """Take a picture of the list by its number."""
    name = listed(rest, desk.pictures, HOW)
    tell_changed(desk, desk.shop.designs.swap_picture(desk.present, name), Decision.ART)


@word("panel", "[PANEL NUMBER|none]", acts="panel_art")
def panel(desk: Desk, rest: str) -> None:
    """Show a picture of the list on the back or another panel, or none there.

    Alone, tell what each panel shows.
    """
    if rest:
        where, _, said = rest.partition(" ")
        name = None if said == NONE else listed(said, desk.pictures, HOW)
        desk.shop.sides.show(desk.present, where, name)
    for one in desk.shop.sides.of(desk.present).panels:
        desk.say(f"{one.panel}: {one.source or 'no picture'}{', chosen' if one.chosen else ''}")
