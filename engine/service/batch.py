"""Today's batch: the handful of games being worked on."""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Iterable

import msgspec

from engine.ganging import Cancel, go_on, papers
from engine.ganging.results import Outlook
from engine.ganging.upcoming import next_games, outlook
from engine.model.stages import Place
from engine.service.session import Session


class BatchWork:
    """Today's batch."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def games(self) -> tuple[str, ...]:
        """Return the games being worked on today."""
        return self._session.snapshot.settings.batch

    def work_on(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Work on these games. Returns the batch."""
        with self._session.lock:
            batch = tuple(dict.fromkeys(self._session.snapshot.game(game).id for game in ids))
            if batch != self.games():
                settings = msgspec.structs.replace(self._session.snapshot.settings, batch=batch)
                self._session.keep("changed the batch", settings=settings)
            return batch

    def add(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Bring games into the batch. Returns it."""
        return self.work_on((*self.games(), *ids))

    def drop(self, ids: AnyOf[str]) -> tuple[str, ...]:
        """Take games out of the batch. Returns it."""
        return self.work_on(game for game in self.games() if game not in ids)

    def bring_next(
        self, ids: AnyOf[str] | None = None, *, cancel: Cancel | None = None
    ) -> tuple[str, ...]:
        """Bring the games to finish next into the batch, the finished ones out.

        They are chosen so that full sheets come of the batch, where that can be; with ``ids``,
        from these games only. Games of the batch that are not finished stay in it. This may
        take seconds, in which other methods answer. Raises Cancelled when ``cancel`` says so:
        then the batch is as it was.
        """
        with self._session.lock:
            snapshot = self._session.snapshot
            backlog = snapshot.at(Place.BACKLOG)
        kept = [game for game in self.games() if game in backlog]
        wanted = None if ids is None else {snapshot.game(game).id for game in ids}
        found = [
            papers.unfinished(
                snapshot.games[key],
                snapshot.casing,
                begun=key in kept,
                wanted=wanted is None or key in wanted or key in kept,
            )
            for key in (*kept, *(key for key in backlog if key not in kept))
        ]
        games = next_games(
            found,
            snapshot.papers,
            snapshot.casing,
            kept=kept,
            size=snapshot.settings.batch_size,
            patience=snapshot.settings.patience,
            cancel=cancel,
        )
        go_on(cancel)
        return self.work_on(games)

    def outlook(self, cancel: Cancel | None = None) -> Outlook:
        """Return what comes of today's batch once it is finished. Raises Cancelled."""
        with self._session.lock:
            snapshot = self._session.snapshot
            backlog = snapshot.at(Place.BACKLOG)
        begun = [snapshot.games[game] for game in self.games() if game in backlog]
        return outlook(
            begun, snapshot.papers, snapshot.casing, snapshot.settings.patience, cancel=cancel
        )
