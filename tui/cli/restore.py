"""``spinery restore``: go back to a backup, or list them."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import Restored, copies, restore
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import folder_of
from tui.cli.told import told
from tui.words import count


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
    return Answer([words(restored)], told(restored))


def words(restored: Restored) -> str:
    """Return what going back came to, in a sentence or two."""
    said = f"Went back to {restored.backup}, with {count(restored.games, 'game')}."
    if restored.aside:
        said += f" What was there is kept as {restored.aside} in backups."
    return said


COMMAND = Command("restore", "go back to a backup of the collection", run, add)
