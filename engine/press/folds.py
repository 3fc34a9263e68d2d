"""What runs past a fold: the colour of the panel that is seen, onto the one beside it.

A score or a fold that lies a hair off leaves a sliver of one panel on the next. Of the two the edge
carries its colour: it is what faces the person, in a row with others, and there a sliver of
picture or of white is a fault, while a hair of plain colour along a picture reads as the fold. Art
carries onto blank panels, which nobody sees; never onto an edge. Between two panels of art nothing
is carried: neither is in the right.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from engine.cases import FlatNet, FlatPanel, FlatScore, Role, Side
from engine.model import Rect

CARRIED = 0.5
"""How far colour runs past a fold, in mm: what a score by hand errs (common practice, no published
source). Lettering of art stands 1 mm clear of every side of its panel (``artwork.standing``)."""

_TOUCHING = 1e-5


def past_scores(net: FlatNet, panel: FlatPanel, by: float, bleed: float) -> Iterator[Rect]:
    """Give the strips that lie beyond the scores of a panel, ``by`` mm wide, on the net.

    Where they meet a cut they run into its ``bleed``.
    """
    for side, score in _folds(net, panel):
        x, y, width, height = _strip(side, score, by)
        cut = net.cut_sides(_on(net, score, {side.opposite}).name)
        ends = (Side.BOTTOM, Side.TOP) if side.upright else (Side.LEFT, Side.RIGHT)
        before, after = (bleed if end in cut else 0.0 for end in ends)
        if side.upright:
            yield Rect(x, y - before, width, height + before + after)
        else:
            yield Rect(x - before, y, width + before + after, height)


def scored_to(net: FlatNet, panel: FlatPanel, roles: Collection[Role]) -> frozenset[Side]:
    """Return the sides of a panel that are scored from end to end, to one of these ``roles``."""
    cut = net.cut_sides(panel.name)
    return frozenset(
        side
        for side, score in _folds(net, panel)
        if side not in cut and _on(net, score, {side.opposite}).role in roles
    )


def within(net: FlatNet, panel: FlatPanel, by: float) -> Rect:
    """Return a panel less what art carries onto it: ``by`` mm along its scores to art."""
    left, foot, right, top = _bounds(panel.rect)
    for side, score in _folds(net, panel):
        other = _on(net, score, {side.opposite})
        if other.role is Role.ART and side.opposite not in net.cut_sides(other.name):
            left += by if side is Side.LEFT else 0.0
            right -= by if side is Side.RIGHT else 0.0
            foot += by if side is Side.BOTTOM else 0.0
            top -= by if side is Side.TOP else 0.0
    return Rect(left, foot, right - left, top - foot)


def beside(net: FlatNet, score: FlatScore) -> tuple[FlatPanel, FlatPanel]:
    """Return the two panels that a score joins: the left or lower one first."""
    return _on(net, score, {Side.RIGHT, Side.TOP}), _on(net, score, {Side.LEFT, Side.BOTTOM})


def _folds(net: FlatNet, panel: FlatPanel) -> Iterator[tuple[Side, FlatScore]]:
    """Give the sides of a panel's rectangle with the scores that lie on each."""
    left, foot, right, top = _bounds(panel.rect)
    places = {Side.LEFT: left, Side.RIGHT: right, Side.BOTTOM: foot, Side.TOP: top}
    for score in net.scores:
        at = score.x1 if score.upright else score.y1
        ends = sorted((score.y1, score.y2) if score.upright else (score.x1, score.x2))
        low, high = (foot, top) if score.upright else (left, right)
        for side, place in places.items():
            if (
                side.upright is score.upright
                and abs(place - at) < _TOUCHING
                and ends[0] > low - _TOUCHING
                and ends[1] < high + _TOUCHING
            ):
                yield side, score


def _on(net: FlatNet, score: FlatScore, sides: Collection[Side]) -> FlatPanel:
    """Return the panel that has a score on one of these sides of it."""
    return next(
        panel
        for panel in net.panels
        for side, one in _folds(net, panel)
        if one == score and side in sides
    )


def _strip(side: Side, score: FlatScore, by: float) -> Rect:
    x, y = min(score.x1, score.x2), min(score.y1, score.y2)
    long = max(abs(score.x1 - score.x2), abs(score.y1 - score.y2))
    if side.upright:
        return Rect(x - by if side is Side.LEFT else x, y, by, long)
    return Rect(x, y - by if side is Side.BOTTOM else y, long, by)


def _bounds(rect: Rect) -> tuple[float, float, float, float]:
    return rect.x, rect.y, rect.x + rect.width, rect.y + rect.height
