"""Making the demo: its list and pictures, and a collection that is well under way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from engine.demo import covers, harbour, scans
from engine.ganging.results import SheetReport, SheetsReport
from engine.model import Decision
from engine.model.errors import CollectionError, RefusedError
from engine.service import Workshop, open_workshop

Progressing = Callable[[int, int], None]
"""Called with how many covers were drawn, or looked at, and of how many."""

MARGINS = (4.2, 4.2, 4.2, 4.2)
"""What the library's printer leaves white, in mm: the common figure of printers' own
descriptions (IPP, media-*-margin-supported 423 hundredths of a mm)."""

CASE = "snap-shell"
"""The case kind of games whose row names none."""

ONLY_ART = 5
"""Games of today's batch whose title is still to be set."""


class DemoInputs(NamedTuple):
    """What a person would begin with: a list and a folder of pictures."""

    list_file: Path
    pictures_folder: Path


def make_demo_inputs(folder: Path, progress: Progressing | None = None) -> DemoInputs:
    """Write the Harbour Street list and its pictures into ``folder``, made if need be.

    The same files every time. Raises CollectionError where they cannot be written.
    """
    wanted = harbour.covers()
    inputs = DemoInputs(folder / harbour.LIST_NAME, folder / "pictures")
    try:
        inputs.pictures_folder.mkdir(parents=True, exist_ok=True)
        inputs.list_file.write_text(harbour.list_text(), encoding="utf-8", newline="")
        for done, cover in enumerate(wanted, start=1):
            scans.write(inputs.pictures_folder / cover.file, covers.draw(cover), cover.finish)
            if progress:
                progress(done, len(wanted))
    except OSError as fault:
        raise CollectionError(
            str(folder), f"the demo cannot be written ({fault.strerror})", "Choose another folder"
        ) from fault
    return inputs


def make_demo(
    folder: Path, drawing: Progressing | None = None, looking: Progressing | None = None
) -> Workshop:
    """Make the Harbour Street collection in ``folder`` and return it open.

    Two sheets are printed, an insert of theirs spoiled, most of the others in their cases;
    the next sheet is almost full, today's batch is begun, the rest waits. Raises RefusedError
    where a collection is already, CollectionError where it cannot be written.
    """
    workshop = open_workshop(folder)
    try:
        _take_in(workshop, drawing, looking)
        _work_on(workshop)
    except BaseException:
        workshop.close()
        raise
    return workshop


def _take_in(workshop: Workshop, drawing: Progressing | None, looking: Progressing | None) -> None:
    """Bring the list and the pictures into an empty collection, set up for its printer."""
    if workshop.games.lines():
        raise RefusedError(
            str(workshop.folder), "holds a collection already", "Choose another folder"
        )
    with TemporaryDirectory() as place:
        inputs = make_demo_inputs(Path(place), drawing)
        workshop.setup.change(margins=MARGINS)
        workshop.games.intake(*inputs, CASE, progress=looking)


def _work_on(workshop: Workshop) -> None:
    """Bring the shelf as far as a library gets in some weeks."""
    sure = iter([proposal.game for proposal in workshop.designs.proposals() if proposal.sure])
    _accept_until(workshop, sure, lambda sheets: len(sheets.ready) == 2)
    first, second = workshop.sheets.press().sheets
    *good, _ = [placement.game for placement in first.placements]
    workshop.sheets.settle(_number(first), spoiled={len(first.placements)})
    workshop.sheets.settle(_number(second))
    workshop.sheets.fit([*good, *(placement.game for placement in second.placements[:2])])
    _accept_until(workshop, sure, _almost_full)
    begun = [next(sure) for _ in range(ONLY_ART)]
    workshop.designs.accept(begun, {Decision.CASE, Decision.ART, Decision.COLOUR})
    workshop.batch.work_on(begun)
    workshop.batch.bring_next()


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
