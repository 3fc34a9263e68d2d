"""Words for the list of games: taken in, added, edited, deleted, and the pictures of each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine import (
    Delivery,
    InputError,
    PictureRole,
    SidesReport,
    Sought,
    look_at_path,
    read_titles,
    unpack,
)
from tui.cli.answers import by_tenths
from tui.cli.sides import words as sides_words
from tui.gamewords import FIELDS
from tui.plain.word import Words
from tui.words import count, first_of, look_lines, taken_lines

if TYPE_CHECKING:
    from tui.plain.desk import Desk

RECORDS = Words("For the list and its pictures")

word = RECORDS.word

NAMED = 8
"""Games that are named before the rest is counted."""

DROP = "none"
"""In the place of a side: the picture is not of the game."""


# --- taking in --------------------------------------------------------------------------------


@word("paste", acts="take_list")
def paste(desk: Desk, _: str) -> None:
    """Take in titles that are typed or pasted next, a title a line; an empty line ends them."""
    desk.say("Type or paste a title a line. An empty line ends them.")
    desk.gather(lambda text: _look(desk, unpack(read_titles(text), None)))


@word("covers", "FOLDER", acts="take_pictures")
def covers(desk: Desk, rest: str) -> None:
    """Take in a folder of pictures, which are matched to the games by name."""
    if not rest:
        raise InputError("covers", "no folder is named", "Type it behind the word")
    delivery = unpack(
        None,
        look_at_path(rest, Sought.PICTURES).path,
        known=desk.shop.readings.found(),
        skip_broken=True,
        progress=by_tenths("Looking at picture {} of {}."),
    )
    _look(desk, delivery)


def _look(desk: Desk, delivery: Delivery) -> None:
    from tui.plain.vocabulary import FOLLOWS

    def take_in() -> None:
        desk.say(taken_lines(desk.shop.games.take_in(delivery)))
        if delivery.pictures:
            desk.run(["read"])
        desk.say(FOLLOWS["intake"])

    desk.ask(look_lines(desk.shop.games.look(delivery)), take_in)


# --- what is written --------------------------------------------------------------------------


@word("add", "TITLE", acts="record add_game")
def add(desk: Desk, rest: str) -> None:
    """Add one game to the list, and go to it; edit says more of it."""
    desk.at = desk.shop.games.add(title=rest).id
    desk.tell_game()


@word("edit", "[FIELD WORDS]", acts="record edit_game")
def edit(desk: Desk, rest: str) -> None:
    """Write the title, series, maker, genre, year or notes of the game; alone, tell them."""
    field, _, words = rest.partition(" ")
    if field and field not in FIELDS:
        raise InputError(field, "nothing is written under that", f"Give {', '.join(FIELDS)}")
    if field:
        desk.shop.games.edit(desk.present, **{field: words})
    line = next(one for one in desk.shop.games.lines() if one.id == desk.present)
    for key, name in FIELDS.items():
        if field in {"", key}:
            desk.say(f"{name}: {getattr(line, key) or 'nothing'}.")


@word("delete", acts="record delete_games", many=True)
def delete(desk: Desk, _: str) -> None:
    """Delete the game from the list; undo brings it back."""
    games = desk.targets
    titles = [line.title for line in desk.shop.games.lines() if line.id in games]

    def then() -> None:
        desk.shop.games.delete(games)
        desk.at = ""
        desk.say(f"{count(len(games), 'game')} deleted. undo takes that back.")

    if desk.is_for_many:
        then()
    else:
        desk.ask([f"Delete {', '.join(first_of(titles, NAMED))}."], then)


@word("story", acts="game_history")
def story(desk: Desk, _: str) -> None:
    """Tell what was decided for the game, printed and fitted, and when."""
    desk.run(["history", desk.present])


# --- its pictures -----------------------------------------------------------------------------


@word("sides", "[GAME]", acts="record own_pictures")
def sides(desk: Desk, rest: str) -> None:
    """Tell the pictures of the game by the side that they show, and which panel shows which."""
    desk.run(["sides", *([rest] if rest else [desk.present])])


@word("side", "SIDE FILE", acts="record own_pictures")
def side(desk: Desk, rest: str) -> None:
    """Say which side of the game a picture shows, such as front or back.

    The picture is one of the collection, by its file name, or a file from elsewhere, which is
    copied in. none takes it from the game.
    """
    said, _, file = rest.partition(" ")
    if not file or said not in {*PictureRole, DROP}:
        sides_of = ", ".join((*PictureRole, DROP))
        raise InputError(rest or "side", "is no side and its file", f"The sides are {sides_of}")
    desk.say(_shown(desk, said, file))


def _shown(desk: Desk, said: str, file: str) -> list[str]:
    def changed() -> SidesReport:
        path = look_at_path(file, Sought.PICTURE).path
        if said == DROP:
            return desk.shop.sides.drop(desk.present, path.name if path.is_file() else file)
        if path.is_file():
            return desk.shop.sides.bring(desk.present, path, PictureRole(said))
        return desk.shop.sides.give(desk.present, file, PictureRole(said))

    return sides_words(changed())
