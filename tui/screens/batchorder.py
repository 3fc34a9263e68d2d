"""In which order today's batch is shown, and where in it the cursor begins."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from engine import Proposal


class BatchOrder:
    """Puts what is in doubt first, without moving anything under a person's hands.

    What a person does moves no game: the list would jump. What was found beside their work, as in
    a cover just read, may put a game in doubt, which moves up then.
    """

    def __init__(self) -> None:
        self._doubted: dict[str, bool] = {}
        """Whether each game of the batch came in doubt, or was found to be: those stand first."""
        self._came: AbstractSet[str] = frozenset()
        """The games brought last."""
        self._follows = False
        """What comes next was found beside the person's work."""
        self.touched = False
        """The person moved or did something since the batch, or the last games of it, came."""

    def follow(self) -> None:
        """Take what comes next as found beside the person's work."""
        self._follows = True

    def bring(self, came: AbstractSet[str]) -> None:
        """Take these games as brought last; the cursor begins on them, if there are any."""
        self._came = came
        self.touched = self.touched and not came

    def put(self, batch: Sequence[Proposal]) -> tuple[Proposal, ...]:
        """Return the batch with what is in doubt first."""
        before, self._follows, follows = self._doubted, False, self._follows
        self._doubted = {
            p.game: before.get(p.game, not p.sure) or (follows and not p.sure) for p in batch
        }
        return tuple(sorted(batch, key=lambda p: not self._doubted[p.game]))

    def begins(self, batch: Sequence[Proposal]) -> str | None:
        """Return the first game of those that came; none once the person moved or did anything.

        Until then nobody chose the game under the cursor, and what moves up is to be decided
        first. From then on the cursor stays on its game, wherever that moves.
        """
        if self.touched:
            return None
        games = [p.game for p in batch]
        return next((game for game in games if game in self._came), next(iter(games), None))
