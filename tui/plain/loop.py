"""Reads lines and answers them until the person leaves."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from tui.plain.desk import Desk, Leave, RunCommand

PROMPT = "> "


def work_in(folder: Path, command: RunCommand, commands: Mapping[str, str]) -> None:
    """Work in a collection by typed lines; an end of what is read leaves too."""
    with suppress(ImportError):
        import readline  # noqa: F401  lines can be edited, and called back
    desk = Desk(folder, print, command, commands)
    try:
        desk.greet()
        while True:
            desk.answer(input(PROMPT))
    except (EOFError, Leave):
        print("Everything is saved.")
    finally:
        desk.close()
