"""The Shelf: looking at all edges side by side, and at what they would be."""

from __future__ import annotations

from tui.act import SHELF, Act

_SHELF = (SHELF,)

SHELF_ACTIONS: tuple[Act, ...] = (
    Act(
        "to_bench",
        "enter",
        "To the Bench",
        "Bring the game into today's batch, and go to it on the Bench.",
        _SHELF,
        changes=True,
    ),
    Act(
        "next_clash", "exclamation_mark", "Next clash", "Go to the next game that clashes.", _SHELF
    ),
    Act(
        "farther",
        "left_square_bracket",
        "Farther",
        "Show more rows at a time.",
        _SHELF,
        group="Rows",
    ),
    Act(
        "closer",
        "right_square_bracket",
        "Closer",
        "Show fewer rows at a time.",
        _SHELF,
        group="Rows",
    ),
    Act(
        "what_if",
        "I",
        "What if",
        "Show the shelf in another order, by another rule of colour or with other lettering below "
        "the shelf as it is; nothing is changed.",
        _SHELF,
    ),
    Act(
        "arrange", "R", "Order", "Choose the order of the games on the shelf.", _SHELF, changes=True
    ),
    Act(
        "dividers",
        "D",
        "Dividers",
        "Put a divider before each group, or take them away.",
        _SHELF,
        changes=True,
    ),
    Act(
        "file_under",
        "V",
        "File under",
        "File the game under another title than its own.",
        _SHELF,
        changes=True,
    ),
    Act(
        "move_back",
        "less_than_sign",
        "Move back",
        "Move the game a place towards the beginning; the order is by hand from then on.",
        _SHELF,
        changes=True,
        group="Move",
    ),
    Act(
        "move_on",
        "greater_than_sign",
        "Move on",
        "Move the game a place towards the end; the order is by hand from then on.",
        _SHELF,
        changes=True,
        group="Move",
    ),
)
