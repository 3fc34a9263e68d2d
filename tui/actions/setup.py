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
    ),
    Act(
        "change_setting",
        "enter",
        "Change",
        "Change the current setting, or what is set for the current case kind.",
        _SETUP,
        changes=True,
    ),
)
"""The two lists, in which everything can be changed without knowing another key."""

KIND_ACTIONS: tuple[Act, ...] = (
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
        "upright",
        "Y",
        "Upright",
        "Set ideographs and kana upright on the edges of this case kind, or turned again.",
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
"""About the current case kind."""


def _setting(act: str, key: str, label: str, words: str) -> Act:
    return Act(act, key, label, words, _SETUP, changes=True, group="Set")


SETTING_ACTIONS: tuple[Act, ...] = (
    _setting("stock", "A", "Paper", "Choose the paper."),
    _setting("kind_stock", "", "Paper of kind", "Choose the paper of the current case kind."),
    _setting("margins", "M", "Margins", "Type what the printer leaves white on each side."),
    _setting("caliper", "L", "Caliper", "Type the measured thickness of the paper."),
    _setting(
        "rule",
        "R",
        "Cut",
        "Choose how sheets are cut: edge to edge with a trimmer, or freely with a knife.",
    ),
    _setting(
        "patience",
        "",
        "Patience",
        "Type after how many sheets the insert that waits longest must be on the next one.",
    ),
    _setting("kerf", "", "Kerf", "Type what the blade takes away at each cut."),
    _setting("pose", "S", "Stored", "Say how the cases are stored, which turns their titles."),
    _setting(
        "spine_habit", "I", "Spines", "Choose whether titles on upright spines read down or up."
    ),
    _setting("all_panels", "D", "Left out", "Leave panels out of the inserts of every case kind."),
    _setting(
        "usual_case", "U", "Usual case", "Choose the case kind of games whose list names none."
    ),
    _setting("batch_size", "B", "Batch size", "Type how many games a batch holds."),
    _setting(
        "colour_by",
        "G",
        "Coloured by",
        "Choose the column of the list whose groups have one colour each, or the pictures.",
    ),
    _setting(
        "group_colours",
        "O",
        "Group colours",
        "Look at the colours of the groups, and give one of them another.",
    ),
    _setting("usual_ink", "J", "Ink", "Choose how much ink inserts are printed with."),
    _setting("font", "F", "Font", "Choose the font of titles, by its name or its file."),
    _setting(
        "lettering",
        "Q",
        "Lettering",
        "Set all titles of a case kind in one size, or each as large as it can be.",
    ),
    _setting(
        "type_sizes",
        "V",
        "Type",
        "Type from how far the edges are read, how small and narrow titles get, short forms.",
    ),
    _setting(
        "edge_marks",
        "X",
        "Marks",
        "Put a mark or a stripe from a column of the list on every edge.",
    ),
)
"""One for each setting. Without a key of its own, it is changed in the list."""
