"""Words to find games among all and to mark them, so that something is done to all marked."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from engine import By, GameLine, InputError, Only, Order, Stage, Wanted, conditions, listed
from tui.plain.word import Words
from tui.words import count

if TYPE_CHECKING:
    from tui.plain.desk import Desk

FINDING = Words("To find and mark games")

word = FINDING.word

LISTED = 9
"""Games that are told at a time."""

ALL = "all"
"""In the place of a condition, an order or a number."""


@word("find", "[WORDS]", acts="filter")
def find(desk: Desk, rest: str) -> None:
    """Look only for games that carry these words; alone, for all games again."""
    only = desk.finder.wanted.only if rest else frozenset()
    _want(desk, desk.finder.wanted._replace(words=rest, only=only))


@word("only", "[CONDITION|all]", acts="only")
def only(desk: Desk, rest: str) -> None:
    """Look only for games of a stage, case, series or maker, or that lack something.

    Several narrow it further. The same once more takes it back, and all takes every one back.
    Alone, list what can be looked for.
    """
    _take(desk)
    counts = conditions(desk.finder.sorted)
    if not rest:
        for one, games in counts.items():
            holds = ", holds" if one in desk.finder.wanted.only else ""
            desk.say(f"{_name(one)}{'' if games is None else f': {games}'}{holds}")
        return
    if rest == ALL:
        _want(desk, desk.finder.wanted._replace(only=frozenset()))
        return
    said = rest.casefold()
    meant = [one for one in counts if said in {_name(one).casefold(), one.value.casefold()}]
    if not meant:
        raise InputError(rest, "holds of no game", "only lists what can be looked for")
    _want(desk, desk.finder.wanted.toggled(meant[0]))


@word("sort", "ORDER", acts="sort")
def sort(desk: Desk, rest: str) -> None:
    """Put the list in an order, such as title, stage, case, maker, or doubt for those first."""
    found = [one for one in Order if rest and rest.removeprefix("by ") in one]
    if len(found) != 1:
        raise InputError(rest or "sort", "is no order", f"Give one of: {', '.join(Order)}")
    _want(desk, desk.finder.wanted._replace(order=found[0]))


@word("list", acts="backlog")
def tell(desk: Desk, _: str) -> None:
    """Tell the games that are looked for, nine at a time, each with its number."""
    _take(desk)
    desk.listed = ()
    more(desk, "")


@word("more", acts="backlog")
def more(desk: Desk, _: str) -> None:
    """Tell the next games of the list."""
    found, begin = desk.finder.found, len(desk.listed)
    following = found[begin : begin + LISTED]
    for number, one in enumerate(following, start=begin + 1):
        desk.say(f"{number}: {_game(one.game)}{_marked(desk, one.game.id)}.")
    desk.listed += tuple(one.game.id for one in following)
    left = len(found) - len(desk.listed)
    if left:
        desk.say(f"{count(left, 'game')} left: more tells them.")
    elif not following:
        desk.say("No game is like that." if not found else "That is all of the list.")


def _game(one: GameLine) -> str:
    state = "to be printed again" if one.reprint else one.stage.value
    if one.undecided and one.stage is not Stage.UNWANTED:
        state += ", sure" if one.sure else ", in doubt"
    return f"{one.title}, {state}, {one.case}" + (", in the batch" if one.batch else "")


def _marked(desk: Desk, game: str) -> str:
    return ", marked" if game in desk.marks else ""


# --- marking ----------------------------------------------------------------------------------


@word("mark", "[NUMBERS|all]", acts="mark mark_all mark_to")
def mark(desk: Desk, rest: str) -> None:
    """Mark games by their numbers in the list, such as 2 5 or 3 to 7, or all of it.

    Alone, mark the game at hand.
    """
    games = _meant(desk, rest)
    desk.marks = tuple(dict.fromkeys((*desk.marked, *games)))
    _tell_marks(desk)


@word("unmark", "[NUMBERS|all]", acts="mark mark_all clear")
def unmark(desk: Desk, rest: str) -> None:
    """Take marks back: of games by their numbers, or of all; alone, of the game at hand."""
    games = desk.marks if rest == ALL else _meant(desk, rest)
    desk.marks = tuple(game for game in desk.marked if game not in games)
    _tell_marks(desk)


@word("marked", "[WORD ...]", acts="mark")
def marked(desk: Desk, rest: str) -> None:
    """Do a word to all marked games, such as accept, case or declare.

    Before, it is told how many they are. Alone, tell the marked games.
    """
    if rest:
        desk.do_to_marked(rest)
        return
    titles = desk.shop.games.titles()
    desk.say(titles[game] for game in desk.marked)
    _tell_marks(desk)


def _tell_marks(desk: Desk) -> None:
    games = desk.marked
    found = {one.game.id for one in desk.finder.found}
    hidden = sum(game not in found for game in games) if found else 0
    out = f", {hidden} of them not in the list" if hidden else ""
    desk.say(f"{count(len(games), 'game')} marked{out}.")


def _meant(desk: Desk, said: str) -> tuple[str, ...]:
    """Return the games that numbers of the list stand for. Raises InputError."""
    if not said:
        return (desk.present,)
    if said == ALL:
        _take(desk)
        return tuple(one.game.id for one in desk.finder.found)
    ranges = re.sub(r"(?<=\d)\s*(?:to|-)\s*(?=\d)", "-", said).replace(",", " ")
    games: list[str] = []
    for part in ranges.split():
        ends = re.fullmatch(r"(\d+)(?:-(\d+))?", part)
        first, last = (int(ends[1]), int(ends[2] or ends[1])) if ends else (0, 0)
        if not 1 <= first <= last <= len(desk.listed):
            raise InputError(part, "is no number of the list", "list tells the games")
        games += desk.listed[first - 1 : last]
    return tuple(games)


# --- what is looked for -----------------------------------------------------------------------


def _want(desk: Desk, wanted: Wanted) -> None:
    """Look for something else, and tell what that is and how many are so."""
    desk.finder.want(wanted)
    _take(desk)
    desk.listed = ()
    said = [_name(one) for one in wanted.only]
    said += [f"with the words {wanted.words}"] if wanted.words else []
    number = count(len(desk.finder.found), "game")
    desk.say(f"{number} {', '.join((*said, wanted.order))}. list tells them.")


def _take(desk: Desk) -> None:
    """Look through the games as they are now, judged where that is asked for."""
    desk.finder.take(listed(desk.shop.games.lines(), desk.kinds, {}).values())
    if desk.finder.to_judge:
        desk.say("The games are judged: this takes a while once.")
        desk.finder.judge(desk.shop.games.traits(desk.finder.to_judge))


def _name(one: Only) -> str:
    """Return a condition: 'in doubt', 'maker Quayworks'."""
    return one.value if one.by is By.TRAIT else f"{one.by} {one.value}"
