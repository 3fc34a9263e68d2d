"""The queue and its sheets: from finished designs to placements and back to reports."""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from functools import lru_cache
from typing import NamedTuple

import msgspec

from engine.cases import FlatNet, hand_cuts
from engine.ganging import (
    Coming,
    Item,
    Lack,
    Laid,
    Layout,
    cutorder,
    offcut_stock,
    offcuts,
)
from engine.ganging.fillers import has_room
from engine.ganging.inserts import LONG_AGO
from engine.ganging.results import CutsReport, OffcutReport, ScoreSetting, SheetReport, SheetState
from engine.model import Forme, Offcut, Placement, Rect, Sheet, Size, Stage
from engine.model.cautions import TRIMMING
from engine.model.errors import InputError, RefusedError
from engine.model.stages import Standing


def placements(layout: Layout, standing: Mapping[str, Standing]) -> tuple[Placement, ...]:
    """Return a layout as placements that carry each game's design, from the top left down."""
    return tuple(one.placed(one.key, standing[one.key].design) for one in layout.from_top)


def proposed(
    forme: Forme,
    layout: Layout,
    standing: Mapping[str, Standing],
    lacks: Iterable[Lack] | None = None,
) -> SheetReport:
    """Return the report of a sheet that is only proposed: open if it ``lacks`` something."""
    since = [standing[one.key].since for one in layout.laid]
    return SheetReport(
        waiting_since=min((at for at in since if at is not None), default=None),
        number=None,
        state=SheetState.READY if lacks is None else SheetState.OPEN,
        forme=forme,
        placements=placements(layout, standing),
        used=layout.used,
        lacks=tuple(lacks or ()),
    )


def pressed(sheet: Sheet, file: str | None, machine: str | None = None) -> SheetReport:
    """Return the report of a sheet that was pressed, and where its page and its cuts lie."""
    area = sum(p.width * p.height for p in sheet.placements)
    stock = sheet.forme.stock
    if sheet.withdrawn_at is not None:
        state = SheetState.WITHDRAWN
    else:
        state = SheetState.PRESSED if sheet.settled_at is None else SheetState.SETTLED
    return SheetReport(
        number=sheet.number,
        state=state,
        forme=sheet.forme,
        placements=sheet.placements,
        used=area / (stock.width * stock.height),
        file=file,
        reverse=sheet.reverse,
        machine=machine,
        pressed_at=sheet.pressed_at,
        strip=sheet.strip,
    )


def with_offcuts(sheet: Sheet, report: SheetReport, used: AnyOf[str]) -> SheetReport:
    """Return the report of a settled sheet with its offcuts; ``used`` are stocks printed on."""
    stock = sheet.forme.stock
    kept = {one.number for one in sheet.offcuts}
    return msgspec.structs.replace(
        report,
        offcuts=tuple(
            OffcutReport(
                number=one.number,
                size=Size(*sorted((one.rect.width, one.rect.height))),
                kept=one.number in kept,
                used=offcut_stock(one.rect, sheet.number, one.number, stock).id in used,
            )
            for one in blank_parts(sheet)
        ),
    )


def blank_parts(sheet: Sheet) -> tuple[Offcut, ...]:
    """Return the blank parts of a sheet that can be printed on, those kept as they were."""
    kept = {one.number: one for one in sheet.offcuts}
    found = _blank_parts(sheet.forme, sheet.placements, sheet.strip)
    return tuple(
        kept.get(number, Offcut(number, rect)) for number, rect in enumerate(found, start=1)
    )


@lru_cache(maxsize=64)
def _blank_parts(
    forme: Forme, placements: tuple[Placement, ...], strip: Rect | None
) -> tuple[Rect, ...]:
    laid = [Laid(p.game, p.case, p.x, p.y, p.width, p.height, p.rotated) for p in placements]
    if strip is not None:
        laid.append(Laid("", "", *strip, rotated=False))
    return offcuts(Layout(tuple(laid), 0.0), forme)


def keep_offcuts(sheet: Sheet, numbers: AnyOf[int], used: AnyOf[str]) -> Sheet:
    """Return the sheet with these offcuts kept, and no others; those used up stay.

    Raises RefusedError for a sheet that is not settled, InputError for an offcut it has not.
    """
    where = f"sheet {sheet.number}"
    if sheet.settled_at is None:
        raise RefusedError(where, "is not settled, so it is not cut yet", "Settle it first")
    parts = {one.number: one for one in blank_parts(sheet)}
    wrong = sorted(set(numbers) - set(parts))
    if wrong:
        have = f"Its offcuts are 1 to {len(parts)}" if parts else "It leaves none worth keeping"
        raise InputError(where, f"has no offcut {wrong[0]}", have)
    stock = sheet.forme.stock
    gone = {
        one.number
        for one in sheet.offcuts
        if offcut_stock(one.rect, sheet.number, one.number, stock).id in used
    }
    wanted = sorted({*numbers, *gone})
    return msgspec.structs.replace(sheet, offcuts=tuple(parts[number] for number in wanted))


