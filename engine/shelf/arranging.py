"""What goes where: games in their order, in containers in theirs.

Games of a case kind stand together with those kinds that are kept in the same containers, a
*stream*: containers that take the same kinds, filled one after the other. Where kinds could go
into several streams they go where the fewest kinds are taken, and what finds no room there goes
on to the next.

Once games are at home somewhere, they stay: new games are let in where they belong, and as few as
possible are moved on to a neighbouring container to make room, found by dynamic programming over
where each container begins.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from engine.model.container import Container
from engine.shelf.room import Body, Filling, space

_GROWTH = (1.0, 0.75, 0.5, 0.25)
"""Parts of the room for growth that are tried: the most with which all that can find room does."""
MOST_MOVED = 512
"""Where more games would have to move, all are put up afresh."""


class Filed(NamedTuple):
    """A game in its order."""

    game: str
    kind: str
    home: str = ""
    """The container in which it is kept; '' where it is in none yet."""
    before: float = 0.0
    """How thick the divider is that stands before it, in mm; 0 for none."""

    def body(self, case: Body) -> Body:
        """Return how its case stands with its divider before it."""
        return case._replace(thick=case.thick + self.before)


class Spot(NamedTuple):
    """Where a game stands."""

    container: str
    row: int
    """From 1: from left to right."""
    number: int
    """From 1 within the row: from left to right, from the front, or from below."""


class Arrangement(NamedTuple):
    """What goes where."""

    spots: Mapping[str, Spot]
    """By game, those of a container in order."""
    moved: tuple[str, ...]
    """Games that are to be taken out of their container and put in another."""
    homeless: tuple[str, ...]
    """Games for which there is no room, in order."""


Bodies = Mapping[tuple[str, str], Body]
"""How a case of a kind stands in a container, by both; none where it may not or does not."""


def arrange(games: Sequence[Filed], containers: Sequence[Container], bodies: Bodies) -> Arrangement:
    """Return what goes where. ``games`` and ``containers`` are in order."""
    streams = _streams(containers, bodies)
    best = _placed(games, streams, bodies, 0.0)
    for growth in _GROWTH:
        spots = _placed(games, streams, bodies, growth)
        if len(spots) >= len(best):
            best = spots
            break
    return Arrangement(
        best,
        tuple(
            game.game
            for game in games
            if game.home and game.game in best and best[game.game].container != game.home
        ),
        tuple(game.game for game in games if game.game not in best),
    )


def _placed(
    games: Sequence[Filed], streams: Sequence[Sequence[Container]], bodies: Bodies, growth: float
) -> dict[str, Spot]:
    """Return what goes where if a part of the room for growth is left empty."""
    spots: dict[str, Spot] = {}
    at_home = {one.name: number for number, stream in enumerate(streams) for one in stream}
    for number, stream in enumerate(streams):
        kinds = {kind for kind, name in bodies if name == stream[0].name}
        # What is at home in a later stream went on there when it found no room before.
        queue = [
            game
            for game in games
            if game.kind in kinds
            and game.game not in spots
            and at_home.get(game.home, number) <= number
        ]
        spots.update(_settle(queue, stream, bodies, growth))
    return spots


def _streams(containers: Sequence[Container], bodies: Bodies) -> list[list[Container]]:
    """Return the containers that take the same kinds together, those for the fewest first."""
    found: dict[frozenset[str], list[Container]] = {}
    for container in containers:
        takes = frozenset(kind for kind, name in bodies if name == container.name)
        if takes:
            found.setdefault(takes, []).append(container)
    return [found[takes] for takes in sorted(found, key=len)]


def _settle(
    games: Sequence[Filed], stream: Sequence[Container], bodies: Bodies, growth: float
) -> dict[str, Spot]:
    """Return where games of one stream stand: as they stand already, or filled afresh."""
    names = {container.name for container in stream}
    cuts = None
    if any(game.home in names for game in games):
        full = _filled(games, stream, bodies, 0.0)
        cuts = _kept(games[: full[-1]], stream, bodies)
    if cuts is None:
        cuts = _filled(games, stream, bodies, growth)
    spots = {}
    for container, begin, end in zip(stream, (0, *cuts), cuts, strict=False):
        filling = Filling(space(container))
        for game in games[begin:end]:
            filling.add(game.body(bodies[game.kind, container.name]))
        several = iter(games[begin:end])
        for row, count in enumerate(filling.rows, start=1):
            for number in range(1, count + 1):
                spots[next(several).game] = Spot(container.name, row, number)
    return spots


def _filled(
    games: Sequence[Filed], stream: Sequence[Container], bodies: Bodies, growth: float
) -> list[int]:
    """Return where each container ends if each takes as many as it can; no way takes more."""
    cuts, at = [], 0
    for container in stream:
        filling = Filling(space(container, growth))
        while at < len(games) and filling.add(
            games[at].body(bodies[games[at].kind, container.name])
        ):
            at += 1
        cuts.append(at)
    return cuts


class _Way(NamedTuple):
    """Containers up to one, filled with the first games."""

    moves: int
    cuts: tuple[int, ...]


def _kept(games: Sequence[Filed], stream: Sequence[Container], bodies: Bodies) -> list[int] | None:
    """Return where each container ends so that the fewest games leave theirs.

    Ways with more moves than a bound are dropped, those still to come of games whose container
    is full among them, and the bound is doubled until one is left.
    None where more would have to move than is worth keeping the rest.
    """
    at_home: dict[str, list[int]] = {}
    for place, game in enumerate(games):
        at_home.setdefault(game.home, []).append(place)
    bound = 0
    while bound <= MOST_MOVED:
        ways = {0: _Way(0, ())}
        passed: list[int] = []
        for container in stream:
            ways = _with(container, ways, games, bodies, bound)
            passed = sorted(passed + at_home.get(container.name, []))
            ways = {
                end: way
                for end, way in ways.items()
                if way.moves + len(passed) - bisect_left(passed, end) <= bound
            }
        if len(games) in ways:
            return list(ways[len(games)].cuts)
        bound = 2 * bound or 4
    return None


def _with(
    container: Container,
    ways: Mapping[int, _Way],
    games: Sequence[Filed],
    bodies: Bodies,
    bound: int,
) -> dict[int, _Way]:
    """Return the best ways to fill one container more, by how many games they hold."""
    found: dict[int, _Way] = {}
    for begin, way in ways.items():
        filling, moves = Filling(space(container)), way.moves
        for end in range(begin, len(games) + 1):
            if end > begin:
                game = games[end - 1]
                moves += bool(game.home) and game.home != container.name
                if moves > bound or not filling.add(game.body(bodies[game.kind, container.name])):
                    break
            if end not in found or moves < found[end].moves:
                found[end] = _Way(moves, (*way.cuts, end))
    return found
