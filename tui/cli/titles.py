"""``spinery titles``: which titles fall short, how one is worded, a logo in its place."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path

from engine import InputError, Workshop
from tui.aloud import Line
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_games, number
from tui.cli.told import told
from tui.gamewords import edge_words, legibility_lines


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_games(one, "*")
    change = one.add_mutually_exclusive_group()
    change.add_argument(
        "--words", metavar="TEXT", help="word one game's title so, as its list has it"
    )
    change.add_argument(
        "--logo", type=Path, metavar="FILE", help="put a picture on one game's edges"
    )
    one.add_argument("--alone", action="store_true", help="the logo alone, however small")
    one.add_argument(
        "--share", type=number, default=0.0, metavar="PART", help="its letters are so high in it"
    )


def run(asked: Namespace) -> Answer:
    """Tell how far titles read, or change that of one game."""
    changes = asked.words is not None or asked.logo is not None
    if changes and len(asked.games) != 1:
        raise InputError("titles", "this is for one game", "Name it: spinery titles GAME")
    if (asked.alone or asked.share) and asked.logo is None:
        raise InputError("titles", "--alone and --share are for a logo", "Add --logo FILE")
    with opened(asked) as shop:
        return _change(shop, asked) if changes else _report(shop, asked)


def _report(shop: Workshop, asked: Namespace) -> Answer:
    report = shop.titles.report(asked.games or None)
    wordings = shop.titles.wordings(asked.games[0]) if len(asked.games) == 1 else ()
    words = legibility_lines(report)
    if wordings:
        words.append("Wordings:")
        words += [
            Line(f"  {'*' if one.now else ' '} {one.text}", one.text + (", now" if one.now else ""))
            for one in wordings
        ]
    data = {**told(report), "wordings": told(wordings)}
    return Answer(words, data, NOTHING if report.short else DONE)


def _change(shop: Workshop, asked: Namespace) -> Answer:
    (game,) = asked.games
    if asked.logo is None:
        proposal = shop.titles.change_wording(game, asked.words)
        words = [f"{one.panel}: {edge_words(one)}" for one in proposal.edges]
        return Answer(words, told(proposal, "edges"))
    report = shop.titles.change_logo(game, asked.logo, share=asked.share, alone=asked.alone)
    return Answer(list(report.words), {**told(report, "words"), **told(report.proposal, "edges")})


COMMAND = Command(
    "titles", "tell which titles cannot be read from the shelf, or word one", run, add
)
