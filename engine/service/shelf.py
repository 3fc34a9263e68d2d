"""The shelf: its order, its picture, what clashes on it, and what it would look like otherwise."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

import msgspec

from engine.collection import write_out
from engine.model import Game, Rect, Size, Value
from engine.model.errors import InputError
from engine.model.settings import SETTINGS
from engine.model.units import MM_PER_INCH
from engine.model.waiting import Cancel, go_on
from engine.service.proofs import COARSEST, FINEST, Proofs
from engine.service.session import Session
from engine.service.setup import Setup
from engine.service.shelved import EdgeLine, Shelved
from engine.service.windows import drawn, part_around, window_for
from engine.shelf import clashes, drawing, finding
from engine.shelf.clashes import Clash
from engine.shelf.drawing import Part
from engine.shelf.laying import Steps
from engine.state import Snapshot

WhatIf = Mapping[str, Any]
"""Settings by their names, under which the shelf is looked at before anything is printed."""

NOTHING: WhatIf = {}


class ClashLine(Value, frozen=True):
    """Something that strikes the eye on the whole shelf."""

    what: Clash
    games: tuple[str, ...]
    """The one to mend first."""
    words: str


class ShelfReport(Value, frozen=True):
    """All games in the order in which they stand."""

    order: str
    games: tuple[EdgeLine, ...]
    clashes: tuple[ClashLine, ...]


class Sight(NamedTuple):
    """A part of the shelf, drawn, and the way from each game to the next."""

    png: bytes
    steps: Mapping[str, Steps]
    spots: Mapping[str, Rect]
    """Where each game in sight stands on the shelf as it is, as parts of the picture's width and
    height from its upper left."""


class ShelfWork:
    """The shelf of a collection."""

    def __init__(self, session: Session, proofs: Proofs, setup: Setup) -> None:
        """Work in ``session``."""
        self._session = session
        self._proofs = proofs
        self._setup = setup
        self._kept: dict[bool, tuple[Snapshot, WhatIf, Shelved]] = {}
        """The shelf last looked at, as it is (False) and as it would be."""

    # --- looking -----------------------------------------------------------------------

    def report(self, what_if: WhatIf = NOTHING) -> ShelfReport:
        """Return all games in the order in which they stand, and what clashes.

        With ``what_if`` as it would be. Raises InputError for no such setting.
        """
        shelf = self._shelved(what_if)
        return ShelfReport(shelf.settings.order, shelf.lines(), _clashes(shelf))

    def clashes(self, cancel: Cancel | None = None) -> tuple[ClashLine, ...]:
        """Return what clashes on the shelf. Raises Cancelled."""
        return _clashes(self._shelved(NOTHING), cancel)

    def edge(self, game: str) -> EdgeLine:
        """Return a game as it stands on the shelf. Raises InputError."""
        shelf = self._shelved(NOTHING)
        return shelf.line(self._on(shelf, game).id)

    def order(self) -> tuple[str, ...]:
        """Return the games by id in the order in which they stand."""
        return self._shelved(NOTHING).order

    def find(self, words: str) -> tuple[str, ...]:
        """Return the games whose titles are like some words, the most like first."""
        games = self._session.snapshot.games
        return finding.find(words, {key: game.title for key, game in games.items()})

    def sight(
        self, game: str, pixels: tuple[int, int], rows: float = 1.0, what_if: WhatIf = NOTHING
    ) -> Sight:
        """Return a part of the shelf around a game, as a picture of a width and height.

        So many rows, or piles, are in sight, or a part of one. With ``what_if`` the shelf as it
        would be stands below the shelf as it is, each in half of the picture. Raises InputError.
        """
        size = (pixels[0], pixels[1] // 2) if what_if else pixels
        shelves = self._beside(what_if)
        first = shelves[0]
        game = self._on(first, game).id
        parts = [part_around(shelf, game, size, rows) for shelf in shelves]
        width = max(part.window.width for part in parts)
        ppi = pixels[0] / width * MM_PER_INCH
        png = drawing.picture(drawn(parts), drawing.size_of(parts), ppi)
        steps = first.steps_in(window_for(first, game, size, rows))
        return Sight(png, steps, _spots(parts[0], drawing.size_of(parts)))

    def write(
        self,
        path: Path,
        *,
        ppi: float | None = None,
        row: float | None = None,
        what_if: WhatIf = NOTHING,
        finished: bool = False,
        replace: bool = False,
        cancel: Cancel | None = None,
    ) -> None:
        """Write the shelf as a PNG or, true to size, a PDF.

        ``row`` is how long a row, or how high a pile, is at most, in mm. With ``what_if`` the
        shelf as it would be stands below the shelf as it is, ``finished`` as if all were printed.
        A file of others is written over if ``replace`` says so.
        Raises InputError or Cancelled.
        """
        kind = path.suffix.lower()
        if kind not in {".png", ".pdf"}:
            raise InputError(str(path), "a shelf is a PNG or a PDF", "Let its name end in one")
        if row is not None and not 50 <= row <= 5000:
            raise InputError("row", "it is from 50 to 5000 mm", "Give another length")
        if ppi is not None and not COARSEST <= ppi <= FINEST:
            raise InputError("ppi", f"it is from {COARSEST} to {FINEST}", "Give another value")
        shelves = self._beside(what_if)
        if not shelves[0].order:
            raise InputError(self._session.folder.name, "there are no games", "Take in a list")
        parts = [shelf.part(shelf.laid(row)) for shelf in shelves]
        parts = [part._replace(look=part.look._replace(finished=finished)) for part in parts]
        page = drawn(parts, cancel)
        if kind == ".png":
            size = drawing.size_of(parts)
            page = drawing.picture(page, size, ppi or drawing.usual_ppi(size))
        write_out(path, page, replace=replace)

    # --- changing ----------------------------------------------------------------------

    def file_under(self, game: str, words: str) -> None:
        """File a game under a sort title, or with no words under its title. Raises InputError."""
        with self._session.lock:
            found = self._session.snapshot.game(game)
            said = " ".join(words.split())
            new = msgspec.structs.replace(found, sort_title="" if said == found.title else said)
            self._session.keep_games("filed", [new])

    def move(self, game: str, steps: int) -> None:
        """Move a game so many places along the shelf, which is ordered by hand from now on.

        Raises InputError.
        """
        with self._session.lock:
            snapshot, shelf = self._session.snapshot, self._shelved(NOTHING)
            found, order = self._on(shelf, game), list(shelf.order)
            at = order.index(found.id)
            order.insert(max(0, min(at + steps, len(order) - 1)), order.pop(at))
            new = msgspec.structs.replace(snapshot.settings, order="hand", by_hand=tuple(order))
            if new != snapshot.settings:
                self._session.keep(f"moved {found.title}", settings=new)

    # --- within ------------------------------------------------------------------------

    def _on(self, shelf: Shelved, game: str) -> Game:
        """Return a game of the collection that stands on a shelf. Raises InputError."""
        found = self._session.snapshot.game(game)
        if found.id not in shelf.order:
            mend = "Name a game that is wanted, and no divider or label"
            raise InputError(found.title, "stands nowhere on the shelf", mend)
        return found

    def _beside(self, what_if: WhatIf) -> list[Shelved]:
        """Return the shelf as it is, and below it, if anything is tried, as it would be."""
        return [self._shelved(each) for each in ((NOTHING, what_if) if what_if else (NOTHING,))]

    def _shelved(self, what_if: WhatIf) -> Shelved:
        """Return the shelf as it is, or as it would be; that of the last time while it holds."""
        with self._session.lock:
            snapshot = self._session.snapshot
            kept = self._kept.get(bool(what_if))
            if kept is None or kept[0] is not snapshot or kept[1] != what_if:
                seen, caption = self._tried(what_if) if what_if else (snapshot, "")
                shelf = Shelved(seen, self._proofs, self._session.lock, caption)
                kept = self._kept[bool(what_if)] = snapshot, what_if, shelf
            return kept[2]

    def _tried(self, what_if: WhatIf) -> tuple[Snapshot, str]:
        """Return the collection under other settings, and what they are.

        What was accepted under the present ones and is not printed is proposed anew.
        """
        settings = self._setup.checked(what_if, self._session.kinds)
        present = self._session.snapshot
        recorded = present.recorded.games
        games = {key: self._anew(game, what_if) for key, game in recorded.items()}
        there = self._setup.there()
        said = (
            f"{SETTINGS[name].title}: "
            f"{SETTINGS[name].takes.words(SETTINGS[name].value(settings), there)}"
            for name in what_if
        )
        return self._session.tried(present, settings, games), "; ".join(said)

    def _anew(self, game: Game, what_if: WhatIf) -> Game:
        if self._session.snapshot.on_paper(self._session.snapshot.games[game.id]):
            return game
        again: dict[str, None] = {}
        if "colour_by" in what_if or "pins" in what_if:
            again["colours"] = None
        if any(SETTINGS[name].home == "lettering" for name in what_if):
            again["title"] = None
        accepted = msgspec.structs.replace(game.accepted, **again) if again else game.accepted
        return msgspec.structs.replace(game, accepted=accepted)


def _spots(part: Part, whole: Size) -> dict[str, Rect]:
    """Return where the games of the first part of a picture stand in it."""
    window = part.window
    top = window.y + window.height
    return {
        spot.item.game: Rect(
            (spot.rect.x - window.x) / whole.width,
            (top - spot.rect.y - spot.rect.height) / whole.height,
            spot.rect.width / whole.width,
            spot.rect.height / whole.height,
        )
        for spot in part.spots
        if spot.item.game
    }


def _clashes(shelf: Shelved, cancel: Cancel | None = None) -> tuple[ClashLine, ...]:
    seen = []
    for key in shelf.order:
        go_on(cancel)
        seen.append(shelf.seen(key))
    return tuple(ClashLine(*one) for one in clashes.clashes(seen))
