"""From proposed layouts to sheets, filled with what the person chose."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from datetime import datetime

import msgspec

from engine.ganging import Layout, sheetwork
from engine.ganging.papers import Proposed
from engine.lettering import keep_fonts
from engine.model import Decision, Design, FontRef, Game, Sheet
from engine.model.errors import InputError
from engine.model.settings import Settings
from engine.model.stages import Standing
from engine.service import deciding
from engine.service import fillers as filling
from engine.service.fillers import Candidate, Room


class Pressing:
    """The sheets of one pressing, made one after the other; a filler is used once."""

    def __init__(
        self,
        room: Room,
        standing: Mapping[str, Standing],
        fillers: Collection[str],
        now: datetime,
        settings: Settings,
        keep: Callable[[FontRef], FontRef],
    ) -> None:
        """Fill with ``fillers``, by their ids, whatever part-full sheet has room.

        What room is left then goes into bleed and gutters, as far as ``settings`` say.
        ``keep`` copies a font of the machine into the collection; see ``keep_fonts``.
        """
        self._keep = keep
        self._room = room
        self._standing = standing
        self._now = now
        self._settings = settings
        self._left = list(dict.fromkeys(fillers))
        self._offered: set[str] = set()
        self.designs: dict[str, Design] = {
            one.design.fingerprint: one.design for one in standing.values() if one.design
        }
        """Every design that is printed, by fingerprint."""
        self.layouts: dict[int, Layout] = {}
        """What the sheets came to, by number."""
        self.finished: list[Game] = []
        """Games whose proposals were accepted by choosing them."""

    def sheet(self, number: int, proposed: Proposed, *, fill: bool) -> Sheet:
        """Return a sheet, filled if it is to be."""
        self.layouts[number] = proposed.layout
        if fill and self._left:
            filled = self._filled(number, proposed)
            if filled is not None:
                return filled
        wide = proposed.widened(self._settings)
        return Sheet(
            number=number,
            forme=wide.forme,
            placements=sheetwork.placements(wide.layout, self._standing),
            pressed_at=self._now,
        )

    def must_know_all(self) -> None:
        """Raise InputError for fillers that no sheet of this pressing was offered."""
        unknown = [filler for filler in self._left if filler not in self._offered]
        if unknown:
            raise InputError(
                unknown[0],
                "does not fill a sheet",
                "spinery press --part-full --fillers lists what does",
            )

    @property
    def notes(self) -> tuple[str, ...]:
        """What was chosen and found no room, a sentence each."""
        return tuple(f"No room was left for {filler}." for filler in self._left)

    def _filled(self, number: int, proposed: Proposed) -> Sheet | None:
        candidates = self._room.candidates(proposed)
        self._offered.update(one.filler for one in candidates)
        chosen = [self._kept(one) for one in candidates if one.filler in self._left]
        filled = self._room.fill(proposed, chosen) if chosen else None
        if filled is None:
            return None
        self.layouts[number] = filled.layout
        taken = {offer.item.key for offer in filled.taken}
        for one in chosen:
            if one.filler in taken:
                self._left.remove(one.filler)
                if one.design is not None:
                    self.designs[one.design.fingerprint] = one.design
                if one.game is not None and one.design is not None:
                    self.finished.append(self._accepted(one.of, one.design))
        wide = proposed._replace(layout=filled.layout).widened(self._settings)
        filled = msgspec.structs.replace(filled, layout=wide.layout)
        placed, strip = filling.placements(filled, chosen, self._standing)
        return Sheet(
            number=number,
            forme=wide.forme,
            placements=placed,
            pressed_at=self._now,
            strip=strip,
        )

    def _kept(self, one: Candidate) -> Candidate:
        """Return a filler whose fonts the collection keeps."""
        return one._replace(design=keep_fonts(one.design, self._keep)) if one.design else one

    def _accepted(self, key: str, design: Design) -> Game:
        return deciding.accept(self._room.game(key), design, frozenset(Decision), self._now)
