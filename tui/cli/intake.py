"""``spinery intake``: take in a list of games and a folder of pictures."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path

from engine import (
    CollectionError,
    Delivery,
    holds_collection,
    known_pictures,
    look_at_new,
    unpack,
)
from tui.cli import read
from tui.cli.answers import DONE, Answer, Command, counted
from tui.cli.opening import folder_of, opened
from tui.cli.told import told
from tui.ending import UNTOLD
from tui.words import look_lines, taken_lines


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("list", type=Path, help="CSV, TSV, XLSX, ODS or plain text")
    one.add_argument("--pictures", type=Path, metavar="DIR", help="the folder of pictures")
    one.add_argument("--sheet", default="", metavar="NAME", help="of a spreadsheet with several")
    one.add_argument(
        "--look", action="store_true", help="say what it would bring, and take nothing"
    )
    one.add_argument("--case", default="", metavar="KIND", help="the case kind of the games")
    one.add_argument(
        "--skip-broken", action="store_true", help="go on without pictures that cannot be opened"
    )
    one.add_argument(
        "--no-reading", action="store_true", help="leave what covers say for spinery read"
    )


def run(asked: Namespace) -> Answer:
    """Take a list and pictures in, all or nothing; then read what the pictures say."""
    # The list and the pictures are read before a folder is made for them.
    delivery = unpack(
        asked.list,
        asked.pictures,
        sheet=asked.sheet,
        known=known_pictures(folder_of(asked)),
        skip_broken=asked.skip_broken,
        progress=counted("Looking at picture", plain=asked.plain),
    )
    if asked.look:
        return _look(delivery, asked)
    with opened(asked, make=True) as shop:
        report = shop.games.take_in(delivery, asked.case)
        cautions = shop.kinds.kind(asked.case).cautions if asked.case else ()
        reading = shop.readings.report()
        left: tuple[str, ...] = ()
        unread = reading.read < reading.pictures and not asked.no_reading
        if unread:
            try:
                reading = read.read_on(shop, plain=asked.plain)
            except CollectionError as error:  # the list is taken in all the same
                left = (str(error), "The list is taken in; spinery read goes on with the covers.")
    words = [
        *report.notes,
        *taken_lines(report),
        *(read.words(reading) if unread else ()),
        *left,
        *cautions,
    ]
    return Answer(words, {**told(report), "reading": told(reading)}, UNTOLD if left else DONE)


def _look(delivery: Delivery, asked: Namespace) -> Answer:
    """Say what would be taken in; no folder is made for it."""
    folder = folder_of(asked)
    if holds_collection(folder):
        with opened(asked) as shop:
            look = shop.games.look(delivery, asked.case)
    else:
        look = look_at_new(delivery, asked.case)
    return Answer(look_lines(look), told(look))


COMMAND = Command("intake", "take in a list of games and a folder of pictures", run, add)
