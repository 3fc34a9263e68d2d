"""Reads lines and answers them until the person leaves."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from engine import Sought, holds_collection, look_at_path
from tui.cli import demo
from tui.cli.answers import STOPPED_WORDS
from tui.ending import Ended, answer
from tui.plain.desk import Desk, Leave, RunCommand

PROMPT = "> "


NO_FOLDER = (
    "No collection is here, and none was opened before. Type the folder of one, or a new folder to "
    "make it in; demo makes the demo; Enter alone leaves."
)


def ask_for_folder() -> Path | None:
    """Return the folder that the person names, the demo made if that is wanted; None for none."""
    answer(NO_FOLDER)
    with suppress(EOFError):
        said = input(PROMPT).strip()
        if said == demo.COMMAND.name:
            if not holds_collection(demo.DEMO_FOLDER):
                demo.make(demo.DEMO_FOLDER)
            return demo.DEMO_FOLDER
        return look_at_path(said, Sought.COLLECTION).path if said else None
    return None


def work_in(folder: Path, command: RunCommand, commands: Mapping[str, str]) -> None:
    """Work in a collection by typed lines; an end of what is read leaves too."""
    with suppress(ImportError):
        import readline  # noqa: F401  lines can be edited, and called back
    desk = Desk(folder, answer, command, commands)
    try:
        desk.greet()
        while True:
            typed = input(PROMPT)
            try:
                desk.answer(typed)
            except Ended:
                raise
            except KeyboardInterrupt:  # it stops what takes long, and the work goes on
                answer(STOPPED_WORDS)
    except (EOFError, Leave):
        answer("Everything is saved.")
    finally:
        desk.close()
