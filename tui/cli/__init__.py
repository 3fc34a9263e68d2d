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
    declare,
    demo,
    dividers,
    export,
    fit,
    index,
    ink,
    intake,
    offcuts,
    papers,
    press,
    progress,
    proof,
    propose,
    read,
    restore,
    room,
    settle,
    setup,
    sheets,
    shelf,
    sides,
    supplies,
    titles,
    undo,
    where,
    withdraw,
)

COMMANDS = {
    module.COMMAND.name: module.COMMAND
    for module in (
        demo,
        intake,
        read,
        progress,
        supplies,
        room,
        where,
        index,
        dividers,
        propose,
        sides,
        batch,
        sheets,
        press,
        offcuts,
        settle,
        withdraw,
        fit,
        declare,
        undo,
        cases,
        proof,
        shelf,
        colours,
        ink,
        setup,
        papers,
        titles,
        checkpage,
        check,
        restore,
        export,
    )
}
"""By name, in the order of the help."""
