"""Games and pictures of a collection: taken in, and looked at."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from engine import intake
from engine.artwork import Progressing
from engine.model import Art
from engine.model.waiting import Cancel, go_on
from engine.service import delivery
from engine.service.delivery import Delivery, IntakeReport
from engine.service.session import Session
from engine.state import GameLine, Trait, traits_of


class Games:
    """The games of a collection, and their pictures."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def lines(self) -> tuple[GameLine, ...]:
        """Return all games in the order they were listed."""
        return self._session.snapshot.lines

    def traits(
        self, ids: Sequence[str], *, cancel: Cancel | None = None
    ) -> dict[str, frozenset[Trait]]:
        """Return which of the traits that take judging games have, by id.

        This takes milliseconds for each that was not looked at before. Raises Cancelled, or
        InputError for no such game.
        """
        found = {}
        for game in ids:
            go_on(cancel)
            with self._session.lock:
                snapshot = self._session.snapshot
                found[game] = traits_of(snapshot.proposal(snapshot.game(game).id))
        return found

    def arts(self, game: str) -> tuple[Art, ...]:
        """Return the ways to fit a game's picture, least loss first, plain last."""
        snapshot = self._session.snapshot
        return tuple(one.art for one in snapshot.proposer.fittings(snapshot.game(game)))

    def pictures(self, query: str = "") -> tuple[tuple[str, str], ...]:
        """Return pictures as (name, file name it came with), most like the query first."""
        sources = {name: one.source for name, one in self._session.snapshot.pictures.items()}
        return tuple((name, sources[name]) for name in intake.search(query, sources))

    def intake(
        self,
        list_file: Path,
        pictures: Path | None = None,
        case: str = "",
        *,
        skip_broken: bool = False,
        progress: Progressing | None = None,
    ) -> IntakeReport:
        """Take in a list of games and a folder of pictures.

        A picture whose content the collection has already is not looked at again. Raises
        ListError, PictureError, CaseError, InputError or CollectionError.
        """
        unpacked = delivery.unpack(
            list_file,
            pictures,
            known=self._session.snapshot.pictures.values(),
            skip_broken=skip_broken,
            progress=progress,
        )
        return self.take_in(unpacked, case)

    def take_in(self, unpacked: Delivery, case: str = "") -> IntakeReport:
        """Take in a delivery that is unpacked already. Raises CaseError or CollectionError."""
        return delivery.take_in(self._session, unpacked, case)
