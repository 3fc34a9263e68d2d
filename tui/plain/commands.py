"""The commands of the command line, typed and told as lines."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import NoReturn

from engine import InputError
from tui.cli import commands

ITS_OWN = {"help", "collection", "json"}
"""What every command takes, and no one types here."""


class PlainParser(argparse.ArgumentParser):
    """Says in a sentence what is wrong, and leaves the line rather than the program."""

    def error(self, message: str) -> NoReturn:
        """Raise InputError in place of leaving."""
        name = self.prog.split()[-1]
        raise InputError(name, message, f"help {name} tells what it takes")


def command_lines(name: str) -> Iterator[str]:
    """Yield what a command does, then what it takes, a line each."""
    one = PlainParser(prog=name, add_help=False)
    command = commands([name])[name]
    command.add(one)
    about = command.summary
    yield f"{name}: {about[0].upper()}{about[1:]}."
    for action in one._actions:  # noqa: SLF001  argparse has no other way to ask
        if action.dest not in ITS_OWN:
            yield f"{_shown(action)}: {(action.help or '').replace('%%', '%')}".rstrip(": ")


def _shown(action: argparse.Action) -> str:
    takes = action.metavar or "|".join(map(str, action.choices or ()))
    signs = takes if isinstance(takes, str) else " ".join(takes)
    return " ".join(filter(None, (*action.option_strings[:1], signs))) or action.dest
