"""What works on every screen, what several screens share, and the keys of dialogs."""

from __future__ import annotations

from tui.act import ART, BACKLOG, BENCH, DIALOG, EVERYWHERE, SETUP, SHEETS, SHELF, Act

_DIALOG = (DIALOG,)

VIEW_ACTIONS: tuple[Act, ...] = (
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
    Act(
        "zoom", "z", "Zoom", "Show the proof as large as the screen.", (BENCH, SHEETS, SETUP, SHELF)
    ),
)
"""What is shown of an insert, on more than one screen."""

EVERYWHERE_ACTIONS: tuple[Act, ...] = (
    Act("bench", "1", "Bench", "Go to today's batch."),
    Act("backlog", "2", "Backlog", "Go to the list of all games."),
    Act("sheets", "3", "Sheets", "Go to the sheets."),
    Act("setup", "4", "Setup", "Go to the case kinds, the paper and how cases are stored."),
    Act("shelf", "5", "Shelf", "Go to all edges side by side."),
    Act(
        "undo",
        "u",
        "Undo",
        "Take back the last thing done, whatever it was.",
        (EVERYWHERE, ART),
        changes=True,
        leads=(EVERYWHERE,),
    ),
    Act(
        "redo",
        "U",
        "Redo",
        "Do again what was taken back last.",
        (EVERYWHERE, ART),
        changes=True,
    ),
    Act(
        "history",
        "Z",
        "Go back",
        "List what was done, with its time, and go back to where things stood after it.",
    ),
    Act(
        "stop",
        "escape",
        "Stop",
        "Stop what takes long: ganging, planning, pressing. Nothing is changed then.",
        leads=(EVERYWHERE,),
    ),
    Act(
        "read",
        "ctrl+r",
        "Read",
        "Stop reading covers, which goes on beside your work, or take it up again.",
        changes=True,
    ),
    Act("theme", "ctrl+t", "Look", "Change between the light and the dark look."),
    Act("help", "question_mark", "Keys", "List every key of the program.", leads=(EVERYWHERE,)),
    Act(
        "palette",
        "ctrl+p",
        "Find",
        "Find an action by typing a few letters.",
        always=True,
        leads=(EVERYWHERE,),
    ),
    Act("quit", "q", "Quit", "Leave the program; everything is saved already."),
)

DIALOG_ACTIONS: tuple[Act, ...] = (
    Act("choose", "enter", "Choose", "Take what is highlighted or typed.", _DIALOG),
    Act("leave", "escape", "Leave", "Leave the dialog and change nothing.", _DIALOG),
)
