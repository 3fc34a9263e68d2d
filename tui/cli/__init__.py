"""The command line, a module for each command: what it takes, does, says and prints as JSON.

A new command is a new module here, and its place in ``COMMANDS``.
"""

from __future__ import annotations

from tui.cli import (
    batch,
    cases,
    check,
    checkpage,
    colours,
    completion,
    demo,
    fit,
    history,
    ink,
    intake,
    keys,
    offcuts,
    papers,
    press,
    progress,
    proof,
    propose,
    read,
    redo,
    settle,
    setup,
    sheets,
    sides,
    titles,
    undo,
    withdraw,
)

COMMANDS = {
    module.COMMAND.name: module.COMMAND
    for module in (
        demo,
        intake,
        read,
        progress,
        propose,
        sides,
        batch,
        sheets,
        press,
        offcuts,
        settle,
        withdraw,
        fit,
        undo,
        redo,
        history,
        cases,
        proof,
        colours,
        ink,
        setup,
        papers,
        titles,
        checkpage,
        check,
        keys,
        completion,
    )
}
"""By name, in the order of the help."""
