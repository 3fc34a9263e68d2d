"""Every action of the terminal program, declared once.

From these declarations come the key bindings, the footer, the command palette, the help
screen and ``docs/keys.md`` (``python -m tui.actions > docs/keys.md``). A test holds that
each of them is exercised by pressing its key.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from textual.binding import Binding

from tui.act import ART, BACKLOG, BENCH, DIALOG, EVERYWHERE, PLACES, SETUP, SHEETS, Act
from tui.artacts import ART_ACTIONS, COLOUR_ACTIONS
from tui.titleacts import LETTERING_ACTIONS, WORDING_ACTIONS

_GAMES = (BENCH, BACKLOG)
_BENCH = (BENCH,)
_BACKLOG = (BACKLOG,)
_SHEETS = (SHEETS,)
_SETUP = (SETUP,)
_DIALOG = (DIALOG,)

ACTIONS: tuple[Act, ...] = (
    Act(
        "accept",
        "enter",
        "Accept",
        "Accept everything proposed for the game and go to the next; "
        "when the batch is done, bring the next batch.",
        _GAMES,
        changes=True,
    ),
    Act(
        "accept_sure",
        "y",
        "Accept sure",
        "Accept the proposals of all games of the batch, or of all marked, that are sure.",
        _GAMES,
        changes=True,
    ),
    Act(
        "next_batch",
        "g",
        "Bring next",
        "Fill today's batch with the games that fill a sheet soonest, on the Backlog only with "
        "those shown or marked, and say what comes of it.",
        _GAMES,
        changes=True,
    ),
    Act(
        "change_case",
        "c",
        "Case",
        "Put the game, or all marked, in another kind of case.",
        _GAMES,
        changes=True,
    ),
    Act(
        "change_art",
        "a",
        "Fit art",
        "Fit the art in the next way: stretched, whole with a matte, filled, plain.",
        (BENCH, ART),
        changes=True,
    ),
    Act(
        "crop_left",
        "h",
        "Crop left",
        "Keep more of the left of a cropped picture.",
        (BENCH, ART),
        changes=True,
        group="Crop",
    ),
    Act(
        "crop_down",
        "j",
        "Crop down",
        "Keep more of the foot of a cropped picture.",
        (BENCH, ART),
        changes=True,
        group="Crop",
    ),
    Act(
        "crop_up",
        "k",
        "Crop up",
        "Keep more of the head of a cropped picture.",
        (BENCH, ART),
        changes=True,
        group="Crop",
    ),
    Act(
        "crop_right",
        "l",
        "Crop right",
        "Keep more of the right of a cropped picture.",
        (BENCH, ART),
        changes=True,
        group="Crop",
    ),
    *ART_ACTIONS,
    Act(
        "change_picture",
        "i",
        "Swap picture",
        "Choose another picture by typing a few letters of its name.",
        _BENCH,
        changes=True,
    ),
    Act(
        "go_plain",
        "n",
        "Go plain",
        "Use no picture: the base colour alone.",
        _BENCH,
        changes=True,
    ),
    Act(
        "change_colour",
        "b",
        "Colour",
        "Choose the base colour: type it, or pick one of those proposed in this batch.",
        _BENCH,
        changes=True,
    ),
    Act(
        "change_title",
        "t",
        "Title",
        "Edit the title on the edges and where its lines break.",
        _BENCH,
        changes=True,
    ),
    *WORDING_ACTIONS,
    Act(
        "bring",
        "plus",
        "Bring",
        "Bring the game, or all marked, into today's batch.",
        _BACKLOG,
        changes=True,
    ),
    Act(
        "drop",
        "minus",
        "Drop",
        "Drop the game, or all marked, from today's batch.",
        _GAMES,
        changes=True,
    ),
    Act(
        "reopen",
        "r",
        "Reopen",
        "Take back what was accepted for the game or for all marked.",
        _GAMES,
        changes=True,
    ),
    Act(
        "fit",
        "f",
        "Fit in case",
        "Note that the printed insert is in its case, for the game or for all marked.",
        _GAMES,
        changes=True,
    ),
    Act("mark", "space", "Mark", "Mark the game, or unmark it, and go to the next.", _BACKLOG),
    Act("mark_all", "m", "Mark all", "Mark all games shown, or unmark them.", _BACKLOG),
    Act("filter", "slash", "Filter", "Show only games that carry the words typed.", _BACKLOG),
    Act("stage", "v", "Stage", "Show one stage after the other, then all again.", _BACKLOG),
    Act("sort", "o", "Sort", "Sort by the next column.", _BACKLOG),
    Act("clear", "escape", "Clear", "Clear the marks; again, the filter.", _BACKLOG),
    Act(
        "press",
        "p",
        "Press",
        "Write the PDF of every full sheet.",
        _SHEETS,
        changes=True,
    ),
    Act(
        "press_part",
        "P",
        "Press part-full",
        "Write the open sheets too: see how much paper they leave and choose what fills it.",
        _SHEETS,
        changes=True,
    ),
    Act(
        "last_insert",
        "left",
        "Last insert",
        "Go to the insert before on this sheet.",
        _SHEETS,
        group="Insert",
    ),
    Act(
        "next_insert",
        "right",
        "Next insert",
        "Go to the next insert on this sheet.",
        _SHEETS,
        group="Insert",
    ),
    Act(
        "cuts",
        "number_sign",
        "Cuts",
        "Show the cut order of the sheet, or its inserts again.",
        _SHEETS,
    ),
    Act(
        "keep_offcut",
        "asterisk",
        "Keep offcut",
        "Keep the offcut of a settled sheet as a sheet of its own, or let it go.",
        _SHEETS,
        changes=True,
    ),
    Act(
        "spoil",
        "x",
        "Spoiled",
        "Mark the insert of a pressed sheet as spoiled, or as good again.",
        _SHEETS,
        changes=True,
    ),
    Act(
        "settle",
        "s",
        "Settle",
        "Settle the pressed sheet: good inserts are printed, spoiled ones wait again.",
        _SHEETS,
        changes=True,
    ),
    Act(
        "withdraw",
        "w",
        "Withdraw",
        "Withdraw the pressed sheet: all its inserts wait again.",
        _SHEETS,
        changes=True,
    ),
    Act(
        "new_case",
        "N",
        "New case",
        "Describe a case of your own by a few inside measurements.",
        _SETUP,
        changes=True,
    ),
    Act(
        "trial",
        "T",
        "Trial cut",
        "Write a page of the case kind to cut and hold against the case.",
        _SETUP,
        changes=True,
    ),
    Act(
        "correct",
        "C",
        "Correct",
        "Type how much each side of the trial cut was too long or too short.",
        _SETUP,
        changes=True,
    ),
    Act(
        "kind_pose",
        "K",
        "Store kind",
        "Say how the cases of this kind are stored, which turns their titles.",
        _SETUP,
        changes=True,
    ),
    Act(
        "panels",
        "d",
        "Panels",
        "Leave panels out of the game, of all marked, or of the case kind.",
        (BENCH, BACKLOG, SETUP),
        changes=True,
    ),
    Act(
        "folded",
        "e",
        "Folded",
        "Show the insert as it looks in the case, or flat again.",
        (BENCH, SETUP),
    ),
    Act("zoom", "z", "Zoom", "Show the proof as large as the screen.", (BENCH, SHEETS, SETUP)),
    Act("stock", "A", "Paper", "Choose the paper.", _SETUP, changes=True, group="Change"),
    Act(
        "margins",
        "M",
        "Margins",
        "Type what the printer leaves white on each side.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "caliper",
        "L",
        "Caliper",
        "Type the measured thickness of the paper.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "rule",
        "R",
        "Cut",
        "Choose how sheets are cut: edge to edge with a trimmer, or freely with a knife.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "pose",
        "S",
        "Stored",
        "Say how the cases are stored, which turns their titles.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "spine_habit",
        "I",
        "Spines",
        "Choose whether titles on upright spines read down or up.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "all_panels",
        "D",
        "Left out",
        "Leave panels out of the inserts of every case kind.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "usual_case",
        "U",
        "Usual case",
        "Choose the case kind of games whose list names none.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "batch_size",
        "B",
        "Batch size",
        "Type how many games a batch holds.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    *COLOUR_ACTIONS,
    *LETTERING_ACTIONS,
    Act("bench", "1", "Bench", "Go to today's batch."),
    Act("backlog", "2", "Backlog", "Go to the list of all games."),
    Act("sheets", "3", "Sheets", "Go to the sheets."),
    Act("setup", "4", "Setup", "Go to the case kinds, the paper and how cases are stored."),
    Act(
        "undo",
        "u",
        "Undo",
        "Take back the last thing done, whatever it was.",
        (EVERYWHERE, ART),
        changes=True,
    ),
    Act("theme", "ctrl+t", "Look", "Change between the light and the dark look."),
    Act("help", "question_mark", "Keys", "List every key of the program."),
    Act("palette", "ctrl+p", "Find", "Find an action by typing a few letters.", always=True),
    Act("quit", "q", "Quit", "Leave the program; everything is saved already."),
    Act("choose", "enter", "Choose", "Take what is highlighted or typed.", _DIALOG),
    Act("leave", "escape", "Leave", "Leave the dialog and change nothing.", _DIALOG),
)

BY_ID = {act.id: act for act in ACTIONS}


def acts_of(screen: str) -> tuple[Act, ...]:
    """Return the actions that belong to one screen, without those that work everywhere."""
    return tuple(act for act in ACTIONS if screen in act.screens)


def bindings(screen: str) -> list[Binding]:
    """Return the key bindings of one screen."""
    return [
        Binding(act.key, act.id, act.label, tooltip=act.help, id=act.id, priority=act.always)
        for act in acts_of(screen)
    ]


@dataclass(frozen=True, slots=True)
class FooterItem:
    """What stands in one place of the footer."""

    keys: str
    label: str
    act: str
    """The action that a click on it does."""
    enabled: bool


def footer(available: dict[str, bool]) -> tuple[tuple[FooterItem, ...], tuple[FooterItem, ...]]:
    """Return the footer's items: those of the screen, then those that work everywhere.

    ``available`` tells for each action that is bound now whether it is enabled.
    """
    own: list[FooterItem] = []
    common: list[FooterItem] = []
    bound = [act for act in ACTIONS if act.id in available]
    for _, acts in groupby(bound, key=lambda act: act.group or act.id):
        members = list(acts)
        first = members[0]
        item = FooterItem(
            keys="".join(act.shown for act in members),
            label=first.group or first.label,
            act=first.id,
            enabled=any(available[act.id] for act in members),
        )
        (common if EVERYWHERE in first.screens else own).append(item)
    return tuple(own), tuple(common)


def sections() -> Iterator[tuple[str, tuple[Act, ...]]]:
    """Yield each screen's heading with its actions, for the help screen and the page of keys."""
    for screen, name in (
        *PLACES.items(),
        (ART, "Art"),
        (DIALOG, "Dialogs"),
        (EVERYWHERE, "Everywhere"),
    ):
        yield name, acts_of(screen)


def keys_page() -> str:
    """Return ``docs/keys.md``."""
    lines = [
        "# Keys",
        "",
        "<!-- Written by `python -m tui.actions > docs/keys.md`; change tui/actions.py. -->",
        "",
        "The arrow keys, Page Up, Page Down, Home and End move through every list, and a mouse",
        "works too: click a game, a screen's name, a key in the footer, an insert on a sheet.",
        "Every action also stands in the command palette (`^p`; `^` is the Control key).",
    ]
    for name, acts in sections():
        lines += ["", f"## {name}", "", "| key | action | what it does |", "| --- | --- | --- |"]
        lines += [f"| `{act.shown}` | {act.label} | {act.help} |" for act in acts]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    sys.stdout.write(keys_page())