def cuts(
    sheet: SheetReport, scores: tuple[ScoreSetting, ...] = (), by_hand: tuple[str, ...] = ()
) -> CutsReport:
    """Return the cut order of a sheet, proposed or pressed.

    ``scores`` is what is scored before, ``by_hand`` what is cut by hand then.
    """
    order = cutorder.order_of(sheet.forme, sheet.placements, sheet.strip)
    if order is None:
        free = "Cuts from edge to edge cannot free these inserts: cut along a steel rule."
        notes = (free, *TRIMMING)
        return CutsReport((), (), 0, 0, fewest=False, scores=scores, by_hand=by_hand, notes=notes)
    beyond = cutorder.beyond(order, sheet.forme)
    return CutsReport(
        cuts=order.cuts,
        words=cutorder.in_words(order),
        settings=order.settings,
        turns=order.turns,
        fewest=order.fewest,
        scores=scores,
        by_hand=by_hand,
        notes=(*filter(None, [beyond]), *TRIMMING),
    )


def good(sheet: Sheet, standing: Mapping[str, Standing]) -> tuple[int, ...]:
    """Return the places of inserts of a settled sheet that go into their cases or are in them.

    One for each game that is printed as it is designed; a second print of it is a spare.
    """
    found: dict[str, int] = {}
    for place, one in enumerate(sheet.placements):
        game = standing.get(one.game)
        if one.spoiled or game is None or game.stage not in {Stage.PRINTED, Stage.FITTED}:
            continue
        if game.design is not None and game.design.fingerprint == one.design:
            found.setdefault(one.game, place)
    return tuple(found.values())


class HandWork(NamedTuple):
    """What is cut by hand of inserts of one case kind that are cut alike."""

    inserts: tuple[int, ...]
    """Their places on the sheet, counted from 0."""
    words: str
    """'Soft case, 1 to 4 and 6: notch …'."""


def by_hand(
    placements: Iterable[Placement],
    nets: Mapping[tuple[str, str], FlatNet],
    names: Mapping[str, str],
) -> tuple[HandWork, ...]:
    """Return what is cut by hand once the rectangles of a sheet are free.

    ``nets`` are by game and case kind, ``names`` by kind.
    """
    found: dict[tuple[str, tuple[str, ...]], list[int]] = {}
    for number, one in enumerate(placements, start=1):
        net = nets.get((one.game, one.case))
        steps = hand_cuts(net) if net else ()
        if steps:
            found.setdefault((one.case, steps), []).append(number)
    return tuple(
        HandWork(
            tuple(number - 1 for number in numbers),
            f"{names.get(case, case)}, {_runs(numbers)}: {'; '.join(_lower(steps))}.",
        )
        for (case, steps), numbers in found.items()
    )


def _lower(steps: Iterable[str]) -> Iterator[str]:
    """Give steps as parts of a sentence; a letter that stands for a shape stays."""
    return (step if step[1:2] == " " else step[:1].lower() + step[1:] for step in steps)


def _runs(numbers: Sequence[int]) -> str:
    """Return '1 to 4, 6'."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 1 else f"{run[0]}" for run in runs)


def nothing_to_press(waiting: int, too_large: Iterable[str] = ()) -> RefusedError:
    """Return why there is nothing to press, for a queue of so many inserts that fit a sheet.

    ``too_large`` are sentences on those that fit none.
    """
    if waiting:
        what = f"No sheet is full yet; {waiting} inserts wait"
        mend = "Finish what the open sheet lacks, or add --part-full to press what there is"
        return RefusedError("", " ".join([*too_large, what]), mend)
    if too_large:
        return RefusedError("", " ".join(too_large).removesuffix("."))
    return RefusedError("", "No insert waits for a sheet", "Accept some designs first")


def no_room_for_marks(number: int, machine: str) -> RefusedError:
    """Return why a sheet that was laid out for cutting by hand is not cut by machine."""
    what = "has no room for registration marks beside its inserts"
    mend = f"Have sheets laid out with room for them: spinery setup --machine {machine}"
    return RefusedError(f"sheet {number}", what, mend)


def paper_left(layout: Layout, number: int, forme: Forme, kinds: Iterable[Coming]) -> str:
    """Return what a sheet leaves unused if more of its own or another kind would fit, else ''.

    A sheet can be full only because nothing is left to add to it; the person is told.
    """
    items = [
        Item(one.key, one.case, *_upright(one), turns=True, since=LONG_AGO) for one in layout.laid
    ]
    if not has_room(items, kinds, forme):
        return ""
    return f"Sheet {number} is part-full: {1 - layout.used:.0%} of the paper is left."


def _upright(laid: Laid) -> tuple[float, float]:
    return (laid.height, laid.width) if laid.rotated else (laid.width, laid.height)


def settle(sheet: Sheet, spoiled: AnyOf[int], now: datetime) -> Sheet:
    """Return the sheet settled, placements counted from 1. Raises InputError."""
    wrong = sorted(n for n in spoiled if not 1 <= n <= len(sheet.placements))
    if wrong:
        raise InputError(
            f"sheet {sheet.number}",
            f"has no placement {wrong[0]}",
            f"Its placements are 1 to {len(sheet.placements)}",
        )
    marked = tuple(
        msgspec.structs.replace(placement, spoiled=n in spoiled)
        for n, placement in enumerate(sheet.placements, start=1)
    )
    return msgspec.structs.replace(sheet, settled_at=now, placements=marked)


def withdraw(sheet: Sheet, now: datetime) -> Sheet:
    """Return the sheet withdrawn. Raises RefusedError for one that is settled."""
    if sheet.settled_at is not None:
        raise RefusedError(
            f"sheet {sheet.number}",
            "is settled, so its inserts are printed",
            "Settle it again with the spoiled ones marked",
        )
    return msgspec.structs.replace(sheet, withdrawn_at=now)
