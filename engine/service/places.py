"""What goes where, as it follows from a snapshot: what each container holds, and each place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from collections.abc import Collection as AnyOf
from functools import cache
from typing import Annotated

import msgspec

from engine import cases
from engine.cases import Box, CaseKind, Pose
from engine.model import Game, Stage, Value
from engine.model.container import Container
from engine.model.units import SPREAD
from engine.shelf import Group, in_groups
from engine.shelf.arranging import Filed, Spot, arrange
from engine.shelf.room import WALL, Body, Filling, Space, body, capacity, space
from engine.state import Proposal, Snapshot

Stood = Callable[[str, Pose], Body]
"""How a case of a kind stands in a pose."""


class Fill(Value, frozen=True):
    """How many cases of a kind a container holds, each way they can stand in it."""

    case: str
    shelf: int
    drawer: int
    stack: int


class ContainerReport(Value, frozen=True):
    """A container and what is in it."""

    container: Annotated[Container, SPREAD]
    holds: tuple[Fill, ...]
    """Of each case kind that the collection has, were there nothing else in it."""
    games: int
    """That it is to hold."""
    room: int
    """Cases more that it has room for, of the kind that most of its games have."""
    first: str
    """The title that it begins with; '' for none."""
    last: str


class GamePlace(Value, frozen=True):
    """Where a game stands."""

    game: str
    title: str
    container: str
    row: int
    """From 1: from left to right."""
    number: int
    """From 1 within the row: from left to right, from the front, or from below."""
    words: str
    """The same in words: 'Drawer, row 2, 5'."""
    counted: str
    """From where the number is counted: 'the front'."""
    kept: bool
    """That was settled; else it is only proposed."""

    @property
    def spot(self) -> Spot:
        """The place alone."""
        return Spot(self.container, self.row, self.number)


class RoomReport(Value, frozen=True):
    """What goes where."""

    containers: tuple[ContainerReport, ...]
    places: tuple[GamePlace, ...]
    """By container, in order."""
    new: tuple[str, ...]
    """Titles whose place is not settled."""
    moves: tuple[GamePlace, ...]
    """Games that move to another container to make room, with where they go."""
    homeless: tuple[str, ...]
    """Titles for which there is no room."""
    notes: tuple[str, ...]


class Found(Value, frozen=True):
    """A game that is looked for."""

    game: str
    title: str
    stage: Stage
    case: str
    colour: str
    """Of its edge, ``#rrggbb``."""
    hue: str
    """The same in a word: 'teal'."""
    place: GamePlace | None
    """None where no container has room for it."""
    after: str = ""
    """The title before it in its row; '' for the first."""
    before: str = ""
    """The title behind it."""


def room_report(
    snapshot: Snapshot, kinds: Mapping[str, CaseKind], *, afresh: bool = False
) -> RoomReport:
    """Return what each container holds and what goes where.

    Games that have their place keep it as far as others leave them room; with ``afresh`` all
    are put up anew.
    """
    containers, games = snapshot.settings.containers, snapshot.games
    colours = edge_colours(snapshot, snapshot.proposal)
    groups = in_groups(games.values(), snapshot.settings, colours)
    ordered = [game for group in groups for game in group.games]
    kind_of = {game.id: snapshot.casing.case_of(game) for game in ordered}
    stood = _standing(snapshot, kinds)
    bodies = {
        (kind, one.name): stood(kind, Pose(one.pose))
        for one in containers
        for kind in sorted(set(kind_of.values()))
        if (not one.kinds or kind in one.kinds)
        and capacity(stood(kind, Pose(one.pose)), space(one))
    }
    poses = {one.name: Pose(one.pose) for one in containers}
    names = poses.keys()
    thick = _dividers(snapshot, groups)
    filed = {
        key: Filed(key, kind, _home(games[key], names, afresh), thick.get(key, 0.0))
        for key, kind in kind_of.items()
    }
    found = arrange(tuple(filed.values()), containers, bodies)
    places = {
        key: GamePlace(
            key,
            games[key].title,
            *spot,
            words=spot_words(spot, poses[spot.container]),
            counted=_ENDS[poses[spot.container]],
            kept=games[key].home == spot.container,
        )
        for key, spot in found.spots.items()
    }
    return RoomReport(
        containers=tuple(
            _held(one, [p for p in places.values() if p.container == one.name], filed, stood)
            for one in containers
        ),
        places=tuple(places.values()),
        new=tuple(place.title for place in places.values() if not games[place.game].home),
        moves=tuple(
            place for place in places.values() if games[place.game].home and not place.kept
        ),
        homeless=tuple(games[key].title for key in found.homeless) if containers else (),
        notes=tuple(_notes(snapshot, containers, bodies.keys(), kind_of)),
    )


