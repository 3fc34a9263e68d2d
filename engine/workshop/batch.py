"""Today's batch: the handful of games being worked on."""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Iterable

import msgspec

from engine.stages import Place
from engine.workshop.bench import Bench


class Batch(Bench):
    """Today's batch."""

    def batch(self) -> tuple[str, ...]:
        """Return the games being worked on today."""
        return self._moment.settings.batch

    def set_batch(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Work on these games. Returns the batch."""
        with self._lock:
            batch = tuple(dict.fromkeys(self._moment.game(game).id for game in ids))
            if batch != self.batch():
                settings = msgspec.structs.replace(self._moment.settings, batch=batch)
                self._collection.record("changed the batch", settings=settings)
                self._renew()
            return batch

    def add_to_batch(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Bring games into the batch. Returns it."""
        return self.set_batch((*self.batch(), *ids))

    def drop_from_batch(self, ids: AnyOf[str]) -> tuple[str, ...]:
        """Take games out of the batch. Returns it."""
        return self.set_batch(game for game in self.batch() if game not in ids)

    def next_batch(self) -> tuple[str, ...]:
        """Bring the next games that are not finished into the batch, the finished ones out."""
        with self._lock:
            unfinished = self._moment.at(Place.BACKLOG)
            kept = [game for game in self.batch() if game in unfinished]
            fresh = [game for game in unfinished if game not in kept]
            room = max(self._moment.settings.batch_size - len(kept), 0)
            return self.set_batch((*kept, *fresh[:room]))
