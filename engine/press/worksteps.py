"""A printed sheet step by step: what is scored, cut and then cut by hand, and where.

Scores come first, while the sheet is whole and lies square; then the cuts, each with the piece
that it is of; last what no trimmer cuts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import StrEnum

from engine.cases import FlatNet
from engine.ganging import cutorder
from engine.ganging.results import ScoreSetting, SheetReport
from engine.ganging.sheetwork import HandWork
from engine.model import Placement, Rect, Value
from engine.press import scoring
from engine.press.placed import lying, scores_of
from engine.press.ticks import Score

BY_TICKS = "by knife along a steel rule, from tick to tick"


class WorkKind(StrEnum):
    """What is done in a step."""

    SCORE = "score"
    CUT = "cut"
    BY_HAND = "by hand"


class WorkStep(Value, frozen=True):
    """One step of the work on a printed sheet."""

    kind: WorkKind
    name: str
    """The letter of a score, the number of a cut; empty for what is cut by hand."""
    words: str
    pieces: tuple[Rect, ...]
    """What is in hand, where it lay on the sheet."""
    lines: tuple[Rect, ...] = ()
    """Where it is scored or cut: upright ones have no width, level ones no height."""
    frees: tuple[int, ...] = ()
    """Inserts that are free of the sheet then, by their places from 0."""


def work_steps(
    sheet: SheetReport,
    nets: Mapping[tuple[str, str], FlatNet],
    by_hand: Iterable[HandWork] = (),
) -> tuple[WorkStep, ...]:
    """Return how a sheet is scored and cut, step by step.

    ``nets`` are by game and case kind; what has none is not scored. ``by_hand`` is what is cut
    after the rectangles are free.
    """
    return (
        *_scores(sheet, nets),
        *_cuts(sheet),
        *(
            WorkStep(WorkKind.BY_HAND, "", one.words, _boxes(sheet.placements, one.inserts))
            for one in by_hand
        ),
    )


def score_settings(
    placements: Iterable[Placement], nets: Mapping[tuple[str, str], FlatNet]
) -> tuple[ScoreSetting, ...]:
    """Return the lines to score on a sheet in their order; ``nets`` as for ``work_steps``."""
    scored = [_lain(nets.get((one.game, one.case)), one) for one in placements]
    lines = scoring.score_lines(scored)
    return tuple(
        ScoreSetting(
            letter=line.letter,
            upright=line.upright,
            at=line.at,
            side="back" if line.back else "printed",
            fold="valley" if line.back else "mountain",
            angle=line.angle,
            inserts=line.inserts,
            words=words,
        )
        for line, words in zip(lines, scoring.in_words(lines), strict=True)
    )


def _scores(sheet: SheetReport, nets: Mapping[tuple[str, str], FlatNet]) -> Iterator[WorkStep]:
    """Yield a step for each setting of the rule."""
    scored = [_lain(nets.get((one.game, one.case)), one) for one in sheet.placements]
    lines = scoring.score_lines(scored)
    for line, words in zip(lines, scoring.in_words(lines), strict=True):
        found = (score for n in line.inserts for score in line.on(scored[n - 1]))
        yield WorkStep(
            WorkKind.SCORE,
            line.letter,
            words,
            (_whole(sheet),),
            tuple(map(_line, found)),
        )


def _lain(net: FlatNet | None, placement: Placement) -> tuple[Score, ...]:
    """Return where an insert is scored; nowhere if its net is not known any more."""
    return scores_of(net, lying(net, placement)) if net else ()


def _cuts(sheet: SheetReport) -> Iterator[WorkStep]:
    """Yield a step for each cut from edge to edge; one for all along the ticks if none do."""
    order = cutorder.order_of(sheet.forme, sheet.placements, sheet.strip)
    if order is None:
        every = tuple(range(len(sheet.placements)))
        yield WorkStep(WorkKind.CUT, "1", BY_TICKS, (_whole(sheet),), frees=every)
        return
    for cut, words in zip(order.cuts, cutorder.in_words(order), strict=True):
        inserts = tuple(place for place in cut.frees if place < len(sheet.placements))
        lines = tuple(map(cut.line, cut.pieces))
        yield WorkStep(WorkKind.CUT, f"{cut.number}", words, cut.pieces, lines, inserts)


def _line(score: Score) -> Rect:
    (x1, y1), (x2, y2) = sorted((score.start, score.end))
    return Rect(x1, min(y1, y2), x2 - x1, abs(y2 - y1))


def _whole(sheet: SheetReport) -> Rect:
    return Rect(0.0, 0.0, sheet.forme.stock.width, sheet.forme.stock.height)


def _boxes(placements: Sequence[Placement], places: Iterable[int]) -> tuple[Rect, ...]:
    return tuple(
        Rect(one.x, one.y, one.width, one.height) for one in (placements[place] for place in places)
    )
