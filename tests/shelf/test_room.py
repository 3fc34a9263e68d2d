"""How many cases fit, and what goes where, against trying everything."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations, combinations_with_replacement

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.cases import Box
from engine.model.container import Container
from engine.shelf.arranging import Filed, arrange
from engine.shelf.room import Body, Filling, Space, body, capacity, space

# --- identical cases --------------------------------------------------------------------


def most_by_trying(width: int, height: int, room: tuple[int, int]) -> int:
    """Return the most rectangles of one size, all one way round, in a grid: by trying all."""
    spots = [(x, y) for x in range(room[0] - width + 1) for y in range(room[1] - height + 1)]

    @cache
    def most(left: tuple[tuple[int, int], ...]) -> int:
        if not left:
            return 0
        (x, y), *others = left
        apart = (o for o in others if o[0] >= x + width or abs(o[1] - y) >= height)
        return max(1 + most(tuple(apart)), most(tuple(others)))

    return most(tuple(spots))


@settings(max_examples=40)
@given(st.integers(1, 4), st.integers(1, 4), st.integers(1, 5), st.integers(1, 5))
def test_rows_of_one_kind_hold_as_many_as_any_way_to_place_them(
    thick: int, long: int, run: int, across: int
) -> None:
    room = Space(run, across, 9, one_row=False)
    assert capacity(Body(thick, long, 9), room) == most_by_trying(thick, long, (run, across))


@settings(max_examples=60)
@given(st.tuples(*[st.floats(1, 60)] * 3), st.tuples(*[st.floats(1, 300)] * 3), st.booleans())
def test_a_filling_takes_as_many_as_the_capacity(
    sizes: tuple[float, ...], inside: tuple[float, ...], one_row: bool
) -> None:
    one, room = Body(*sizes), Space(*inside, one_row=one_row)
    if capacity(one, room) < 60:
        filling, taken = Filling(room), 0
        while filling.add(one):
            taken += 1
        assert taken == capacity(one, room)


def test_a_capacity_by_hand() -> None:
    """A drawer of 300 x 100 x 400 mm; a case of 66 x 74 x 12 mm seen from its head."""
    shell, drawer = Box(66, 74, 12), Container("Drawer", 300, 100, 400, "drawer", growth=0.25)
    seen = body(shell, at_head=True)
    assert capacity(seen, space(drawer)) == (300 // 66) * (400 // 12) == 132
    assert capacity(seen, space(drawer, 1.0)) == (300 // 66) * (300 // 12) == 100
    assert capacity(body(shell, at_head=False), space(Container("Low", 500, 73, 90))) == 0
    assert capacity(body(shell, at_head=False), space(Container("Shelf", 500, 74, 66))) == 41


# --- cases of several kinds in order ----------------------------------------------------

BODIES = st.lists(st.tuples(st.integers(1, 3), st.integers(1, 4)), min_size=1, max_size=7)


def ways(count: int) -> Iterator[list[tuple[int, int]]]:
    """Yield all ways to part so many things into runs of neighbours."""
    for rows in range(count):
        for cuts in combinations(range(1, count), rows):
            yield list(zip((0, *cuts), (*cuts, count), strict=True))


def fits_by_trying(bodies: Sequence[tuple[int, int]], run: int, across: int) -> bool:
    return any(
        all(sum(thick for thick, _ in bodies[a:b]) <= run for a, b in rows)
        and sum(max(long for _, long in bodies[a:b]) for a, b in rows) <= across
        for rows in ways(len(bodies))
    )


@settings(max_examples=60)
@given(BODIES, st.integers(1, 7), st.integers(1, 9))
def test_rows_of_several_kinds_hold_what_any_rows_in_order_hold(
    bodies: list[tuple[int, int]], run: int, across: int
) -> None:
    filling = Filling(Space(run, across, 9, one_row=False))
    for n, (thick, long) in enumerate(bodies):
        if not filling.add(Body(thick, long, 1)):
            assert not fits_by_trying(bodies[: n + 1], run, across)
            return
        assert fits_by_trying(bodies[: n + 1], run, across)
        assert sum(filling.rows) == n + 1
        begin = 0
        for count in filling.rows:
            assert sum(thick for thick, _ in bodies[begin : begin + count]) <= run
            begin += count


# --- what goes where --------------------------------------------------------------------

THICK = {"thin": 1, "thick": 2}


def shelves(*widths: int) -> list[Container]:
    return [Container(f"S{n}", width, 10, 10, growth=0) for n, width in enumerate(widths)]


def bodies_in(containers: Sequence[Container]) -> dict[tuple[str, str], Body]:
    return {(kind, one.name): Body(THICK[kind], 5, 5) for one in containers for kind in THICK}


GAMES = st.lists(st.sampled_from(list(THICK)), min_size=1, max_size=7)
HOMES = st.lists(st.sampled_from(["", "S0", "S1", "S2"]), min_size=7, max_size=7)
WIDTHS = st.tuples(*[st.integers(1, 7)] * 3)


@settings(max_examples=60)
@given(GAMES, HOMES, WIDTHS)
def test_no_way_that_keeps_the_order_moves_fewer(
    kinds: list[str], homes: list[str], widths: tuple[int, ...]
) -> None:
    stream = shelves(*widths)
    games = [
        Filed(str(n), kind, home) for n, (kind, home) in enumerate(zip(kinds, homes, strict=False))
    ]
    found = arrange(games, stream, bodies_in(stream))
    kept = [game for game in games if game.game in found.spots]
    assert [game.game for game in kept] == [str(n) for n in range(len(kept))], "the last have none"
    fewest, most = None, 0
    for count in range(len(games), -1, -1):
        for cuts in combinations_with_replacement(range(count + 1), 2):
            parts = [games[a:b] for a, b in zip((0, *cuts), (*cuts, count), strict=True)]
            if all(sum(THICK[g.kind] for g in p) <= w for p, w in zip(parts, widths, strict=True)):
                most = max(most, count)
                moves = sum(
                    bool(g.home) and g.home != f"S{n}" for n, p in enumerate(parts) for g in p
                )
                if count == most:
                    fewest = moves if fewest is None else min(fewest, moves)
    assert len(kept) == most
    if any(game.home for game in kept):
        assert len(found.moved) == fewest


@pytest.mark.parametrize("at", [0, 7, 39])
def test_a_new_game_moves_no_others_where_there_is_room_for_growth(at: int) -> None:
    stream = [Container(f"S{n}", 22, 10, 10, growth=0.5) for n in range(4)]
    games = [Filed(f"g{n}", "thick") for n in range(20)]
    bodies = {key: Body(2, 5, 5) for key in bodies_in(stream)}
    first = arrange(games, stream, bodies)
    assert [one.container for one in first.spots.values()].count("S0") == 5
    homed = [game._replace(home=first.spots[game.game].container) for game in games]
    homed.insert(at, Filed("new", "thick"))
    assert arrange(homed, stream, bodies).moved == ()


def test_a_full_shelf_hands_on_one_game_for_a_new_one() -> None:
    stream = shelves(4, 4, 6)
    homes = ["S0"] * 4 + ["S1"] * 4 + ["S2"] * 4
    games = [Filed(f"g{n}", "thin", home) for n, home in enumerate(homes)]
    games.insert(5, Filed("new", "thin"))
    found = arrange(games, stream, bodies_in(stream))
    assert found.moved == ("g7",)
    assert found.spots["new"] == ("S1", 1, 2)
    assert found.spots["g7"] == ("S2", 1, 1)


def test_kinds_go_where_the_fewest_kinds_are_taken_and_overflow_on() -> None:
    tall, low = Container("Tall", 10, 10, 10, growth=0), Container("Low", 3, 5, 10, growth=0)
    bodies = {
        ("thin", "Low"): Body(1, 5, 5),
        ("thin", "Tall"): Body(1, 5, 5),
        ("thick", "Tall"): Body(2, 9, 5),
    }
    games = [Filed(f"g{n}", "thin" if n % 2 else "thick") for n in range(10)]
    found = arrange(games, [tall, low], bodies)
    assert [g for g, spot in found.spots.items() if spot.container == "Low"] == ["g1", "g3", "g5"]
    assert found.homeless == ("g8", "g9")


def test_what_went_on_for_want_of_room_stays_there_and_growth_is_kept() -> None:
    """Low holds 20 of the thin, 10 at first; the others go on to Tall, and stay."""
    low = Container("Low", 20, 5, 10, growth=0.5)
    tall = Container("Tall", 60, 10, 10, growth=0.5)
    bodies = {("thin", name): Body(1, 5, 5) for name in ("Low", "Tall")}
    bodies["thick", "Tall"] = Body(2, 9, 5)
    games = [Filed(f"g{n}", "thin") for n in range(24)] + [Filed("t", "thick")]
    first = arrange(games, [low, tall], bodies)
    assert [spot.container for spot in first.spots.values()].count("Low") == 10
    homed = [game._replace(home=first.spots[game.game].container) for game in games]
    homed.insert(3, Filed("new", "thin"))
    again = arrange(homed, [low, tall], bodies)
    assert (again.moved, again.homeless) == ((), ())
    assert again.spots["new"] == ("Low", 1, 4)
