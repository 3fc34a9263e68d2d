"""``spinery ink``: how much ink inserts and sheets take."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Iterable

from engine import InkSummary
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_games
from tui.cli.told import told
from tui.words import saved


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_games(one, "*")


def run(asked: Namespace) -> Answer:
    """Tell the ink of some games, or of everything that waits for a sheet or lies on one."""
    with opened(asked) as shop:
        found = () if asked.games else shop.sheets.report()
        sheets = (*found.ready, *found.open, *found.pressed) if found else ()
        summary = shop.ink.report(asked.games, sheets)
    return Answer(_words(summary), told(summary), DONE if summary.inserts else NOTHING)


def _words(summary: InkSummary) -> list[str]:
    """Return the ink of inserts and sheets, a line each, and what each mode would save."""
    if not summary.inserts:
        return ["No insert waits for a sheet. Name games to see theirs."]
    lines = [summary.model, "", f"{'':24}{'cyan':>8}{'magenta':>9}{'yellow':>8}{'black':>8}"]
    for one in summary.inserts:
        amounts = _columns(one.coverage.values())
        lines.append(f"{one.game[:23]:<24}{amounts}  {one.mode}, {saved(one.saving)}")
    for sheet in summary.sheets:
        name = f"sheet {sheet.number}" if sheet.number else "a sheet"
        lines.append(f"{name:<24}{_columns(sheet.coverage.values())}  {saved(sheet.saving)}")
    return lines


def _columns(inks: Iterable[float]) -> str:
    cyan, magenta, yellow, black = (f"{percent:.1f} %" for percent in inks)
    return f"{cyan:>8}{magenta:>9}{yellow:>8}{black:>8}"


COMMAND = Command("ink", "tell how much ink inserts and sheets take", run, add)
