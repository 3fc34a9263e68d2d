"""Finding games: words, conditions and orders, against what they say in plain Python."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.model import Stage
from engine.state import (
    By,
    Finder,
    GameLine,
    Listed,
    Only,
    Order,
    Trait,
    Wanted,
    being,
    conditions,
    having,
    in_order,
    listed,
)

KINDS = {"a": "Snap shell", "b": "Keep case", "c": "Alpha tray"}


def line(title: str, **more: Any) -> GameLine:
    fields = {"series": "", "maker": "", "genre": "", "year": "", "notes": "", "case": "a"}
    state = {"stage": Stage.LISTED, "sure": True, "reprint": False, "batch": False}
    return GameLine(**{"id": title.casefold(), "title": title, **fields, **state, **more})


LINES = (
    line("Moss 10", series="Tales", case="b"),
    line("moss 9", maker="Quayworks", stage=Stage.PRINTED, pictured=False),
    line("Lantern", series="Bay", maker="Attic", sure=False, case="c"),
)
GAMES = tuple(listed(LINES, KINDS, {}).values())
STAGES = st.sampled_from(list(Stage))
LISTS = st.lists(
    st.builds(
        line,
        st.text("abc 12", min_size=1, max_size=6),
        series=st.sampled_from(["", "x", "y"]),
        maker=st.sampled_from(["", "p", "q"]),
        stage=STAGES,
        sure=st.booleans(),
        pictured=st.booleans(),
    ),
    unique_by=lambda game: game.id,
    max_size=8,
)


def titles(games: list[Listed]) -> list[str]:
    return [one.game.title for one in games]


@pytest.mark.parametrize(
    ("order", "wanted"),
    [
        (Order.LISTED, ["Moss 10", "moss 9", "Lantern"]),
        (Order.TITLE, ["Lantern", "moss 9", "Moss 10"]),
        (Order.STAGE, ["Moss 10", "Lantern", "moss 9"]),
        (Order.KIND, ["moss 9", "Moss 10", "Lantern"]),
        (Order.SERIES, ["Lantern", "Moss 10", "moss 9"]),
        (Order.MAKER, ["Lantern", "moss 9", "Moss 10"]),
        (Order.DOUBT, ["Lantern", "Moss 10", "moss 9"]),
    ],
)
def test_numbers_sort_as_numbers_and_what_is_not_said_comes_last(order, wanted) -> None:
    assert titles(in_order(GAMES, order)) == wanted


def test_every_word_has_to_be_carried_in_whatever_column() -> None:
    assert titles(having(GAMES, "KEEP mo")) == ["Moss 10"]
    assert titles(having(GAMES, "snap quay")) == ["moss 9"]
    assert titles(having(GAMES, "  ")) == ["Moss 10", "moss 9", "Lantern"]


def test_one_of_several_makers_and_all_of_several_traits() -> None:
    makers = {Only(By.MAKER, "Attic"), Only(By.MAKER, "Quayworks")}
    assert titles(being(GAMES, makers, {})) == ["moss 9", "Lantern"]
    assert titles(being(GAMES, {*makers, Only(By.TRAIT, Trait.DOUBTED)}, {})) == ["Lantern"]
    both = {Only(By.TRAIT, Trait.DOUBTED), Only(By.TRAIT, Trait.UNPICTURED)}
    assert titles(being(GAMES, both, {})) == []


def test_what_is_judged_is_taken_from_what_was_judged() -> None:
    coarse = Only(By.TRAIT, Trait.COARSE)
    assert titles(being(GAMES, {coarse}, {})) == []
    assert titles(being(GAMES, {coarse}, {"lantern": frozenset({Trait.COARSE})})) == ["Lantern"]
    assert Wanted(only=frozenset({coarse})).judged == {Trait.COARSE}
    assert Wanted().toggled(coarse).toggled(coarse) == Wanted()


@settings(max_examples=40)
@given(LISTS)
def test_each_condition_finds_as_many_as_it_counts(games: list[GameLine]) -> None:
    found = tuple(listed(games, KINDS, {}).values())
    for one, count in conditions(found).items():
        if count is not None:
            assert len(being(found, {one}, {})) == count


@settings(max_examples=40)
@given(LISTS, STAGES)
def test_what_is_as_it_was_stays_and_what_changed_is_made_anew(games, stage: Stage) -> None:
    before = listed(games, KINDS, {})
    later = [line(g.title, stage=stage) if n == 0 else g for n, g in enumerate(games)]
    after: Mapping[str, Listed] = listed(later, KINDS, before)
    assert [one.game for one in after.values()] == later
    assert all(after[game.id] is before[game.id] for game in games[1:])


WANTS = st.builds(
    Wanted,
    words=st.text("abc 1", max_size=3),
    only=st.frozensets(
        st.sampled_from(
            [
                Only(By.SERIES, "x"),
                Only(By.MAKER, "p"),
                Only(By.STAGE, Stage.PRINTED),
                Only(By.TRAIT, Trait.DOUBTED),
                Only(By.TRAIT, Trait.COARSE),
            ]
        ),
        max_size=2,
    ),
    order=st.sampled_from(list(Order)),
)


@settings(max_examples=40)
@given(LISTS, st.lists(WANTS, min_size=1, max_size=4), st.booleans())
def test_a_search_that_goes_on_finds_what_one_begun_anew_does(games, wants, coarse) -> None:
    found = tuple(listed(games, KINDS, {}).values())
    judged = {one.game.id: frozenset({Trait.COARSE}) for one in found if coarse}
    finder = Finder()
    finder.take(found)
    finder.judge(judged)
    for wanted in wants:
        finder.want(wanted)
        right = being(in_order(found, wanted.order), wanted.only, judged)
        assert finder.found == having(right, wanted.words)