_ENDS = {Pose.SHELF: "the left", Pose.DRAWER: "the front", Pose.STACK: "below"}
_ROWS = {Pose.SHELF: "", Pose.DRAWER: "row", Pose.STACK: "pile"}


def spot_words(spot: Spot, pose: Pose) -> str:
    """Return 'Hall 2, 14', 'Drawer, row 2, 5'."""
    row = f", {_ROWS[pose]} {spot.row}" if _ROWS[pose] else ""
    return f"{spot.container}{row}, {spot.number}"


def edge_colours(snapshot: Snapshot, proposal: Callable[[str], Proposal]) -> dict[str, str]:
    """Return the colours of all edges, for the one order that asks for them; else nothing.

    ``proposal`` gives that of a game; it is asked for each in turn.
    """
    if snapshot.settings.order != "colour":
        return {}
    return {key: proposal(key).design.colours.base for key in snapshot.games}


def _home(game: Game, names: AnyOf[str], afresh: bool) -> str:  # noqa: FBT001
    return game.home if game.home in names and not afresh else ""


def _standing(snapshot: Snapshot, kinds: Mapping[str, CaseKind]) -> Stood:
    @cache
    def stood(kind: str, pose: Pose) -> Body:
        caliper = snapshot.casing.stock_of(kind).caliper
        folded = cases.fold(kinds[kind], caliper, pose=pose)
        edges = [folded.panel(name).frame.normal for name in folded.facing]
        at_head = bool(edges) and abs(edges[0].dot(folded.up)) > 0.5
        return body(_outside(snapshot, kinds[kind], folded.outside), at_head=at_head)

    return stood


def _dividers(snapshot: Snapshot, groups: Sequence[Group]) -> dict[str, float]:
    """Return how thick the dividers are that stand before games, in mm.

    As measured, or as their inserts are folded: a flat card is as thick as its paper.
    """
    first = {group.name: group.games[0].id for group in groups if group.name}
    thick = {}
    for label in snapshot.games.values():
        if label.labels == "group" and not label.unwanted and label.title in first:
            kind = snapshot.casing.case_of(label)
            measured = snapshot.settings.case_sizes.get(kind)
            folded = snapshot.casing.folded(kind, snapshot.casing.left_out(label))
            thick[first[label.title]] = measured[2] if measured else folded.outside.depth
    return thick


def _outside(snapshot: Snapshot, kind: CaseKind, insert: Box) -> Box:
    """Return a closed case over all: as measured, as its kind says, or round its insert."""
    measured = snapshot.settings.case_sizes.get(kind.id)
    if measured:
        return Box(*measured)
    if kind.outside:
        return Box(kind.outside.width, kind.outside.height, kind.outside.depth)
    return Box(*(side + 2 * WALL for side in insert))


def _held(
    container: Container, places: Sequence[GamePlace], filed: Mapping[str, Filed], stood: Stood
) -> ContainerReport:
    """Return what a container holds, and how much more of what it mostly holds."""
    counts = Counter(filed[place.game].kind for place in places)
    usual = counts.most_common(1)[0][0] if counts else ""
    return ContainerReport(
        container=container,
        holds=tuple(
            Fill(kind, **{str(p): capacity(stood(kind, p), _turned(container, p)) for p in Pose})
            for kind in sorted({one.kind for one in filed.values()})
        ),
        games=len(places),
        room=_left(container, places, usual, filed, stood) if usual else 0,
        first=places[0].title if places else "",
        last=places[-1].title if places else "",
    )


def _turned(container: Container, pose: Pose) -> Space:
    return space(msgspec.structs.replace(container, pose=str(pose)))


def _left(
    container: Container,
    places: Sequence[GamePlace],
    kind: str,
    filed: Mapping[str, Filed],
    stood: Stood,
) -> int:
    """Return how many cases of a kind find room behind those that are in a container."""
    pose = Pose(container.pose)
    filling, more = Filling(space(container)), 0
    for place in places:
        filling.add(filed[place.game].body(stood(filed[place.game].kind, pose)))
    while filling.add(stood(kind, pose)):
        more += 1
    return more


def _notes(
    snapshot: Snapshot,
    containers: Sequence[Container],
    fits: AnyOf[tuple[str, str]],
    kind_of: Mapping[str, str],
) -> Iterator[str]:
    """Yield what the person should know, a sentence each."""
    for kind, count in sorted(Counter(kind_of.values()).items()) if containers else ():
        if not any((kind, one.name) in fits for one in containers):
            yield (
                f"{count} games in {kind} fit nowhere: no container is high, broad and deep enough "
                "for them, or is for them."
            )
        turned = [
            one.name
            for one in containers
            if (kind, one.name) in fits and one.pose != snapshot.casing.pose(kind)
        ]
        if turned:
            yield (
                f"{kind}: titles are set for another way of storing than that of "
                f"{', '.join(turned)}; spinery setup --stored-of {kind}=POSE sets them for it."
            )
