"""A collection held open, and what every use case needs of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from threading import RLock

import msgspec

from engine import lettering, press
from engine.cases import CaseKind
from engine.collection import Collection
from engine.collection.pages import keep_pages
from engine.model import Design, FontRef, Game
from engine.model.errors import RefusedError
from engine.model.stages import Place, stage_counts
from engine.press import Insert
from engine.service import deciding
from engine.service import delivery as accession
from engine.service.results import (
    Progress,
    Proposal,
)
from engine.state import Snapshot


def utc_now() -> datetime:
    """Return the present moment, to the second, in UTC."""
    return datetime.now(UTC).replace(microsecond=0)


class Bench:
    """One collection, looked at and changed by one thread at a time."""

    def __init__(
        self, collection: Collection, kinds: Mapping[str, CaseKind], now: Callable[[], datetime]
    ) -> None:
        """Work on ``collection`` with these case kinds, reading the time from ``now``."""
        self._collection = collection
        self._kinds = kinds
        self._now = now
        self._lock = RLock()
        self._snapshot = Snapshot(collection, kinds)

    @property
    def folder(self) -> Path:
        """The collection's folder."""
        return self._collection.folder

    @property
    def name(self) -> str:
        """What to call the collection: its folder's name."""
        return self.folder.resolve().name

    @property
    def read_only(self) -> bool:
        """Whether another program has the collection open."""
        return self._collection.read_only

    @property
    def notes(self) -> tuple[str, ...]:
        """What the person should know about how the collection was opened, a sentence each."""
        return self._collection.notes

    def close(self) -> None:
        """Let go of the collection."""
        with self._lock:
            self._collection.close()

    def kind(self, said: str) -> CaseKind:
        """Return a case kind by id or name. Raises CaseError."""
        return self._kinds[accession.known_kind(self._kinds, said)]

    def proposal(self, game: str) -> Proposal:
        """Return a game's design as it would be printed now. Raises InputError."""
        with self._lock:
            return self._snapshot.proposal(self._snapshot.game(game).id)

    def proposals(self, ids: Sequence[str] | None = None) -> tuple[Proposal, ...]:
        """Return the designs of some games, or of all that are not finished."""
        wanted = self._snapshot.at(Place.BACKLOG) if ids is None else ids
        return tuple(self.proposal(game) for game in wanted)

    def progress(self, notes: Sequence[str] = ()) -> Progress:
        """Return how many games stand at each stage."""
        standing = self._snapshot.standing
        return Progress(
            games=len(standing),
            stages=stage_counts(standing),
            reprints=sum(one.reprint for one in standing.values()),
            notes=tuple(notes),
        )

    def undo(self) -> str:
        """Take back the last thing done; return what it was. Raises RefusedError."""
        with self._lock:
            words = self._collection.undo()
            if words is None:
                raise RefusedError("", "There is nothing to take back")
            self._renew()
            return words

    def _renew(self) -> None:
        """Look at the collection anew after a deed."""
        self._snapshot = Snapshot(self._collection, self._kinds, before=self._snapshot)
        live = [s.number for s in self._snapshot.sheets.values() if s.withdrawn_at is None]
        keep_pages(self.folder, live)

    def _keep(self, verb: str, games: Sequence[Game]) -> None:
        """Record the games that changed as one deed, the fonts that stand in kept with them."""
        keep = cache(self._keep_font)
        games = [
            msgspec.structs.replace(game, accepted=lettering.keep_fonts(game.accepted, keep))
            for game in games
        ]
        changed = [game for game in games if self._snapshot.games[game.id] != game]
        if changed:
            words = deciding.named(verb, [game.title for game in changed])
            self._collection.record(words, games=changed)
            self._renew()

    def _keep_font(self, font: FontRef) -> FontRef:
        """Copy a font of the machine into the collection; return it as designs name it."""
        name = self._collection.add_font(Path(font.path))
        return msgspec.structs.replace(font, path=name)

    def _decide(self, game: Game) -> Proposal:
        """Record one game's decision and return its design."""
        self._keep("changed", [game])
        return self.proposal(game.id)

    def _column_of(self, proposal: Proposal) -> str:
        """Return the column whose group gives a proposal its colours, '' where none does."""
        return self._snapshot.settings.colour_by if proposal.group else ""

    def _insert(self, game_id: str) -> Insert:
        """Compose the insert of a game as it would be printed now."""
        return self._composed(self._snapshot.proposal(game_id).design)

    def _composed(self, design: Design) -> Insert:
        """Compose the insert of a design."""
        picture = design.art.picture
        logos = [title.logo.picture for title in design.title if title.logo]
        return press.compose(
            design,
            self._snapshot.casing.net_for(design),
            self._collection.picture_path(picture) if picture else None,
            lettering.default_font(),
            fonts=self._collection.font_folder,
            logos={name: self._collection.picture_path(name) for name in logos},
        )
