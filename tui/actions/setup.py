"""The Setup: case kinds, and every setting of the collection."""

from __future__ import annotations

from tui.act import SETUP, Act

_SETUP = (SETUP,)

LIST_ACTIONS: tuple[Act, ...] = (
    Act(
        "other_list",
        "tab",
        "Settings",
        "Go from the case kinds to the list of settings, and back.",
        _SETUP,
        leads=_SETUP,
    ),
    Act(
        "change_setting",
        "enter",
        "Change",
        "Change the setting that the cursor is on, or what is set for the case kind.",
        _SETUP,
        changes=True,
        leads=_SETUP,
    ),
)
"""The two lists, in which everything is changed. The palette has each setting, too."""

KIND_ACTIONS: tuple[Act, ...] = (
    Act(
        "new_case",
        "N",
        "New case",
        "Describe a case of your own by a few inside measurements.",
        _SETUP,
        changes=True,
        leads=_SETUP,
    ),
    Act(
        "trial",
        "T",
        "Trial cut",
        "Write a page of the case kind to cut and hold against the case.",
        _SETUP,
        changes=True,
        leads=_SETUP,
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
        "far_titles",
        "H",
        "Far titles",
        "List the titles that cannot be read from the shelf's distance, and what helps.",
        _SETUP,
    ),
)
"""About the case kind that the cursor is on."""
