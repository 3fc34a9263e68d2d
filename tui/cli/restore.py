"""``spinery restore``: go back to a backup, or list them."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import copies, restore
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import folder_of
from tui.cli.told import told
from tui.words import count, went_back


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("backup", nargs="?", default="", help="a name of the list; else the newest")
    one.add_argument("--list", action="store_true", help="list what can be gone back to")


def run(asked: Namespace) -> Answer:
    """Go back, or list."""
    folder = folder_of(asked)
    if asked.list:
        found = copies(folder)
        lines = [
            f"{one.name}: {'cannot be read' if one.games is None else count(one.games, 'game')}"
            for one in found
        ]
        data = {"copies": told(found)}
        return Answer(lines or ["No backup is there."], data, DONE if found else NOTHING)
    restored = restore(folder, asked.backup)
    return Answer([went_back(restored)], told(restored))


COMMAND = Command("restore", "go back to a backup of the collection", run, add)
