"""Shelves, drawers and boxes: how much they hold, what goes where, and where a game is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import islice

import msgspec

from engine import artwork
from engine.colours import in_row
from engine.intake import title_key
from engine.model.container import Container
from engine.model.errors import InputError, RefusedError
from engine.service.places import Found, GamePlace, RoomReport, room_report
from engine.service.session import Session
from engine.shelf.arranging import Spot
from engine.shelf.finding import find
from engine.state import Snapshot


class Room:
    """Containers and places."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session
        self._kept: tuple[Snapshot, RoomReport] | None = None
        """What goes where, and of which snapshot: looking for a game asks at every key."""

    # --- containers --------------------------------------------------------------------

    def add(self, name: str, size: Sequence[float] | None = None, **more: object) -> Container:
        """Keep a container, or change the one of that name; return it.

        ``size`` is its inside width, height and depth in mm, which only a new one needs;
        ``more`` are its pose, kinds and growth. A new one comes last. Raises InputError or
        CaseError.
        """
        called = " ".join(name.split())
        if not called or len(called) > 40:
            raise InputError(name, "is no name for a container", "Give one of up to 40 letters")
        with self._session.change():
            settings = self._session.snapshot.settings
            before = next((one for one in settings.containers if one.name == called), None)
            if before is None and size is None:
                raise InputError(called, "no such container", "Give its --size to describe it")
            base = before or Container(called, 1.0, 1.0, 1.0)
            given = {field: value for field, value in more.items() if value is not None}
            for kind in given.get("kinds", ()):  # type: ignore[attr-defined]
                self._must_know(str(kind))
            if size is not None:
                given |= dict(zip(("width", "height", "depth"), size, strict=True))
            try:
                container = msgspec.convert(
                    msgspec.to_builtins(msgspec.structs.replace(base, **given)), Container
                )
            except msgspec.ValidationError as error:
                what = "its sizes are above 0 and at most 10000 mm, its growth 0 to 90 %"
                raise InputError(called, what, "Give other figures") from error
            others = [container if one.name == called else one for one in settings.containers]
            if before is None:
                others.append(container)
            self._keep_containers(f"described {called}", others)
            return container

    def forget(self, name: str) -> None:
        """Take a container off the list; what was in it is nowhere. Raises InputError."""
        with self._session.change():
            containers = self._session.snapshot.settings.containers
            left = [one for one in containers if one.name != name]
            if len(left) == len(containers):
                have = ", ".join(one.name for one in containers) or "none yet"
                raise InputError(name, "no such container", f"Containers are {have}")
            self._keep_containers(f"forgot {name}", left)
            games = self._session.snapshot.games.values()
            self._session.keep_games(
                f"forgot {name} and put nowhere",
                [msgspec.structs.replace(g, home="") for g in games if g.home == name],
            )

    def measure_case(self, kind: str, size: Sequence[float] | None) -> None:
        """Keep how large a closed case of a kind is over all, or with None forget it.

        In mm, width, height and depth as one looks at its front. Raises CaseError or InputError.
        """
        self._must_know(kind)
        if size is not None and not all(0 < side <= 2000 for side in size):
            raise InputError("size", "sides are above 0 and at most 2000 mm", "Measure them again")
        with self._session.change():
            settings = self._session.snapshot.settings
            sizes = {key: one for key, one in settings.case_sizes.items() if key != kind}
            if size is not None:
                width, height, depth = size
                sizes[kind] = (width, height, depth)
            later = msgspec.structs.replace(settings, case_sizes=sizes)
            self._session.keep(f"measured the case {kind}", settings=later)

    def _keep_containers(self, words: str, containers: Iterable[Container]) -> None:
        settings = self._session.snapshot.settings
        later = msgspec.structs.replace(settings, containers=tuple(containers))
        self._session.keep(words, settings=later)

    def _must_know(self, kind: str) -> None:
        self._session.snapshot.casing.net(kind)

    # --- what goes where ---------------------------------------------------------------

    def report(self, *, afresh: bool = False) -> RoomReport:
        """Return what each container holds and what goes where; see ``room_report``."""
        with self._session.lock:
            return self._report(afresh=afresh)

    def _report(self, *, afresh: bool = False) -> RoomReport:
        """Return what goes where now; that of the last time while it holds."""
        snapshot = self._session.snapshot
        if afresh:
            return room_report(snapshot, self._session.kinds, afresh=True)
        if self._kept is None or self._kept[0] is not snapshot:
            self._kept = snapshot, room_report(snapshot, self._session.kinds)
        return self._kept[1]

    def keep(self, *, afresh: bool = False) -> RoomReport:
        """Settle what goes where, as ``report`` says; return that. Raises RefusedError."""
        with self._session.change():
            snapshot = self._session.snapshot
            if not snapshot.settings.containers:
                mend = "Describe one: spinery room NAME --size WIDTHxHEIGHTxDEPTH"
                raise RefusedError("room", "There is no shelf, drawer or box yet", mend)
            report = self._report(afresh=afresh)
            homes = {place.game: place.container for place in report.places}
            self._session.keep_games(
                "put in its place",
                [
                    msgspec.structs.replace(game, home=homes.get(key, ""))
                    for key, game in snapshot.recorded.games.items()
                ],
            )
            return self._report()

    def where(self, words: str) -> tuple[Found, ...]:
        """Return the games that are meant by some words, the likeliest first, and their places."""
        with self._session.lock:
            snapshot = self._session.snapshot
            games = snapshot.games
            meant = _meant(words, {k: game.title for k, game in games.items() if not game.labels})
            if not meant:
                return ()
            places = {place.game: place for place in self._report().places}
            row = {place.spot: place.title for place in places.values()}
            return tuple(self._found(snapshot, game, places.get(game), row) for game in meant)

    def _found(
        self,
        snapshot: Snapshot,
        key: str,
        place: GamePlace | None,
        row: Mapping[Spot, str],
    ) -> Found:
        game, design = snapshot.games[key], snapshot.proposal(key).design
        spot = place.spot if place else None
        colour = artwork.base_in(design.colours.base, design.ink)
        return Found(
            game=key,
            title=game.title,
            stage=snapshot.standing[key].stage,
            case=snapshot.casing.case_of(game),
            colour=colour,
            hue=in_row(colour).name,
            place=place,
            after=row.get(spot._replace(number=spot.number - 1), "") if spot else "",
            before=row.get(spot._replace(number=spot.number + 1), "") if spot else "",
        )


FEW = 5
"""So many games are told where some words could mean several."""


def _meant(words: str, titles: Mapping[str, str]) -> tuple[str, ...]:
    """Return the games that are meant: of a title said in full only those that have it."""
    wanted = title_key(words)
    same = tuple(key for key, title in titles.items() if title_key(title) == wanted)
    # A title of one sign is like any words that hold it.
    found = (key for key in find(words, titles) if 2 * len(title_key(titles[key])) >= len(wanted))
    return same or tuple(islice(found, FEW))
