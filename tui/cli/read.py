"""``spinery read``: read what the pictures say and show, taken up where it was left."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from engine import ReadingReport, Workshop
from tui.cli.answers import DONE, NOTHING, TENTHS, Answer, Command, by_tenths
from tui.cli.opening import opened
from tui.cli.told import told
from tui.terminal import is_terminal
from tui.words import count, found_lines


def run(asked: Namespace) -> Answer:
    """Read the pictures that were not read before."""
    with opened(asked) as shop:
        before = shop.readings.report().read
        report = read_on(shop, plain=asked.plain)
    return Answer(words(report), told(report), DONE if report.read > before else NOTHING)


def read_on(shop: Workshop, *, plain: bool) -> ReadingReport:
    """Read on, and show how far it has come. Control-C ends it; what was read is kept."""
    report = shop.readings.report()
    if not report.can_read or report.read == report.pictures:
        return report
    if plain or not is_terminal(sys.stderr):
        said = TENTHS * report.read // report.pictures
        tenths = by_tenths("Read {} of {} pictures.", said)
        return shop.readings.read(lambda now: tenths(now.read, now.pictures))
    with _bar(report) as tell:
        return shop.readings.read(tell)


def words(report: ReadingReport) -> list[str]:
    """Return what came of reading, in words."""
    if report.lacking:
        return [report.lacking]
    lines = [*report.notes, f"{report.read} of {count(report.pictures, 'picture')} read."]
    return [
        *lines,
        *found_lines(report),
        f"Now {report.doubtful} to confirm, {count(report.bare, 'game')} without a picture.",
    ]


@contextmanager
def _bar(report: ReadingReport) -> Iterator[Callable[[ReadingReport], None]]:
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TimeRemainingColumn

    columns = ("Reading covers", BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True)) as progress:
        task = progress.add_task("", total=report.pictures, completed=report.read)
        yield lambda now: progress.update(task, completed=now.read)


COMMAND = Command("read", "read what covers say and show, where that was left", run)
