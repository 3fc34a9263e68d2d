"""Every action of the terminal program, declared once, in the module of its screen.

From these declarations come the key bindings, the footer, the command palette, the help
screen and ``docs/keys.md`` (``python -m tui.actions > docs/keys.md``). A test holds that
each of them is exercised by pressing its key.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tui.act import ART, BACKLOG, BENCH, DIALOG, EVERYWHERE, PLACES, SETUP, SHEETS, SHELF, Act
from tui.actions.art import ART_ACTIONS
from tui.actions.backlog import BACKLOG_ACTIONS
from tui.actions.bench import BENCH_ACTIONS
from tui.actions.everywhere import DIALOG_ACTIONS, EVERYWHERE_ACTIONS, VIEW_ACTIONS
from tui.actions.games import DECIDING, HANDLING, RECORDS
from tui.actions.setup import KIND_ACTIONS, LIST_ACTIONS
from tui.actions.sheets import SHEETS_ACTIONS
from tui.actions.shelf import SHELF_ACTIONS
from tui.actions.start import START_ACTIONS
from tui.actions.whole import WHOLE_ACTIONS

if TYPE_CHECKING:
    from textual.binding import Binding

__all__ = [
    "ACTIONS",
    "ART",
    "BACKLOG",
    "BENCH",
    "BY_ID",
    "DIALOG",
    "EVERYWHERE",
    "PLACES",
    "SETUP",
    "SHEETS",
    "SHELF",
    "acts_of",
    "bindings",
    "sections",
]

ACTIONS: tuple[Act, ...] = (
    *DECIDING,
    *ART_ACTIONS,
    *BENCH_ACTIONS,
    *HANDLING,
    *RECORDS,
    *BACKLOG_ACTIONS,
    *SHEETS_ACTIONS,
    *SHELF_ACTIONS,
    *LIST_ACTIONS,
    *KIND_ACTIONS,
    *VIEW_ACTIONS,
    *START_ACTIONS,
    *WHOLE_ACTIONS,
    *EVERYWHERE_ACTIONS,
    *DIALOG_ACTIONS,
)
"""In the order in which a footer shows those of its screen."""

BY_ID = {act.id: act for act in ACTIONS}


def acts_of(screen: str) -> tuple[Act, ...]:
    """Return the actions that belong to one screen, without those that work everywhere."""
    return tuple(act for act in ACTIONS if screen in act.screens)


def bindings(screen: str) -> list[Binding]:
    """Return the key bindings of one screen."""
    from textual.binding import Binding  # takes long to import, and commands need none

    return [
        Binding(act.key, act.id, act.label, tooltip=act.help, id=act.id, priority=act.always)
        for act in acts_of(screen)
        if act.key
    ]


def sections() -> Iterator[tuple[str, tuple[Act, ...]]]:
    """Yield each screen's heading with its actions, for the help screen and the page of keys."""
    for screen, name in (
        *PLACES.items(),
        (ART, "Art"),
        (DIALOG, "Dialogs"),
        (EVERYWHERE, "Everywhere"),
    ):
        yield name, acts_of(screen)
