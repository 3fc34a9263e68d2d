"""``spinery sides``: the pictures of a game by side, and which panel shows which."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace

from engine import InputError, PictureRole, SidesReport
from tui.aloud import named
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import each_once
from tui.cli.told import told

NONE = "none"
"""The word that shows no picture."""


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("game", metavar="GAME", help="a game's id or title")
    one.add_argument(
        "--give",
        nargs="+",
        type=_pair,
        default=(),
        metavar="SIDE=FILE",
        help=f"say which side of the game a picture shows: {', '.join(PictureRole)}",
    )
    one.add_argument(
        "--show",
        nargs="+",
        type=_pair,
        default=(),
        metavar="PANEL=FILE",
        help="the picture that an art panel shows; none: no picture",
    )


def run(asked: Namespace) -> Answer:
    """Change, all as one change, and show."""
    with opened(asked) as shop, shop.change():
        for role, file in asked.give:
            shop.sides.give(asked.game, file, _role(role))
        for panel, file in each_once(asked.show).items():
            shop.sides.show(asked.game, panel, None if file == NONE else file)
        report = shop.sides.of(asked.game)
    return Answer(words(report), told(report))


def _pair(said: str) -> tuple[str, str]:
    name, sign, file = said.partition("=")
    if not sign or not file:
        raise ArgumentTypeError(f"{said} names no file: write it as back=FILE")
    return name, file


def _role(said: str) -> PictureRole:
    try:
        return PictureRole(said)
    except ValueError:
        mend = f"Give one of these: {', '.join(PictureRole)}"
        raise InputError(f"--give {said}", "is no side of a game", mend) from None


def words(report: SidesReport) -> list[str]:
    """Return the pictures of a game, and what its panels show."""
    lines: list[str] = [f"{report.game}: {report.title}"]
    for one in report.pictures:
        said = f"{one.source}, {one.confidence:.0%} sure" + (f", {one.words}" if one.words else "")
        lines.append(named(one.role, 10, said, "  "))
    for panel in report.panels:
        chosen = ", chosen" if panel.chosen else ""
        lines.append(f"  on {panel.panel}: {panel.source or 'no picture'}{chosen}")
    return lines


COMMAND = Command("sides", "the pictures of a game by side, and which panel shows which", run, add)
