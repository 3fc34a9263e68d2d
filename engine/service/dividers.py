"""Dividers before the groups on the shelf and labels on its boards: inserts without a cartridge.

They are records of the collection like games, in case kinds of their own, so that they are
decided, ganged and printed with everything else; they are counted among no games.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

import msgspec

from engine import intake
from engine.model import Game, Stage, Value
from engine.model.game import LABEL_KINDS
from engine.service.places import edge_colours, room_report
from engine.service.session import Session
from engine.shelf import by_letter, in_groups
from engine.state import Snapshot


class LabelLine(Value, frozen=True):
    """A divider or label."""

    id: str
    """'' while it is only proposed."""
    title: str
    """What it says."""
    labels: Literal["group", "container"]
    stage: Stage


class DividersReport(Value, frozen=True):
    """Dividers and labels: those there are, and those that are wanted besides."""

    present: tuple[LabelLine, ...]
    wanted: tuple[LabelLine, ...]
    stale: tuple[LabelLine, ...]
    """Of those there are, for groups and containers that are no more."""


class _Wanted(NamedTuple):
    labels: Literal["group", "container"]
    title: str


class Dividers:
    """Dividers and labels."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def report(self) -> DividersReport:
        """Return the dividers and labels there are, and those that the shelf wants."""
        with self._session.lock:
            snapshot = self._session.snapshot
            wanted = list(dict.fromkeys(self._wanted(snapshot)))
            present = {key: game for key, game in snapshot.games.items() if game.labels}
        said = {(game.labels, game.title) for game in present.values()}
        lines = {
            key: LabelLine(key, game.title, game.labels, snapshot.standing[key].stage)
            for key, game in present.items()
            if game.labels
        }
        return DividersReport(
            present=tuple(lines.values()),
            wanted=tuple(
                LabelLine("", one.title, one.labels, Stage.LISTED)
                for one in wanted
                if (one.labels, one.title) not in said
            ),
            stale=tuple(one for one in lines.values() if (one.labels, one.title) not in wanted),
        )

    def add(self) -> DividersReport:
        """Add those that are wanted to the backlog, as one change; return what there is then.

        One that is stale and of which nothing was decided yet says the new words instead.
        """
        with self._session.change():
            report, snapshot = self.report(), self._session.snapshot
            free = [
                game
                for line in report.stale
                if _untouched(game := snapshot.recorded.games[line.id])
            ]
            taken = {*snapshot.games}
            games = []
            for line in report.wanted:
                old = next((game for game in free if game.labels == line.labels), None)
                if old is not None:
                    free.remove(old)
                    games.append(msgspec.structs.replace(old, title=line.title))
                    continue
                kind = LABEL_KINDS[line.labels]
                new = intake.game_id(f"{kind.replace('-', ' ')} {line.title}", taken)
                taken.add(new)
                games.append(
                    Game(
                        new,
                        line.title,
                        self._session.now(),
                        case=kind if kind in self._session.kinds else "",
                        labels=line.labels,
                    )
                )
            if games:
                self._session.keep("made dividers and labels", games=games)
            return self.report()

    def _wanted(self, snapshot: Snapshot) -> Iterator[_Wanted]:
        settings, games = snapshot.settings, snapshot.games
        colours = edge_colours(snapshot, snapshot.proposal)
        for group in in_groups(games.values(), settings, colours):
            if group.name:
                yield _Wanted("group", group.name)
        letter = {
            game.title: group.name
            for group in by_letter(games.values(), settings)
            for game in group.games
        }
        for one in room_report(snapshot, self._session.kinds).containers:
            ends = [letter.get(one.first, ""), letter.get(one.last, "")] if one.games else []
            said = " – ".join(dict.fromkeys(filter(None, ends)))
            name = one.container.name
            alphabetical = settings.order == "title" and said
            yield _Wanted("container", f"{name}: {said}" if alphabetical else name)


def _untouched(game: Game) -> bool:
    return game.accepted.art is None and game.accepted.title is None
