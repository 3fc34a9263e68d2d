"""How much ink inserts and sheets take, and what each mode would save."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Annotated

import msgspec

from engine import artwork, press
from engine.artwork import Coverage
from engine.ganging.results import SheetReport
from engine.model import InkMode, Size, Value
from engine.model.units import PERCENT, SHARE
from engine.service.proofs import Proofs
from engine.service.session import Session
from engine.state import Proposal, Snapshot

MODEL = (
    "Coverage by ideal inks: cyan, magenta and yellow are the complements of red, green and blue, "
    "and black takes over what the three have in common (ISO 32000-1, 10.3.5). It ranks modes and "
    "inserts; printers mix greys of colours, so it does not foretell when a cartridge is empty."
)


class InkReport(Value, frozen=True):
    """The ink one insert takes, in percent of its area with its bleed, 0 to 100 a colour."""

    game: str
    title: str
    mode: InkMode
    coverage: Annotated[dict[str, float], PERCENT]
    """Of cyan, magenta, yellow and black."""
    saving: Annotated[dict[InkMode, float], SHARE]
    """What each mode would save of the ink that full colour takes, 0 to 1."""


class SheetInk(Value, frozen=True):
    """The ink one sheet takes, in percent of the paper's area."""

    number: int | None
    coverage: Annotated[dict[str, float], PERCENT]
    saving: Annotated[dict[InkMode, float], SHARE]


class InkSummary(Value, frozen=True):
    """The ink of inserts and of the sheets they lie on."""

    model: str
    """How coverage is worked out, a sentence."""
    mode: InkMode
    """What the setup says."""
    inserts: tuple[InkReport, ...]
    sheets: tuple[SheetInk, ...]


Modes = Mapping[InkMode, Coverage]
"""The ink of one thing in each mode."""


class InkUse:
    """Ink, worked out when it is asked for and kept by design."""

    def __init__(self, session: Session, proofs: Proofs) -> None:
        """Work in ``session``, on the inserts that ``proofs`` composes."""
        self._session = session
        self._proofs = proofs
        self._inks: dict[tuple[str, float], Coverage] = {}
        """The ink of designs, by their fingerprint and the bleed."""

    def report(self, ids: Sequence[str] = (), sheets: Sequence[SheetReport] = ()) -> InkSummary:
        """Return the ink of some inserts, and of ``sheets`` with all inserts that lie on them."""
        placed = [place.game for sheet in sheets for place in sheet.placements]
        games = tuple(dict.fromkeys((*(self._proposal(game).game for game in ids), *placed)))
        inks = {game: self._modes(game) for game in games}
        return InkSummary(
            model=MODEL,
            mode=self._session.snapshot.settings.ink,
            inserts=tuple(self._insert_ink(game, inks[game]) for game in games),
            sheets=tuple(self._sheet_ink(sheet, inks) for sheet in sheets),
        )

    def printed(self, snapshot: Snapshot, game: str) -> tuple[Coverage, Size]:
        """Return the ink of a game's insert as a snapshot has it, and its bled size."""
        bleed = snapshot.settings.bleed
        with self._session.lock:
            insert = self._proofs.composed(snapshot.proposal(game).design, snapshot.casing)
        return self._ink_of(insert, bleed), press.bled(insert.net.size, bleed)

    def _modes(self, game: str) -> Modes:
        """Return the ink of a game's insert in each mode."""
        found = {}
        for mode in InkMode:
            with self._session.lock:
                bleed = self._session.snapshot.settings.bleed
                insert = self._proofs.insert(game)
            insert = insert._replace(design=msgspec.structs.replace(insert.design, ink=mode))
            found[mode] = self._ink_of(insert, bleed)
        return found

    def _ink_of(self, insert: press.Insert, bleed: float) -> Coverage:
        key = (insert.design.fingerprint, bleed)
        if key not in self._inks:
            self._inks[key] = press.ink_of(insert, bleed)
        return self._inks[key]

    def _proposal(self, game: str) -> Proposal:
        snapshot = self._session.snapshot
        return snapshot.proposal(snapshot.game(game).id)

    def _insert_ink(self, game: str, inks: Modes) -> InkReport:
        present = self._proposal(game)
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
        own = {game: self._proposal(game).design.ink for game, _ in parts}
        now = artwork.sum_of([inks[game][own[game]].on(part) for game, part in parts])
        return SheetInk(number=sheet.number, coverage=now._asdict(), saving=_saving(modes))


def _saving(inks: Modes) -> dict[InkMode, float]:
    return {mode: ink.saving(inks[InkMode.FULL]) for mode, ink in inks.items()}
