"""``spinery completion``: what makes a shell complete commands, options and files."""

from __future__ import annotations

import argparse
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from pathlib import Path

from tui.cli.answers import Answer, Command

SHELLS = {
    "bash": "spinery completion bash > ~/.local/share/bash-completion/completions/spinery",
    "zsh": "spinery completion zsh > a folder of $fpath, as _spinery",
    "fish": "spinery completion fish > ~/.config/fish/completions/spinery.fish",
}
"""The shells, and where each looks for completions."""


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.formatter_class = argparse.RawDescriptionHelpFormatter
    one.epilog = "\n".join(SHELLS.values())
    one.add_argument("shell", choices=tuple(SHELLS), help="the shell to write it for")


def run(asked: Namespace) -> Answer:
    """Write it, from the very declarations by which commands are read."""
    import shtab

    from tui.cli.dispatch import parser

    whole = parser()
    for action in _actions(whole):
        if action.type is Path and not action.choices:
            is_folder = action.metavar == "DIR" or action.dest == "folder"
            action.complete = shtab.DIRECTORY if is_folder else shtab.FILE  # type: ignore[attr-defined]
    script = shtab.complete(whole, asked.shell)
    return Answer([script], {"shell": asked.shell, "script": script})


def _actions(one: ArgumentParser) -> Iterator[argparse.Action]:
    """Yield all that a parser takes, and its commands; argparse has no other way to ask."""
    for action in one._actions:  # noqa: SLF001
        yield action
        if isinstance(action, argparse._SubParsersAction):  # noqa: SLF001
            for command in dict.fromkeys(action.choices.values()):
                yield from _actions(command)


COMMAND = Command("completion", "write what makes a shell complete commands", run, add)
