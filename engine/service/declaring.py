"""Declaring where games stand: printed or fitted otherwise, or not wanted."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from engine.model import DECLARABLE, Stage, Value
from engine.model.errors import InputError
from engine.model.stages import Place
from engine.service import deciding
from engine.service.session import Session


class DeclareReport(Value, frozen=True):
    """What declaring did."""

    declared: tuple[str, ...]
    """The games that stand otherwise now."""
    notes: tuple[str, ...] = ()
    """Which were left, and why, a sentence each."""


class Declaring:
    """What a person says of games whatever this collection's sheets say."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def declare(self, ids: Sequence[str], stage: Stage | None) -> DeclareReport:
        """Say that games are printed, fitted or not wanted; None takes that back.

        They leave today's batch. One on a pressed sheet is left: what became of the sheet says
        where it stands. Raises InputError for any other stage, and for no such game.
        """
        if stage is not None and stage not in DECLARABLE:
            mend = f"Give one of these: {', '.join(DECLARABLE)}"
            raise InputError(str(stage), "follows from what is done", mend)
        with self._session.change():
            snapshot, now = self._session.snapshot, self._session.now()
            games = [snapshot.game(game) for game in ids]
            left = {g.id for g in games if snapshot.standing[g.id].place is Place.PRESSED}
            changed = [deciding.declare(g, stage, now) for g in games if g.id not in left]
            changed = [game for game in changed if game != snapshot.games[game.id]]
            said = f"declared {stage}" if stage else "took back what was declared of"
            self._session.keep_games(said, changed)
            declared = {game.id for game in changed}
            settings = snapshot.settings
            batch = tuple(game for game in settings.batch if game not in declared)
            if stage is not None and batch != settings.batch:
                self._session.keep(said, settings=msgspec.structs.replace(settings, batch=batch))
            return DeclareReport(
                declared=tuple(game.id for game in changed),
                notes=tuple(
                    f"{game.title} is on a pressed sheet: settle or withdraw that first."
                    for game in games
                    if game.id in left
                ),
            )
