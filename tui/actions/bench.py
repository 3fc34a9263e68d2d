"""The Bench: the decisions of one game, beside its proof."""

from __future__ import annotations

from tui.act import BENCH, SHELF, Act

_BENCH = (BENCH,)
_EDGES = (BENCH, SHELF)

BENCH_ACTIONS: tuple[Act, ...] = (
    Act(
        "change_picture",
        "i",
        "Swap picture",
        "Choose another picture by typing a few letters of its name.",
        _BENCH,
        changes=True,
        leads=_BENCH,
    ),
    Act(
        "panel_art",
        "B",
        "Panel art",
        "Choose the picture of the back or another panel, or none there.",
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
        _EDGES,
        changes=True,
    ),
    Act(
        "change_title",
        "t",
        "Title",
        "Edit the title on the edges and where its lines break.",
        _EDGES,
        changes=True,
    ),
    Act(
        "next_wording",
        "W",
        "Reword",
        "Word the title in the next shorter way, after the last in full again.",
        _EDGES,
        changes=True,
    ),
)
