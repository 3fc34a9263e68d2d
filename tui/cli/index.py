"""``spinery index``: every title under its letter, with its place."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.aloud import Line
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_out
from tui.cli.told import told


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_out(one, "FILE", "write it, as .pdf or .csv")


def run(asked: Namespace) -> Answer:
    """Write the index, or tell it."""
    with opened(asked) as shop:
        out = asked.out
        report = shop.index.write(out, replace=asked.replace) if out else shop.index.report()
    lines: list[str]
    if report.file is not None:
        lines = [f"Wrote {report.file}: {len(report.entries)} titles."]
    else:
        lines = [
            Line(
                f"{one.letter:<2} {one.title}  {one.place}".rstrip(),
                f"{one.title}: {one.place or 'no place yet'}",
            )
            for one in report.entries
        ]
    return Answer(
        lines or ["There are no games yet."], told(report), DONE if report.entries else NOTHING
    )


COMMAND = Command("index", "list every title with its place, or write that to print", run, add)
