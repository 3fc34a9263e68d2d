"""How much ink inserts and sheets take, and what each mode would save."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

import msgspec

from engine import artwork, press
from engine.artwork import Coverage
from engine.model import InkMode, Size
from engine.service.results import InkReport, InkSummary, SheetInk, SheetReport
from engine.service.session import Bench

MODEL = (
    "Coverage by ideal inks: cyan, magenta and yellow are the complements of red, green and blue, "
    "and black takes over what the three have in common (ISO 32000-1, 10.3.5). It ranks modes and "
    "inserts; printers mix greys of colours, so it does not foretell when a cartridge is empty."
)

Modes = Mapping[InkMode, Coverage]
"""The ink of one thing in each mode."""


class InkUse(Bench):
    """Ink, worked out when it is asked for and kept by design."""

    def ink(self, ids: Sequence[str] = (), sheets: Sequence[SheetReport] = ()) -> InkSummary:
        """Return the ink of some inserts, and of ``sheets`` with all inserts that lie on them."""
        placed = [place.game for sheet in sheets for place in sheet.placements]
        games = tuple(dict.fromkeys((*(self.proposal(game).game for game in ids), *placed)))
        inks = {game: self._modes(game) for game in games}
        return InkSummary(
            model=MODEL,
            mode=self._snapshot.settings.ink,
            inserts=tuple(self._insert_ink(game, inks[game]) for game in games),
            sheets=tuple(self._sheet_ink(sheet, inks) for sheet in sheets),
        )

    @cached_property
    def _inks(self) -> dict[tuple[str, float], Coverage]:
        """The ink of designs, by their fingerprint and the bleed."""
        return {}

    def _modes(self, game: str) -> Modes:
        """Return the ink of a game's insert in each mode."""
        found = {}
        for mode in InkMode:
            with self._lock:
                bleed = self._snapshot.settings.bleed
                insert = self._insert(game)
            insert = insert._replace(design=msgspec.structs.replace(insert.design, ink=mode))
            key = (insert.design.fingerprint, bleed)
            if key not in self._inks:
                self._inks[key] = press.ink_of(insert, bleed)
            found[mode] = self._inks[key]
        return found

    def _insert_ink(self, game: str, inks: Modes) -> InkReport:
        present = self.proposal(game)
        mode = present.design.ink
        return InkReport(
            game=present.game,
            title=present.title,
            mode=mode,
            coverage=inks[mode]._asdict(),
            saving=_saving(inks),
        )

    def _sheet_ink(self, sheet: SheetReport, inks: Mapping[str, Modes]) -> SheetInk:
        """Return the ink of a sheet: that of its inserts, each for its part of the paper."""
        stock, bleed = sheet.forme.stock, sheet.forme.bleed
        area = stock.width * stock.height
        parts = []
        for place in sheet.placements:
            width, height = press.bled(Size(place.width, place.height), bleed)
            parts.append((place.game, width * height / area))
        modes = {
            mode: artwork.sum_of([inks[game][mode].on(part) for game, part in parts])
            for mode in InkMode
        }
        own = {game: self.proposal(game).design.ink for game, _ in parts}
        now = artwork.sum_of([inks[game][own[game]].on(part) for game, part in parts])
        return SheetInk(number=sheet.number, coverage=now._asdict(), saving=_saving(modes))


def _saving(inks: Modes) -> dict[InkMode, float]:
    return {mode: ink.saving(inks[InkMode.FULL]) for mode, ink in inks.items()}
