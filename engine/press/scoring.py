"""What is scored and folded: on which side, which way, at what distance, in what order.

A score is pressed on the side that comes to lie outside, so that the ridge it raises on the other
side lies within the fold (common practice, no published source): on the printed side where the
panel folds away from it, a mountain; on the back where it folds towards it, a valley. The printed
side comes first, and the outermost fold of an insert before the inner ones, so that what is in hand
stays flat.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from string import ascii_lowercase
from typing import NamedTuple

from engine.cases import FlatNet, FlatPanel, FlatScore
from engine.press.folds import beside
from engine.press.ticks import Score

_SAME = 0.05
"""Scores that lie this close in mm are one line for the rule."""


class ScoreLine(NamedTuple):
    """Scores of a sheet that lie on one line and fold the same way: one setting of the rule."""

    letter: str
    """From a in the order of the work."""
    upright: bool
    at: float
    """In mm from the left edge of the paper for an upright one, else from its foot."""
    back: bool
    """Whether it is pressed on the back."""
    angle: float
    """By how much it folds, in degrees."""
    inserts: tuple[int, ...]
    """Their numbers."""

    def on(self, scores: Iterable[Score]) -> tuple[Score, ...]:
        """Return those ``scores`` that lie on it and fold as it does."""
        return tuple(score for score in scores if _is_one(self, _line(score)))

    def start(self, scores: Iterable[Score]) -> tuple[float, float]:
        """Return the left or lower end of those ``scores`` that lie on it, one at least."""
        return min(min(score.start, score.end) for score in self.on(scores))


def score_lines(inserts: Sequence[Sequence[Score]]) -> tuple[ScoreLine, ...]:
    """Return the lines to score on a sheet in their order: one side of the paper, then the other.

    Given are the scores of each of its inserts. Upright lines come first, from the left, then
    level ones from the foot.
    """
    found = [_line(score, number) for number, scores in enumerate(inserts, 1) for score in scores]
    lines: list[ScoreLine] = []
    for line in sorted(found, key=lambda one: (one.back, one.upright, one.angle, one.at)):
        if lines and _is_one(lines[-1], line):
            numbers = tuple(sorted({*lines[-1].inserts, *line.inserts}))
            lines[-1] = lines[-1]._replace(inserts=numbers)
        else:
            lines.append(line)
    lines.sort(key=lambda one: (one.back, not one.upright, one.at))
    return tuple(line._replace(letter=_letter(place)) for place, line in enumerate(lines))


def in_words(lines: Iterable[ScoreLine]) -> tuple[str, ...]:
    """Return what to do at each line of a sheet, its letter left out."""
    words = []
    for line in lines:
        side = "on the back" if line.back else "on the printed side"
        edge = "left edge" if line.upright else "foot"
        which = "insert" if len(line.inserts) == 1 else "inserts"
        numbers = ", ".join(map(str, line.inserts))
        words.append(
            f"{line.at:.1f} mm from the {edge} of the paper, {side}; {which} "
            f"{numbers}; {_fold(line.angle, back=line.back)}"
        )
    return tuple(words)


def steps(net: FlatNet) -> tuple[str, ...]:
    """Return what to score on an insert in words, in the order of scoring and of folding.

    A score that a notch parts is one step.
    """
    found = sorted(_step(net, score) for score in net.scores)
    return tuple(dict.fromkeys(words for _, words in found))


def _step(net: FlatNet, score: FlatScore) -> tuple[tuple[bool, float], str]:
    """Return what a score goes by, the printed side and outer ones first, and what to do there."""
    low, high = beside(net, score)
    axis = 0 if score.upright else 1
    piece, back = _piece(net, low), score.angle < 0
    first = min(piece, key=lambda panel: panel.rect[axis])
    last = max(piece, key=lambda panel: panel.rect[axis] + panel.rect[axis + 2])
    before = (score.x1, score.y1)[axis] - first.rect[axis]
    after = last.rect[axis] + last.rect[axis + 2] - (score.x1, score.y1)[axis]
    off, outer = min((before, first.name), (after, last.name))
    words = (
        f"between {low.name} and {high.name}, {off:.1f} mm from the outer edge of {outer}, on the "
        f"{'back' if back else 'printed side'}; {_fold(abs(score.angle), back=back)}"
    )
    return (back, off), words


def _piece(net: FlatNet, panel: FlatPanel) -> list[FlatPanel]:
    """Return the panels that hang together with one."""
    names = {panel.name}
    for _ in net.scores:
        for pair in (beside(net, score) for score in net.scores):
            if names & {one.name for one in pair}:
                names |= {one.name for one in pair}
    return [one for one in net.panels if one.name in names]


def _fold(angle: float, *, back: bool) -> str:
    if back:
        return f"fold {angle:g}° towards the printed side (valley)"
    return f"fold {angle:g}° away from the printed side (mountain)"


def _line(score: Score, *inserts: int) -> ScoreLine:
    x, y = score.start
    at, angle = (x if score.upright else y), abs(score.angle)
    return ScoreLine("", score.upright, at, score.angle < 0, angle, inserts)


def _is_one(one: ScoreLine, other: ScoreLine) -> bool:
    same = (one.back, one.upright, one.angle) == (other.back, other.upright, other.angle)
    return same and abs(one.at - other.at) <= _SAME


def _letter(place: int) -> str:
    """Return a to z, then aa and on."""
    more, last = divmod(place, len(ascii_lowercase))
    return (_letter(more - 1) if more else "") + ascii_lowercase[last]
