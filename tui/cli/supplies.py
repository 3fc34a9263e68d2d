"""``spinery supplies``: what is still needed to finish, less what is in the house."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace

from engine import SAMPLE, Pack, figure
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import each_once, whole
from tui.cli.told import told
from tui.roomwords import supplies_lines


def amount(said: str) -> tuple[str, float]:
    """Return a thing and how much of it."""
    thing, parted, much = said.partition("=")
    value = figure(much)
    if not parted or value is None or value < 0:
        raise ArgumentTypeError(f"{said}: write the thing and how much, as a4-card=50")
    return thing, value


def pack(said: str) -> tuple[str, Pack]:
    """Return a thing, how much a pack of it holds, and its price where that is said."""
    thing, parted, rest = said.partition("=")
    holds, _, price = rest.partition(":")
    much, money = figure(holds), figure(price) if price else None
    if not parted or not much or much < 0 or (price and (money is None or money < 0)):
        raise ArgumentTypeError(f"{said}: write what a pack holds and costs, as a4-card=50:12.90")
    return thing, Pack(much, money)


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    things = "a case kind, a paper, cyan, magenta, yellow, black or adhesive"
    one.add_argument(
        "--have",
        nargs="+",
        type=amount,
        default=[],
        metavar="THING=AMOUNT",
        help=f"in the house: {things}; of ink in cartridges, of adhesive in cm²",
    )
    one.add_argument(
        "--pack",
        nargs="+",
        type=pack,
        default=[],
        metavar="THING=HOLDS[:PRICE]",
        help="how it is sold; an ink cartridge holds its page yield (ISO/IEC 24711)",
    )
    one.add_argument("--currency", metavar="SIGN", help="put behind sums of money")
    one.add_argument(
        "--sample",
        type=whole,
        default=SAMPLE,
        metavar="N",
        help=f"measure the ink of so many inserts of each case kind; usual: {SAMPLE}, 0: none",
    )


def run(asked: Namespace) -> Answer:
    """Note what is in the house, if that is said; then tell what is needed."""
    with opened(asked) as shop:
        if asked.have or asked.pack or asked.currency is not None:
            shop.supplies.keep(each_once(asked.have), each_once(asked.pack), asked.currency)
        report = shop.supplies.report(asked.sample)
    return Answer(supplies_lines(report), told(report), DONE if report.games else NOTHING)


COMMAND = Command("supplies", "tell what is still needed, less what is in the house", run, add)
