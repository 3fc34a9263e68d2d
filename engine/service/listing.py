"""Taking games and pictures in, and looking at what there is."""

from __future__ import annotations

from pathlib import Path

from engine import intake
from engine.artwork import Progressing
from engine.model import Art
from engine.service import delivery as accession
from engine.service.delivery import Delivery, unpack
from engine.service.results import (
    Finding,
    GameLine,
    Health,
    IntakeReport,
)
from engine.service.session import Bench


class Listing(Bench):
    """Games and pictures of the collection."""

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

        Raises ListError, PictureError, CaseError, InputError or CollectionError.
        """
        delivery = unpack(list_file, pictures, skip_broken=skip_broken, progress=progress)
        return self.take_in(delivery, case)

    def take_in(self, delivery: Delivery, case: str = "") -> IntakeReport:
        """Take in a delivery that is unpacked already. Raises CaseError or CollectionError."""
        with self._lock:
            report = accession.take_in(self._collection, self._kinds, delivery, case, self._now())
            self._renew()
            return report

    def games(self) -> tuple[GameLine, ...]:
        """Return all games in the order they were listed."""
        snapshot = self._snapshot
        batch = set(snapshot.settings.batch)
        return tuple(
            GameLine(
                id=game.id,
                title=game.title,
                series=game.series,
                maker=game.maker,
                genre=game.genre,
                year=game.year,
                notes=game.notes,
                case=snapshot.casing.case_of(game),
                stage=snapshot.standing[game.id].stage,
                sure=snapshot.proposer.art_is_sure(game),
                reprint=snapshot.standing[game.id].reprint,
                batch=game.id in batch,
            )
            for game in snapshot.games.values()
        )

    def arts(self, game: str) -> tuple[Art, ...]:
        """Return the ways to fit a game's picture, least loss first, plain last."""
        snapshot = self._snapshot
        return tuple(fitting.art for fitting in snapshot.proposer.fittings(snapshot.game(game)))

    def pictures(self, query: str = "") -> tuple[tuple[str, str], ...]:
        """Return pictures as (name, file name it came with), most like the query first."""
        sources = {name: p.source for name, p in self._collection.pictures.items()}
        return tuple((name, sources[name]) for name in intake.search(query, sources))

    def check(self) -> Health:
        """Return what is wrong with the collection, with a mend for each."""
        with self._lock:
            found = self._collection.check()
            return Health(tuple(Finding(f.what, f.where, f.mend) for f in found))
