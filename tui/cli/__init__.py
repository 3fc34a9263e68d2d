"""The command line, a module for each command: what it takes, does, says and prints as JSON.

A new command is a new module here, called as the command without its hyphens, and its place in
``NAMES``.
"""

from __future__ import annotations

from collections.abc import Iterable
from importlib import import_module

from tui.cli.answers import Command

NAMES = (
    "demo",
    "intake",
    "read",
    "progress",
    "supplies",
    "room",
    "where",
    "index",
    "dividers",
    "propose",
    "sides",
    "batch",
    "sheets",
    "press",
    "offcuts",
    "settle",
    "withdraw",
    "fit",
    "declare",
    "undo",
    "redo",
    "history",
    "cases",
    "proof",
    "shelf",
    "colours",
    "ink",
    "setup",
    "papers",
    "titles",
    "check-page",
    "check",
    "restore",
    "export",
    "keys",
    "completion",
)
"""In the order of the help."""


def commands(names: Iterable[str] = NAMES) -> dict[str, Command]:
    """Return commands by name. Only their modules are imported."""
    modules = {name: import_module(f"tui.cli.{name.replace('-', '')}") for name in names}
    return {name: module.COMMAND for name, module in modules.items()}
