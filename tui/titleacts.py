"""The actions of titles: one game's on the Bench, the whole shelf's in the Setup."""

from __future__ import annotations

from tui.act import BENCH, SETUP, Act

_SETUP = (SETUP,)

WORDING_ACTIONS: tuple[Act, ...] = (
    Act(
        "next_wording",
        "W",
        "Reword",
        "Word the title in the next shorter way, after the last in full again.",
        (BENCH,),
        changes=True,
    ),
)

LETTERING_ACTIONS: tuple[Act, ...] = (
    Act(
        "font",
        "F",
        "Font",
        "Choose the font of titles, by its name or its file.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "lettering",
        "Q",
        "Lettering",
        "Set all titles of a case kind in one size, or each as large as it can be.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "type_sizes",
        "V",
        "Type",
        "Type from how far the edges are read, how small and narrow titles get, short forms.",
        _SETUP,
        changes=True,
        group="Change",
    ),
    Act(
        "edge_marks",
        "X",
        "Marks",
        "Put a mark or a stripe from a column of the list on every edge.",
        _SETUP,
        changes=True,
        group="Change",
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
