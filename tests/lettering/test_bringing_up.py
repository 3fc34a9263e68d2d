"""Titles brought up for what changed: just what setting all of them anew would give."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from unittest import mock

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import cases
from engine.cases.casing import Casing
from engine.lettering import StandIns, default_font
from engine.lettering.faces import open_face
from engine.lettering.titler import Titled, Titler, edges_of
from engine.model import Accepted, EdgeTitle, Game, Sign
from engine.model.settings import Lettering, Settings

AT = datetime(2026, 3, 1, tzinfo=UTC)
KINDS = cases.load_kinds()
CASING = Casing(KINDS, Settings())
CASES = ("snap-shell-card", "snap-shell-low")
LAMP = "The Lantern Keeper of the Old Harbour and the Island of Moss"
TITLES = st.sampled_from(
    [
        LAMP,
        f"{LAMP}: First Voyage of the Rook and the Lamp",
        f"{LAMP}: Second Voyage of the Rook and the Lamp 2",
        f"{LAMP}: Second Voyage of the Rook and the Lamp 3",
        "Lantern Keeper",
        "The Lantern Keeper",
        "Rook",
        "Moss and Rook Volume Two",
        "\u706f\u53f0\u5b88",
        "Tide " * 12,
        "Tide " * 9,
        "Otter",
    ]
)
OWN_WORDS = st.sampled_from(["", "Lantern", "Rook", "The Lantern K\u2026"])
GAMES = st.builds(
    lambda title, case, words, genre, left_out: Game(
        id="",
        title=title,
        added_at=AT,
        genre=genre,
        accepted=Accepted(
            case=case,
            title=(EdgeTitle("long", (words,), 8.0),) if words else None,
            left_out=left_out,
        ),
    ),
    title=TITLES,
    case=st.sampled_from(CASES),
    words=OWN_WORDS,
    genre=st.sampled_from(["", "Puzzle", "Sport", "Racing"]),
    left_out=st.sampled_from([None, (), ("short",)]),
)
CHANGES = st.lists(
    st.dictionaries(st.sampled_from("abcdefghij"), st.none() | GAMES, min_size=1, max_size=3),
    min_size=1,
    max_size=5,
)
SHELVES = st.dictionaries(st.sampled_from("abcdefghij"), GAMES, max_size=10)
SETUPS = st.builds(
    Lettering,
    mode=st.sampled_from(["even", "free"]),
    smallest=st.sampled_from([5.0, 9.0, 12.0]),
    stripe=st.sampled_from(["", "genre"]),
    mark=st.sampled_from(["", "genre"]),
    dictionary=st.sampled_from([{}, {"lantern": "\u706f"}]),
)
SIGNS = st.sampled_from([(), (), (), (Sign.DOT,)])


def named(games: Mapping[str, Game]) -> dict[str, Game]:
    return {key: msgspec.structs.replace(game, id=key) for key, game in games.items()}


def brought_up(
    games: Mapping[str, Game], change: Mapping[str, Game | None]
) -> tuple[dict[str, Game], dict[str, Game | None]]:
    """Return the games as they then are, and the change with their names."""
    known = {key: game for key, game in change.items() if game is not None}
    now: dict[str, Game | None] = {**dict.fromkeys(change), **named(known)}
    return {key: game for key, game in {**games, **now}.items() if game is not None}, now


def every(titler: Titler, games: Mapping[str, Game]) -> dict[str, Titled]:
    return {key: titler.titled(game, CASING.net_of(game)) for key, game in games.items()}


@settings(max_examples=50)
@given(SHELVES, CHANGES, SETUPS, st.lists(SIGNS, min_size=5, max_size=5))
def test_a_titler_brought_up_proposes_what_a_new_one_would(
    games: dict[str, Game],
    changes: list[dict[str, Game | None]],
    chosen: Lettering,
    signs: list[tuple[Sign, ...]],
) -> None:
    games, stand_ins = named(games), StandIns(Path("nowhere"))
    titler = Titler.of(CASING, chosen, games, stand_ins)
    for change, sign in zip(changes, signs, strict=False):
        before = every(titler, games)
        games, now = brought_up(games, change)
        titler, touched = titler.after(now, sign)
        fresh = Titler.of(CASING, chosen, games, stand_ins, sign)
        found = every(titler, games)
        assert found == every(fresh, games)
        for case in CASES:
            for panel in edges_of(CASING.net(case)):
                mine, other = titler.shelf(case, panel), fresh.shelf(case, panel)
                assert (mine.size, mine.apart) == (other.size, other.apart)
        differ = {key for key, one in found.items() if key in before and one != before[key]}
        assert differ - set(change) <= touched


def shelved(count: int) -> dict[str, Game]:
    titles = (f"Never Before Seen {number}" for number in range(count))
    games = (Game(title, title, AT, case=CASES[1]) for title in titles)
    return {game.id: game for game in games}


def test_a_titler_is_the_same_where_nothing_changed_that_titles_hang_on() -> None:
    games = shelved(3)
    titler = Titler.of(CASING, Lettering(), games, StandIns(Path("nowhere")))
    first = next(iter(games.values()))
    titles = titler.titled(first, CASING.net_of(first)).titles
    taken = msgspec.structs.replace(first, accepted=Accepted(case=CASES[1], title=titles))
    assert titler.after({first.id: taken}) == (titler, frozenset())
    assert titler.after({first.id: taken}, (Sign.DOT,))[0] is not titler


def test_only_what_is_asked_for_is_set_and_what_is_known_is_not_set_again() -> None:
    games, face = shelved(40), open_face(default_font())
    some = dict(list(games.items())[:10])
    with mock.patch.object(face, "shaped", wraps=face.shaped) as shaped:
        titler = Titler.of(CASING, Lettering(mode="free"), games, StandIns(Path("nowhere")))
        counts = [shaped.call_count]
        for asked in (some, games, games):
            every(titler, asked)
            counts.append(shaped.call_count)
        every(Titler.of(CASING, Lettering(mode="free"), games, StandIns(Path("nowhere"))), games)
        counts.append(shaped.call_count)
    none, of_some, of_all, again, by_another = counts
    assert none == 0 < of_some < of_all / 2
    assert of_all == again == by_another
