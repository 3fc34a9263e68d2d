"""``spinery export``: write the collection out for other programs."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path

from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.words import export_words


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("folder", type=Path, help="a new folder")


def run(asked: Namespace) -> Answer:
    """Write it out."""
    with opened(asked) as shop:
        report = shop.export(asked.folder)
    held = f"{report.folder}: {export_words(report)}."
    again = f"To take it in again: spinery intake {report.folder} --collection NEW"
    return Answer([*report.notes, held, again], told(report))


COMMAND = Command("export", "write the collection out as CSV, JSON and files", run, add)
