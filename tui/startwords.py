"""The first steps, from the list to the check page: what each asks for, and what it came to."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from engine import KindChoice, StartReport
from tui.words import count


class Step(NamedTuple):
    """One of the first steps."""

    label: str
    about: str
    state: Callable[[StartReport], str]
    """What it has come to."""


def games_words(report: StartReport) -> str:
    """Return how many games there are."""
    return count(report.games, "game") if report.games else "no games yet"


def pictures_words(report: StartReport) -> str:
    """Return how many games have a picture."""
    confirm = f", {report.doubtful} to confirm" if report.doubtful else ""
    return f"{report.pictured} of {count(report.games, 'game')} have one{confirm}"


def case_words(report: StartReport) -> str:
    """Return which case kinds games are in."""
    name, games = next(iter(report.kinds.items()), ("", 0))
    more = report.games - games
    return f"{name}: {games}" + (f", others: {more}" if more else "") if name else "no games yet"


def storage_words(report: StartReport) -> str:
    """Return how cases are kept, and what shows."""
    shows = " and ".join(report.shows)
    return report.stored + (f": {shows} shows" if shows else "")


def paper_words(report: StartReport) -> str:
    """Return the paper, and what a sheet of it holds."""
    return f"{report.stock}: {report.on_sheet} inserts a sheet"


def check_words(report: StartReport) -> str:
    """Return what was measured of the printer."""
    return report.measured or "nothing measured yet"


STEPS = {
    "list": Step(
        "List", "The games: a file as CSV, XLSX, ODS or text, or titles pasted.", games_words
    ),
    "pictures": Step(
        "Pictures",
        "A folder of covers. Without one an insert has its title on its base colour.",
        pictures_words,
    ),
    "case": Step("Case", "The case that games go into where the list names none.", case_words),
    "storage": Step(
        "Storage", "How the cases stand decides which edge carries the title.", storage_words
    ),
    "paper": Step("Paper", "The paper that inserts are printed on.", paper_words),
    "check": Step(
        "Check page",
        "A page to print and measure, so that every length comes out true from then on.",
        check_words,
    ),
    "begin": Step("Begin", "The first games are brought, to be decided.", lambda _: ""),
}
"""In the order in which they are taken."""


def kind_lines(one: KindChoice) -> list[str]:
    """Return what there is to say of a case kind that could be chosen."""
    flat = f"Its insert is {one.flat.width:.1f} × {one.flat.height:.1f} mm flat"
    return [f"{flat}; {one.on_sheet} fill a sheet.", *one.cautions]
