"""The actions of the dialog in which the art of one insert is worked on."""

from __future__ import annotations

from tui.act import ART, BENCH, SETUP, Act

_ART = (ART,)

ART_ACTIONS: tuple[Act, ...] = (
    Act(
        "edit_art",
        "E",
        "Edit art",
        "Work on the art beside its proof: trim, straighten, split, matte, pattern and ink.",
        (BENCH,),
        changes=True,
    ),
    Act(
        "next_trim",
        "t",
        "Trim",
        "Take the next trim that was found: the border, a bar or banner, nothing.",
        _ART,
        changes=True,
    ),
    Act(
        "next_line",
        "s",
        "Line",
        "Go to the next line to move: a trimmed side, or where the spine begins or ends.",
        _ART,
    ),
    Act(
        "line_out",
        "minus",
        "Line back",
        "Give back half a percent of the side, or move the line of the spine to the left.",
        _ART,
        changes=True,
        group="Move",
    ),
    Act(
        "line_in",
        "plus",
        "Line on",
        "Trim half a percent more of the side, or move the line of the spine to the right.",
        _ART,
        changes=True,
        group="Move",
    ),
    Act(
        "split",
        "x",
        "Split",
        "Take the picture as a flat cover, back, spine and front, or whole again.",
        _ART,
        changes=True,
    ),
    Act(
        "turn_left",
        "left_square_bracket",
        "Turn left",
        "Turn the picture by a quarter of a degree counter-clockwise.",
        _ART,
        changes=True,
        group="Turn",
    ),
    Act(
        "turn_right",
        "right_square_bracket",
        "Turn right",
        "Turn the picture by a quarter of a degree clockwise.",
        _ART,
        changes=True,
        group="Turn",
    ),
    Act(
        "next_matte",
        "m",
        "Matte",
        "Show the picture whole, with the next matte around it.",
        _ART,
        changes=True,
    ),
    Act(
        "next_pattern",
        "p",
        "Pattern",
        "Use no picture, but the next pattern, or the title set large.",
        _ART,
        changes=True,
    ),
    Act(
        "next_ink",
        "i",
        "Ink",
        "Print this insert with the next amount of ink.",
        _ART,
        changes=True,
    ),
)

COLOUR_ACTIONS: tuple[Act, ...] = (
    Act(
        "colour_by",
        "G",
        "Coloured by",
        "Choose the column of the list whose groups have one colour each, or the pictures.",
        (SETUP,),
        changes=True,
        group="Change",
    ),
    Act(
        "group_colours",
        "O",
        "Group colours",
        "Look at the colours of the groups, and give one of them another.",
        (SETUP,),
        changes=True,
        group="Change",
    ),
    Act(
        "usual_ink",
        "J",
        "Ink",
        "Choose how much ink inserts are printed with.",
        (SETUP,),
        changes=True,
        group="Change",
    ),
)
