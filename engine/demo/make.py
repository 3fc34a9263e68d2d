"""Making the demo: a collection that is well under way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path

import msgspec

from engine import (
    Decision,
    Picture,
    RefusedError,
    SheetReport,
    SheetsReport,
    Workshop,
    open_workshop,
    unpack,
)
from engine.service.session import utc_now

_HERE = Path(__file__).parent
LIST = _HERE / "harbour.csv"
"""The library's list of its games."""
PICTURES = _HERE / "pictures"
"""The folder of their covers, as scanners and people left them."""
FOUND = _HERE / "found.json"
"""What intake found in the covers."""

MARGINS = (4.2, 4.2, 4.2, 4.2)
"""What the library's printer leaves white, in mm: the common figure of printers' own
descriptions (IPP, media-*-margin-supported 423 hundredths of a mm)."""

CONTAINERS = {
    "Desk drawer": ((300.0, 90.0, 400.0), "drawer"),
    "Hall shelf": ((900.0, 220.0, 200.0), "shelf"),
}
"""What the library keeps its games in, by the inside in mm."""

CASE = "snap-shell"
"""The case kind of games whose row names none."""

ONLY_ART = 5
"""Games of today's batch whose title is still to be set."""


EVENINGS = (0, 4, 13, 20, 28)
"""The days on which the library worked, counted from the first."""
BEGAN = timedelta(days=30)
"""How long ago that first day was."""


class Evenings:
    """A clock that was read on some evenings of the last weeks, a minute apart."""

    def __init__(self) -> None:
        self._first = utc_now() - BEGAN
        self._evenings = iter(EVENINGS)
        self._at: datetime | None = None
        self.go_on()

    def __call__(self) -> datetime:
        """Return the moment; the present one once all evenings are over."""
        if self._at is None:
            return utc_now()
        self._at += timedelta(minutes=1)
        return self._at

    def go_on(self) -> None:
        """Let the next evening come, or the present."""
        days = next(self._evenings, None)
        self._at = None if days is None else self._first + timedelta(days=days)


def found_pictures() -> tuple[Picture, ...]:
    """Return what intake found in the covers, each named by its content."""
    return msgspec.json.decode(FOUND.read_bytes(), type=tuple[Picture, ...])


def make_demo(folder: Path) -> Workshop:
    """Make the Harbour Street collection in ``folder`` and return it open.

    Two sheets are printed, an insert of theirs spoiled, most of the others in their cases;
    the next sheet is almost full, today's batch is begun, the rest waits. Raises RefusedError
    where a collection is already, CollectionError where it cannot be written.
    """
    clock = Evenings()
    workshop = open_workshop(folder, clock)
    try:
        _take_in(workshop)
        _work_on(workshop, clock)
    except BaseException:
        workshop.close()
        raise
    return workshop


def _take_in(workshop: Workshop) -> None:
    """Bring the list and the covers into an empty collection, set up for its printer."""
    if workshop.games.lines():
        raise RefusedError(
            str(workshop.folder), "holds a collection already", "Choose another folder"
        )
    workshop.setup.change(margins=MARGINS)
    for name, (size, pose) in CONTAINERS.items():
        workshop.room.add(name, size, pose=pose)
    workshop.games.take_in(unpack(LIST, PICTURES, known=found_pictures()), CASE)


def _work_on(workshop: Workshop, clock: Evenings) -> None:
    """Bring the shelf as far as a library gets in some weeks."""
    sure = iter([proposal.game for proposal in workshop.designs.proposals() if proposal.sure])
    _accept_until(workshop, sure, lambda sheets: len(sheets.ready) == 2)
    clock.go_on()
    first, second = workshop.sheets.press().sheets
    *good, _ = [placement.game for placement in first.placements]
    workshop.sheets.settle(_number(first), spoiled={len(first.placements)})
    workshop.sheets.settle(_number(second))
    clock.go_on()
    fitted = [*good, *(placement.game for placement in second.placements[:2])]
    for game in fitted[:4]:
        workshop.sheets.fit([game])
    clock.go_on()
    for game in fitted[4:]:
        workshop.sheets.fit([game])
    clock.go_on()
    _accept_until(workshop, sure, _almost_full)
    begun = [next(sure) for _ in range(ONLY_ART)]
    workshop.designs.accept(begun, {Decision.CASE, Decision.ART, Decision.COLOUR})
    workshop.batch.work_on(begun)
    workshop.batch.bring_next()
    clock.go_on()


def _accept_until(
    workshop: Workshop, games: Iterator[str], reached: Callable[[SheetsReport], bool]
) -> None:
    """Accept game after game until the sheets stand as wanted, or the games run out."""
    while not reached(workshop.sheets.report()):
        game = next(games, None)
        if game is None:
            return
        workshop.designs.accept([game])


def _almost_full(sheets: SheetsReport) -> bool:
    """Return whether the open sheet holds something and lacks no more than two inserts."""
    if sheets.ready or not sheets.open:
        return False
    (sheet,) = sheets.open
    return len(sheet.placements) > 1 and sum(lack.count for lack in sheet.lacks) <= 2


def _number(sheet: SheetReport) -> int:
    """Return the number of a pressed sheet."""
    if sheet.number is None:
        raise RefusedError("", "the sheet is not pressed")
    return sheet.number
