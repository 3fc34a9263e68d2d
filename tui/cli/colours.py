"""``spinery colours``: the colours of groups."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace

from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import each_once
from tui.cli.told import told
from tui.words import group_lines


def pin(text: str) -> tuple[str, str | None]:
    """Return a group and its colour, None to leave that to be chosen."""
    name, found, colour = text.rpartition("=")
    if not found:
        raise ArgumentTypeError(f"{text} is no colour of a group: write GROUP=#rrggbb")
    return name.strip(), colour.strip() or None


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument(
        "pins",
        nargs="*",
        type=pin,
        metavar="GROUP=#rrggbb",
        help="give a group this colour; GROUP= leaves it to be chosen again",
    )
    one.add_argument(
        "--follow",
        nargs="*",
        metavar="GAME",
        help="let games take their group's colour, printed ones too; none: all not printed",
    )


def run(asked: Namespace) -> Answer:
    """Pin colours and let games follow, as one change; then show the groups."""
    with opened(asked) as shop:
        with shop.change():
            if asked.pins:
                shop.colours.pin(each_once(asked.pins))
            if asked.follow is not None:
                shop.colours.follow(asked.follow)
        report = shop.colours.report()
    return Answer(group_lines(report), told(report), DONE if report.groups else NOTHING)


COMMAND = Command("colours", "show or change the colours of groups", run, add)
