"""``spinery check``: check the collection's health."""

from __future__ import annotations

from argparse import Namespace

from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.words import health_lines


def run(asked: Namespace) -> Answer:
    """Check it."""
    with opened(asked) as shop:
        health = shop.check()
    return Answer(health_lines(health), told(health), DONE if health.ok else NOTHING)


COMMAND = Command("check", "check the collection's health", run)
