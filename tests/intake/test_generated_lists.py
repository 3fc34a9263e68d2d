"""Lists of invented titles, each with pictures named in ways that programs and people use."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from typing import NamedTuple

import hypothesis.strategies as st
from hypothesis import given, settings

from engine.intake import match_pictures

SURE = 0.85

_FIRST = "amber silent brass lonely velvet crooked winter scarlet hollow paper copper gentle"
_SECOND = "harbour lantern orchard beacon ferry cellar meadow carousel anchor viaduct mill"
THIRD = ["", "", "", ": Night Watch", " - The Long Way", " & Sons", ": Café Ébène", "!"]
_ROMAN = " I II III IV V VI VII VIII IX X XI XII XIII XIV XV"
FIRST, SECOND, ROMAN = _FIRST.split(), _SECOND.split(), _ROMAN.split(" ")


class Game(NamedTuple):
    first: str
    second: str
    third: str
    number: int
    article: bool

    @property
    def title(self) -> str:
        return self.written(str(self.number))

    def written(self, number: str) -> str:
        number = f" {number}" if self.number else ""
        article = "The " if self.article else ""
        return f"{article}{self.first.title()} {self.second.title()}{number}{self.third}"


games = st.builds(
    Game,
    st.sampled_from(FIRST),
    st.sampled_from(SECOND),
    st.sampled_from(THIRD),
    st.sampled_from([0, 0, 0, 2, 3, 4, 5, 11, 12]),
    st.booleans(),
)
lists = st.lists(
    games,
    min_size=1,
    max_size=14,
    unique_by=lambda game: (game[:2], game.third.strip("!"), game[3]),
)


def article_last(name: str) -> str:
    if not name.startswith("The "):
        return name
    head, colon, rest = name.removeprefix("The ").partition(":")
    return f"{head}, The{colon}{rest}"


def without_accents(name: str) -> str:
    return "".join(c for c in unicodedata.normalize("NFD", name) if not unicodedata.combining(c))


def safe_for_files(name: str) -> str:
    return name.replace(":", " -").replace("?", "").replace("!", "")


WRITTEN: list[Callable[[str], str]] = [
    str,
    str.lower,
    str.upper,
    article_last,
    without_accents,
    safe_for_files,
    lambda name: unicodedata.normalize("NFD", name),
    lambda name: name.replace("&", "and"),
    lambda name: name.replace(" ", "_"),
    lambda name: safe_for_files(name).replace(" ", "-"),
    lambda name: safe_for_files(article_last(name)).replace(" ", "_").lower(),
    lambda name: safe_for_files(name).replace(" ", "."),
    lambda name: safe_for_files(name).replace(" ", ""),
]
REMARKS = [
    "",
    "",
    " (Europe)",
    " (USA) (Rev 1)",
    " (En,Fr,De)",
    " [!]",
    " (1996)",
    " (v1.1)",
    "_cover",
]
HEADS: list[Callable[[int], str]] = [
    lambda _: "",
    lambda place: f"{place:03d} - ",
    lambda place: f"{place + 1}. ",
    lambda place: f"{place:04d}_",
]


@st.composite
def deliveries(draw: st.DrawFn) -> tuple[dict[str, str], dict[str, Game]]:
    """A list, title by id, and the game of each file: each written in ways of its own."""
    shelf = draw(lists)
    head = draw(st.sampled_from(HEADS))
    files: dict[str, Game] = {}
    for place, game in enumerate(shelf):
        number = draw(st.sampled_from([str(game.number), ROMAN[game.number]]))
        name = draw(st.sampled_from(WRITTEN))(game.written(number))
        suffix = draw(st.sampled_from([".png", ".JPG", ".webp"]))
        files[f"{head(place)}{name}{draw(st.sampled_from(REMARKS))}{suffix}"] = game
    kept = draw(st.lists(st.sampled_from(shelf), unique=True))
    order = draw(st.permutations(list(files)))
    return {game.title: game.title for game in kept}, {file: files[file] for file in order}


@settings(max_examples=180)
@given(deliveries())
def test_messy_names_are_matched_right_and_never_across_numbers(
    delivery: tuple[dict[str, str], dict[str, Game]],
) -> None:
    titles, files = delivery
    found = match_pictures(titles, list(files))
    assert set(found) == set(titles)
    for title, one in found.items():
        assert files[one.file].title == title
        assert one.confidence >= SURE


@settings(max_examples=150)
@given(deliveries(), st.data())
def test_when_pictures_are_missing_no_game_gets_one_of_another_number(
    delivery: tuple[dict[str, str], dict[str, Game]], data: st.DataObject
) -> None:
    titles, files = delivery
    left = data.draw(st.lists(st.sampled_from(sorted(files)), unique=True))
    by_title = {game.title: game for game in files.values()}
    for title, one in match_pictures(titles, left).items():
        assert files[one.file].number == by_title[title].number
        if one.confidence >= SURE:
            assert files[one.file].title == title
