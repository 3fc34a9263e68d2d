"""Today's batch: the handful of games being worked on."""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Iterable

import msgspec

from engine.ganging import Cancel, go_on, sheetwork
from engine.ganging.upcoming import next_games, outlook
from engine.model.stages import Place
from engine.service.results import Outlook
from engine.service.session import Bench


class Batch(Bench):
    """Today's batch."""

    def batch(self) -> tuple[str, ...]:
        """Return the games being worked on today."""
        return self._snapshot.settings.batch

    def set_batch(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Work on these games. Returns the batch."""
        with self._lock:
            batch = tuple(dict.fromkeys(self._snapshot.game(game).id for game in ids))
            if batch != self.batch():
                settings = msgspec.structs.replace(self._snapshot.settings, batch=batch)
                self._collection.record("changed the batch", settings=settings)
                self._renew()
            return batch

    def add_to_batch(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Bring games into the batch. Returns it."""
        return self.set_batch((*self.batch(), *ids))

    def drop_from_batch(self, ids: AnyOf[str]) -> tuple[str, ...]:
        """Take games out of the batch. Returns it."""
        return self.set_batch(game for game in self.batch() if game not in ids)

    def next_batch(
        self, ids: AnyOf[str] | None = None, *, cancel: Cancel | None = None
    ) -> tuple[str, ...]:
        """Bring the games to finish next into the batch, the finished ones out.

        They are chosen so that full sheets come of the batch, where that can be; with ``ids``,
        from these games only. Games of the batch that are not finished stay in it. This may
        take seconds, in which other methods answer. Raises Cancelled when ``cancel`` says so:
        then the batch is as it was.
        """
        with self._lock:
            snapshot = self._snapshot
            backlog = snapshot.at(Place.BACKLOG)
        kept = [game for game in self.batch() if game in backlog]
        wanted = None if ids is None else {snapshot.game(game).id for game in ids}
        unfinished = sheetwork.unfinished(
            [snapshot.games[key] for key in backlog], snapshot.casing, kept, wanted
        )
        games = next_games(
            unfinished,
            snapshot.papers,
            snapshot.casing,
            kept=kept,
            size=snapshot.settings.batch_size,
            patience=snapshot.settings.patience,
            cancel=cancel,
        )
        go_on(cancel)
        return self.set_batch(games)

    def outlook(self, cancel: Cancel | None = None) -> Outlook:
        """Return what comes of today's batch once it is finished. Raises Cancelled."""
        with self._lock:
            snapshot = self._snapshot
            backlog = snapshot.at(Place.BACKLOG)
        begun = [snapshot.games[game] for game in self.batch() if game in backlog]
        return outlook(
            begun, snapshot.papers, snapshot.casing, snapshot.settings.patience, cancel=cancel
        )
