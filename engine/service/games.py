"""Games and pictures of a collection: taken in, and looked at."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

import msgspec

from engine import intake
from engine.artwork import Progressing
from engine.cases import load_kinds
from engine.cases.library import known_kind
from engine.model import Art, Decision, Game, Sheet
from engine.model.columns import ABOUT
from engine.model.errors import InputError, RefusedError
from engine.model.settings import Settings
from engine.model.waiting import Cancel, go_on
from engine.service import deciding, delivery, pairing
from engine.service.delivery import Delivery, IntakeLook, IntakeReport
from engine.service.session import Session, named, utc_now
from engine.state import GameLine, Records, Trait, traits_of


class Games:
    """The games of a collection, and their pictures."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def lines(self) -> tuple[GameLine, ...]:
        """Return all games in the order they were listed."""
        return self._session.snapshot.lines

    def titles(self) -> dict[str, str]:
        """Return the title of every game, by id, in the order they were listed."""
        return {key: game.title for key, game in self._session.snapshot.games.items()}

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

    def look(self, unpacked: Delivery, case: str = "") -> IntakeLook:
        """Return what ``take_in`` would bring, and take nothing. Raises CaseError."""
        with self._session.lock:
            present, kinds = self._session.snapshot.recorded, self._session.kinds
        return delivery.look(present, kinds, unpacked, case, self._session.now())

    def add(self, title: str, case: str = "", **about: str) -> GameLine:
        """Add one game, and what there is ``about`` it; a picture named like it is found.

        One of the same title is a second cartridge. Raises InputError, CaseError.
        """
        written = _written({"title": title, **about})
        with self._session.change():
            snapshot = self._session.snapshot
            kind = known_kind(self._session.kinds, case) if case else ""
            new_id = intake.game_id(written["title"], set(snapshot.games))
            game = Game(new_id, written["title"], self._session.now(), case=kind)
            game = msgspec.structs.replace(game, **written)
            self._session.keep(f"added {game.title}", games=[self._paired(game)])
            return self._line(new_id)

    def edit(self, game: str, **about: str) -> GameLine:
        """Change what is written of a game, by the names in ``ABOUT``.

        With another title the one on its edges is proposed anew, and so is its picture unless
        that was accepted. Raises InputError.
        """
        written = _written(about)
        with self._session.change():
            found = self._session.snapshot.recorded.games[self._session.snapshot.game(game).id]
            changed = msgspec.structs.replace(found, **written)
            if changed.title != found.title:
                changed = self._paired(deciding.reopen(changed, {Decision.TITLE}))
            if changed != found:
                self._session.keep(f"edited {changed.title}", games=[changed])
            return self._line(found.id)

    def delete(self, games: Iterable[str]) -> tuple[str, ...]:
        """Delete games; return their titles. Undo brings them back.

        Raises RefusedError where one is on a sheet, InputError.
        """
        with self._session.change():
            snapshot = self._session.snapshot
            found = [snapshot.game(game) for game in games]
            for game in found:
                _must_be_off_paper(game, snapshot.live_sheets)
            gone = {game.id for game in found}
            batch = tuple(one for one in snapshot.settings.batch if one not in gone)
            settings = msgspec.structs.replace(snapshot.settings, batch=batch)
            titles = tuple(game.title for game in found)
            if titles:
                self._session.keep(named("deleted", titles), settings=settings, gone=gone)
            return titles

    def _paired(self, game: Game) -> Game:
        """Return a game with the pictures that are found for it now, unless its art is accepted.

        A picture that another game has stays there.
        """
        recorded = self._session.snapshot.recorded
        if game.accepted.art is not None:
            return game
        others = [one for one in recorded.games.values() if one.id != game.id]
        held = {one.match.picture for one in others if one.match}
        free = [one for one in recorded.pictures.values() if one.name not in held]
        return pairing.paired([*others, game], pairing.files_of(free))[game.id]

    def _line(self, game: str) -> GameLine:
        return next(one for one in self.lines() if one.id == game)


def look_at_new(unpacked: Delivery, case: str = "") -> IntakeLook:
    """Return what a delivery would bring to a new collection. Raises CaseError."""
    nothing = Records({}, {}, {}, Settings())
    return delivery.look(nothing, load_kinds(), unpacked, case, utc_now())


def _written(about: dict[str, str]) -> dict[str, str]:
    """Return what is written of a game, tidied. Raises InputError."""
    unknown = about.keys() - set(ABOUT)
    if unknown:
        raise InputError(min(unknown), "nothing is written under that", f"Give {', '.join(ABOUT)}")
    written = {field: " ".join(words.split()) for field, words in about.items()}
    if not written.get("title", "title"):
        raise InputError("title", "is empty", "Give at least one letter")
    return written


def _must_be_off_paper(game: Game, sheets: Iterable[Sheet]) -> None:
    """Raise RefusedError where a game is on a sheet that was not withdrawn."""
    for sheet in sheets:
        if any(placement.game == game.id for placement in sheet.placements):
            settled = sheet.settled_at is not None
            mend = "It stays in the record" if settled else "Withdraw the sheet first"
            raise RefusedError(game.title, f"is on sheet {sheet.number}", mend)
