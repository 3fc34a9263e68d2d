"""``spinery shelf``: the shelf in its order, as a picture, and as it would be."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from itertools import groupby
from typing import Any

from engine import SETTINGS, ByKind, EdgeLine, InputError, ShelfReport
from tui.aloud import Line
from tui.cli.answers import DONE, NOTHING, Answer, Command, wrote
from tui.cli.opening import opened
from tui.cli.options import add_out, each_once, number
from tui.cli.told import told
from tui.gamewords import colour_words
from tui.words import clash_words, count

TRIED = {
    one.option: one
    for one in SETTINGS.values()
    if one.home != "stock" and one.option and not isinstance(one.takes, ByKind)
}
"""What a shelf may be looked at under, by its option."""


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_out(one, "FILE", "write it as a .png or a .pdf")
    one.add_argument("--ppi", type=number, metavar="N", help="pixels to the inch of the PNG")
    one.add_argument("--row", type=number, metavar="MM", help="how long a row may be, a pile high")
    one.add_argument(
        "--finished", action="store_true", help="draw it as if everything were printed"
    )
    one.add_argument(
        "--what-if",
        nargs="+",
        type=setting,
        default=(),
        metavar="SETTING=VALUE",
        help="the shelf under other settings beside it: order=colour, colour-by=series, "
        "lettering=free; nothing is changed",
    )
    one.add_argument(
        "--file",
        nargs="+",
        type=sort_title,
        default=(),
        metavar="GAME=TITLE",
        help="file a game under another title; GAME= files it under its own again",
    )
    one.add_argument(
        "--move",
        nargs="+",
        type=move,
        default=(),
        metavar="GAME=N",
        help="move a game N places on, or back: the order is by hand from then on",
    )


def setting(text: str) -> tuple[str, Any]:
    """Return the setting that is tried and its value."""
    name, found, said = text.partition("=")
    one = TRIED.get(name.strip())
    if not found or one is None:
        raise ArgumentTypeError(f"{text} is no setting to try: write order=colour or the like")
    try:
        return one.id, one.takes.parse(said)
    except ValueError as error:
        raise ArgumentTypeError(str(error)) from error


def sort_title(text: str) -> tuple[str, str]:
    """Return a game, and what it is filed under."""
    game, found, words = text.partition("=")
    if not found:
        raise ArgumentTypeError(f"{text} is no sort title: write GAME=TITLE")
    return game.strip(), words


def move(text: str) -> tuple[str, int]:
    """Return a game, and by how many places it is moved."""
    game, _, said = text.rpartition("=")
    try:
        return game.strip(), int(said)
    except ValueError:
        raise ArgumentTypeError(f"{text} is no move: write GAME=3 or GAME=-1") from None


def run(asked: Namespace) -> Answer:
    """Change what was given, as one change; then show or write it."""
    tried = each_once(asked.what_if)
    if asked.out is None and (asked.ppi or asked.row):
        raise InputError("--ppi and --row", "are for a picture", "Give its file with --out")
    with opened(asked) as shop:
        if asked.file or asked.move:
            with shop.change():
                for game, words in each_once(asked.file).items():
                    shop.shelf.file_under(game, words)
                for game, steps in each_once(asked.move).items():
                    shop.shelf.move(game, steps)
        if asked.out is not None:
            shop.shelf.write(
                asked.out,
                ppi=asked.ppi,
                row=asked.row,
                what_if=tried,
                finished=asked.finished,
                replace=asked.replace,
            )
            return wrote(asked.out)
        report = shop.shelf.report(tried)
    return Answer(_words(report), told(report), DONE if report.games else NOTHING)


def _words(report: ShelfReport) -> list[str]:
    lines: list[str] = []
    for group, games in groupby(report.games, lambda one: one.group):
        lines += [*filter(None, [group]), *map(_line, games)]
    printed = sum(one.printed for one in report.games)
    said = count(len(report.games), "game") if report.games else "No games"
    return [
        *lines,
        f"{said}, {printed} printed.",
        *(
            Line(f"! {words}", f"Clash: {words.aloud}")
            for words in map(clash_words, report.clashes)
        ),
    ]


def _line(one: EdgeLine) -> str:
    sign = "■" if one.printed else "□"
    filed = f", filed as {one.sort_title}" if one.sort_title else ""
    base, size = one.colours.base, f"{one.width:.1f} × {one.height:.1f} mm"
    printed = "printed" if one.printed else "not printed"
    return Line(
        f"  {sign} {one.title}{filed}  {base}  {size}",
        f"{one.title}{filed}, {printed}, {colour_words(base)}, {size}",
    )


COMMAND = Command("shelf", "the games in their order, or a picture of all edges", run, add)
