"""The command line: parse, run the command, print its answer.

Exit codes: 0 done, 1 nothing to do or a check found something, 2 bad input or a disk that refuses,
3 done but not confirmed by the disk or not told, 70 a fault of the program, 130 stopped by
Control-C and 143 or 129 by the system, as shells count it: 128 and the number of the signal.
"""

from __future__ import annotations

import logging
import sys
from argparse import ArgumentParser, Namespace, RawDescriptionHelpFormatter
from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING

from engine import InputError, RefusedError, SpineryError, UnconfirmedError, remember
from tui.cli import NAMES, commands
from tui.cli.answers import BAD_INPUT, DONE, NOTHING, STOPPED_WORDS
from tui.cli.beginning import begin
from tui.cli.opening import folder_to_hand, usual_folder
from tui.cli.showing import show
from tui.ending import UNTOLD, answer, code_of, say
from tui.terminal import is_terminal

if TYPE_CHECKING:
    from engine import Workshop

_log = logging.getLogger("spinery")

PLAIN = "--plain"
HELP = ("-h", "--help")
VERSION = "--version"

ELSEWHERE = {"demo", "keys", "completion"}
"""Commands that are of no use by typed lines: they are for the screens, and for a shell."""

SLIP = 0.8
"""So alike, 0 to 1, is a command with a slip in it; "my-shelf" is a folder."""

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
    plain = PLAIN in arguments and arguments[0] not in NAMES
    if plain:
        arguments = [one for one in arguments if one != PLAIN]
    try:
        if arguments and (arguments[0] in HELP or (not plain and arguments[0] in NAMES)):
            named = NAMES if arguments[0] in HELP else arguments[:1]
            return _do(parser(named).parse_args(arguments, Namespace(plain=False, shop=None)))
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
        folder = _named_folder(arguments[0]) if arguments else None
        if plain:
            return _work_plainly(folder or folder_to_hand())
        return show(folder) if folder else begin()
    except SpineryError as error:
        return _complain(error, next(code for kind, code in CODES if isinstance(error, kind)))
    except KeyboardInterrupt as stop:
        return _complain(STOPPED_WORDS, code_of(stop))


def parser(
    names: Iterable[str] = NAMES, kind: type[ArgumentParser] = ArgumentParser
) -> ArgumentParser:
    """Return the parser of these commands, which are imported for it; of a ``kind`` of parsers."""
    whole = kind(
        prog="spinery",
        description="Paper inserts for the cases of loose game cartridges.",
        epilog=OPEN,
        formatter_class=RawDescriptionHelpFormatter,
    )
    parsers = whole.add_subparsers(dest="command", metavar="COMMAND", required=True)
    common = ArgumentParser(add_help=False)
    common.add_argument("--collection", type=Path, metavar="DIR", help="the collection's folder")
    common.add_argument("--json", action="store_true", help="print one JSON object")
    for name, one in commands(names).items():
        one.add(
            parsers.add_parser(name, help=one.summary, description=one.summary, parents=[common])
        )
    return whole


def _do(asked: Namespace) -> int:
    """Run a command and print its answer; return the exit code."""
    found = commands([asked.command])[asked.command].run(asked)
    if found is None:
        return DONE

    from tui.aloud import aloud
    from tui.cli.told import text

    words = aloud(found.words) if asked.plain else found.words
    is_out = answer(text(found.data) if asked.json else "\n".join(words))
    return found.code if is_out or found.code else UNTOLD


def _tell_version() -> int:
    from importlib.metadata import version  # takes longer than all else here, and is rarely asked

    return DONE if answer(f"spinery {version('spinery')}") else UNTOLD


def _work_plainly(folder: Path | None) -> int:
    """Work by typed lines; any command can be typed but those that are for other places.

    Without a folder, the person is asked for one.
    """
    from tui.plain.commands import PlainParser
    from tui.plain.loop import ask_for_folder, work_in

    if sys.stdin is None:
        raise InputError(PLAIN, "reads what is typed, and its input is closed", "Leave it open")
    folder = folder or (ask_for_folder() if is_terminal(sys.stdin) else usual_folder())
    if folder is None:
        return DONE

    parse = parser(kind=PlainParser).parse_args

    def command(words: Sequence[str], shop: Workshop | None) -> int:
        return _do(parse(words, Namespace(plain=True, shop=shop)))

    summaries = {name: one.summary for name, one in commands().items() if name not in ELSEWHERE}
    work_in(folder, command, summaries)
    remember(folder)
    return DONE


def _complain(error: object, code: int) -> int:
    _log.log(logging.ERROR if code == BAD_INPUT else logging.WARNING, "%s (%d)", error, code)
    say(error)
    return code


def _named_folder(said: str) -> Path:
    """Return the folder, unless it is not there and is a command, or one with a slip in it."""
    if Path(said).exists() or Path(said).name != said:  # ./shelf is a folder
        return Path(said)
    new = f"A new folder is given as ./{said}"
    if said in NAMES:  # behind --plain
        raise InputError(said, "is a command", f"Type it once spinery --plain is open. {new}")
    meant = get_close_matches(said, NAMES, n=1, cutoff=SLIP)
    if meant:
        raise InputError(said, "no such command", f"Did you mean {meant[0]}? {new}")
    return Path(said)
