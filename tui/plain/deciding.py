"""Words to decide games: the batch is gone through game by game."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine import Decision, InputError, Proposal
from tui.gamewords import colour_words
from tui.plain.telling import decision_lines, doubt_lines
from tui.plain.word import Words
from tui.words import count, outlook_words

if TYPE_CHECKING:
    from tui.plain.desk import Desk

DECIDING = Words("To decide games")

word = DECIDING.word


def tell_changed(desk: Desk, game: Proposal, decision: Decision) -> None:
    """Tell a decision of a game that was changed, and what is in doubt now."""
    desk.say((*decision_lines(game, decision, desk.kinds), *doubt_lines(game)))


def listed(number: str, of: tuple[str, ...], how: str) -> str:
    """Return what stands at a number, counted from 1, of what was listed last. Raises InputError.

    ``how`` lists it.
    """
    if not number.isdecimal() or not 1 <= int(number) <= len(of):
        raise InputError(number or "number", "is no number of the list", f"{how} lists them")
    return of[int(number) - 1]


# --- going through the batch ------------------------------------------------------------------


@word("accept", acts="accept", many=True)
def accept(desk: Desk, _: str) -> None:
    """Accept all that is proposed for the game, and go to the next."""
    report = desk.shop.designs.accept(desk.targets)
    if desk.is_for_many:
        desk.say((f"{count(len(report.accepted), 'game')} accepted.", *report.notes))
        return
    desk.say(("Accepted.", *report.notes))
    desk.go_on()


@word("sure", acts="accept_sure", many=True)
def sure(desk: Desk, _: str) -> None:
    """Accept all games of the batch that are sure, and go to the first of the others."""
    games = desk.targets if desk.is_for_many else desk.open_games()
    report = desk.shop.designs.accept(games, sure_only=True)
    done = f"{count(len(report.accepted), 'game')} accepted, {len(report.left)} in doubt."
    desk.say((done, *report.notes))
    if not desk.is_for_many:
        desk.at = ""
        desk.go_on()


@word("skip")
def skip(desk: Desk, _: str) -> None:
    """Leave the game for later, and go to the next."""
    if desk.open_games() == [desk.present]:
        desk.say("No other game of the batch waits for a decision.")
    else:
        desk.go_on()


@word("back")
def back(desk: Desk, _: str) -> None:
    """Go to the game before."""
    batch = desk.batch
    place = batch.index(desk.at) if desk.at in batch else len(batch)
    if not place:
        raise InputError("", "This is the first game of the batch", "skip goes on")
    desk.at = batch[place - 1]
    desk.tell_game()


@word("again", acts="bench")
def again(desk: Desk, _: str) -> None:
    """Tell the game once more."""
    desk.tell_game()


@word("next", acts="next_batch", many=True)
def bring_next(desk: Desk, _: str) -> None:
    """Bring the next batch, chosen so that sheets fill."""
    desk.say("Choosing games.")
    games = desk.shop.batch.bring_next(desk.targets if desk.is_for_many else None)
    desk.say(f"The batch holds {count(len(games), 'game')}.")
    desk.say(outlook_words(desk.shop.batch.outlook()))
    desk.at = ""
    desk.go_on()


@word("game", "TITLE")
def game(desk: Desk, rest: str) -> None:
    """Go to any game by its number in the list, its id or the beginning of its title."""
    is_listed = rest.isdecimal() and 1 <= int(rest) <= len(desk.listed)
    found = desk.listed[int(rest) - 1] if is_listed else rest
    desk.at = desk.shop.designs.proposal(found).game
    desk.tell_game()


@word("bring", acts="bring to_bench", many=True)
def bring(desk: Desk, _: str) -> None:
    """Bring the game into today's batch."""
    games = desk.shop.batch.add(desk.targets)
    desk.say(f"The batch holds {count(len(games), 'game')}.")


@word("drop", acts="drop", many=True)
def drop(desk: Desk, _: str) -> None:
    """Drop the game from today's batch, and go to the next."""
    gone = desk.targets
    following = next((one for one in desk.open_games() if one not in gone), "")
    desk.shop.batch.drop(gone)
    desk.say("Dropped from the batch.")
    if desk.is_for_many:
        return
    desk.at = following
    if following:
        desk.tell_game()
    else:
        desk.go_on()


@word("reopen", acts="reopen", many=True)
def reopen(desk: Desk, _: str) -> None:
    """Take back what was accepted for the game."""
    desk.shop.designs.reopen(desk.targets)
    desk.tell_game()


# --- the decisions ----------------------------------------------------------------------------


@word("case", "[KIND]", acts="change_case", many=True)
def case(desk: Desk, rest: str) -> None:
    """Put the game in another kind of case; with nothing behind it, list the kinds."""
    if rest:
        desk.shop.designs.change_cases(desk.targets, rest)
        desk.say(desk.shop.kinds.kind(rest).cautions)
        desk.tell_game()
        return
    desk.say(f"{kind}: {name}" for kind, name in desk.kinds.items())


@word("panels", "[PANEL ...]", acts="panels", many=True)
def panels(desk: Desk, rest: str) -> None:
    """Leave these panels out of the insert; all takes every one back. Alone, tell the panels."""
    if rest:
        left_out = () if rest == "all" else tuple(rest.replace(",", " ").split())
        desk.shop.designs.leave_out(desk.targets, left_out)
    one = desk.shop.designs.proposal(desk.targets[0])
    for panel in desk.shop.kinds.kind(one.case).panels:
        out = ", left out" if panel.name in one.design.left_out else ""
        desk.say(f"{panel.name}: {panel.role.value}{out}")


@word("colour", "[#rrggbb]", acts="change_colour")
def colour(desk: Desk, rest: str) -> None:
    """Set the base colour; with nothing behind it, list those that suit, and its neighbours."""
    if rest:
        tell_changed(desk, desk.shop.designs.change_colour(desk.present, rest), Decision.COLOUR)
        return
    beside = desk.shop.choosing.neighbours(desk.present, of_each=1)
    desk.say(
        f"{colour_words(one.base)}: {one.words}" for one in desk.shop.colours.choices(desk.present)
    )
    for where, row in (("Before", beside.before), ("After", beside.after)):
        desk.say(
            f"{where} it on the shelf: {one.title}, {colour_words(one.colours.base)}" for one in row
        )


@word("title", "TEXT", acts="change_title")
def title(desk: Desk, rest: str) -> None:
    """Set the title on the edges; a slash begins a new line."""
    if not rest:
        raise InputError("title", "nothing is said", "Type the title behind it")
    tell_changed(desk, desk.shop.designs.change_title(desk.present, rest), Decision.TITLE)


@word("reword", acts="next_wording")
def reword(desk: Desk, _: str) -> None:
    """Word the title in the next shorter way, after the last in full again."""
    tell_changed(desk, desk.shop.titles.next_wording(desk.present), Decision.TITLE)
