"""The command line: parse, run the command, print its answer.

Exit codes: 0 done, 1 nothing to do or a check found something, 2 bad input or a disk that refuses,
3 done but not confirmed by the disk or not told, 70 a fault of the program, 130 stopped by
Control-C and 143 or 129 by the system, as shells count it: 128 and the number of the signal.
"""

from __future__ import annotations

import argparse
import logging
import sys
from collections.abc import Sequence
from difflib import get_close_matches
from pathlib import Path

from engine import InputError, RefusedError, SpineryError, UnconfirmedError, remember
from tui.cli import COMMANDS
from tui.cli.answers import BAD_INPUT, DONE, NOTHING, STOPPED_WORDS
from tui.cli.beginning import begin
from tui.cli.opening import show, usual_folder
from tui.cli.told import text
from tui.ending import UNTOLD, answer, code_of, say

_log = logging.getLogger("spinery")

PLAIN = "--plain"
HELP = ("-h", "--help")
VERSION = "--version"

CODES = ((UnconfirmedError, UNTOLD), (RefusedError, NOTHING), (SpineryError, BAD_INPUT))
"""The exit code of each kind of error, the first that it is."""

OPEN = """\
spinery [FOLDER]        open the collection in FOLDER (made on first use)
spinery --plain [FOLDER]
                        the same as lines of text, for screen readers: typed and answered
spinery COMMAND ...     do one thing and leave; spinery COMMAND --help tells more
spinery --version       which Spinery this is

Without FOLDER: the current folder if it holds a collection, else the one last opened, else
you choose.
"""


def run(arguments: Sequence[str]) -> int:
    """Do what the command line says; return the exit code."""
    plain = PLAIN in arguments and arguments[0] not in COMMANDS
    if plain:
        arguments = [one for one in arguments if one != PLAIN]
    try:
        if arguments and (arguments[0] in HELP or (not plain and arguments[0] in COMMANDS)):
            return _do(arguments)
        if arguments and arguments[0] == VERSION:
            return _tell_version()
        if arguments and arguments[0].startswith("-"):
            raise InputError(
                arguments[0],
                "is no command",
                "Write spinery COMMAND, then its options, or spinery FOLDER to open a collection",
            )
        if len(arguments) > 1:
            raise InputError(arguments[1], "one thing too many", "Give one folder, or a command")
        if plain:
            return _work_plainly(Path(arguments[0]) if arguments else usual_folder())
        folder = _named_folder(arguments[0]) if arguments else None
        return show(folder) if folder else begin()
    except SpineryError as error:
        return _complain(error, next(code for kind, code in CODES if isinstance(error, kind)))
    except KeyboardInterrupt as stop:
        return _complain(STOPPED_WORDS, code_of(stop))


def parser() -> argparse.ArgumentParser:
    """Return the parser of every command."""
    whole = argparse.ArgumentParser(
        prog="spinery",
        description="Paper inserts for the cases of loose game cartridges.",
        epilog=OPEN,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = whole.add_subparsers(dest="command", metavar="COMMAND", required=True)
    common = argparse.ArgumentParser(add_help=False)
    common.add_argument("--collection", type=Path, metavar="DIR", help="the collection's folder")
    common.add_argument("--json", action="store_true", help="print one JSON object")
    for name, one in COMMANDS.items():
        one.add(
            commands.add_parser(name, help=one.summary, description=one.summary, parents=[common])
        )
    return whole


def _do(arguments: Sequence[str]) -> int:
    asked = parser().parse_args(arguments)
    found = COMMANDS[asked.command].run(asked)
    if found is None:
        return DONE
    is_out = answer(text(found.data) if asked.json else "\n".join(found.words))
    return found.code if is_out or found.code else UNTOLD


def _tell_version() -> int:
    from importlib.metadata import version  # takes longer than all else here, and is rarely asked

    return DONE if answer(f"spinery {version('spinery')}") else UNTOLD


def _work_plainly(folder: Path) -> int:
    """Work by typed lines; any command can be typed but that which opens the terminal program."""
    from tui.plain.loop import work_in

    if sys.stdin is None:
        raise InputError(PLAIN, "reads what is typed, and its input is closed", "Leave it open")

    def command(words: list[str]) -> int:
        try:
            return run(words)
        except SystemExit as end:  # argparse has said why
            return int(end.code or DONE)

    commands = {name: one.summary for name, one in COMMANDS.items() if name != "demo"}
    work_in(folder, command, commands)
    remember(folder)
    return DONE


def _complain(error: object, code: int) -> int:
    _log.log(logging.ERROR if code == BAD_INPUT else logging.WARNING, "%s (%d)", error, code)
    say(error)
    return code


def _named_folder(said: str) -> Path:
    """Return the folder, unless it is not there and looks like a command with a slip in it."""
    meant = get_close_matches(said, COMMANDS, n=1)
    if meant and not Path(said).exists():
        raise InputError(
            said, "no such command", f"Did you mean {meant[0]}? A new folder is given as ./{said}"
        )
    return Path(said)
