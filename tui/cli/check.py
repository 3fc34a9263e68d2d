"""``spinery check``: check the collection's health."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.words import health_lines


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument(
        "--mend", action="store_true", help="mend what needs no decision, after a backup"
    )


def run(asked: Namespace) -> Answer:
    """Check it, and mend it where that is asked."""
    with opened(asked) as shop:
        health = shop.mend() if asked.mend else shop.check()
    return Answer(health_lines(health), told(health), DONE if health.ok else NOTHING)


COMMAND = Command("check", "check the collection's health", run, add)
