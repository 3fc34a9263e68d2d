"""The furniture of an edge set out: a mark at one end, a stripe for a group."""

from __future__ import annotations

from engine.cases import Spine
from engine.lettering.compositor import compositor
from engine.lettering.furniture import mark_area, stripe_area
from engine.lettering.shaping import PlacedRun, exact_reach, runs_of
from engine.lettering.style import STYLE, TypeStyle
from engine.model import FontRef, Rect, Size, TextRun, Value
from engine.model.units import MM_PER_POINT

_USUAL_MARK = "000"
"""Marks no wider than this are all set at one size."""
_OVERSHOOT = 0.03
"""How far round letters go beyond flat ones, in ems."""


class Furnished(Value, frozen=True):
    """What stands on an edge beside the title, in its reading frame."""

    stripe: Rect | None = None
    """What the stripe covers."""
    mark: tuple[PlacedRun, ...] = ()
    symbol: Rect | None = None
    """Where a person's own symbol may stand, whole."""


def furnish(
    edge: Size,
    font: FontRef,
    style: TypeStyle = STYLE,
    *,
    mark: str = "",
    symbol: bool = False,
    stripe: bool = False,
) -> Furnished:
    """Return the furniture of one edge, where the style's furniture keeps room for it.

    ``mark`` is a short text (a number, a year, a series' letter), or ``symbol`` asks for
    the room of a picture instead, and ``stripe`` for a stripe. Raises FontError for a bad font.
    """
    furniture = style.furniture
    band = stripe_area(edge, furniture) if stripe and furniture.stripe else None
    if not furniture.mark or not (mark or symbol):
        return Furnished(band)
    area = mark_area(edge, furniture)
    if symbol:
        return Furnished(band, (), area)
    return Furnished(band, _mark(mark, area, font, style))


def _mark(text: str, area: Rect, font: FontRef, style: TypeStyle) -> tuple[PlacedRun, ...]:
    setter = compositor(font, style)
    ink = setter.ink(text)
    reaches = [exact_reach(piece.buffer, piece.face) for piece in ink.pieces]
    # From the middle of a capital: half of one, or as far as ink goes, less the overshoot of
    # round letters, so that all figures are set alike.
    middle = setter.cap / 2
    half = max(
        middle,
        *(reach.top - middle - _OVERSHOOT for reach in reaches),
        *(middle - reach.bottom - _OVERSHOOT for reach in reaches),
    )
    along, across = area.width, area.height
    if style.furniture.mark_across:
        along, across = across, along
    width = max(ink.width, setter.ink(_USUAL_MARK).width)
    em = min(along / width, across / (2 * half), style.largest * MM_PER_POINT)
    start = (ink.reach.left + ink.reach.right) / 2 * em
    return tuple(
        _placed(placed.run, start - placed.x, middle * em, area, style)
        for placed in runs_of(text, ink, em / MM_PER_POINT)
    )


def _placed(run: TextRun, middle: float, height: float, area: Rect, style: TypeStyle) -> PlacedRun:
    """Return a run of the mark whose ink is ``middle`` along and ``height`` above its start."""
    x, y = area.x + area.width / 2, area.y + area.height / 2
    if not style.furniture.mark_across:
        return PlacedRun(run, x - middle, y - height)
    if style.spine is Spine.DESCENDING:
        return PlacedRun(run, x + height, y - middle, 90)
    return PlacedRun(run, x - height, y + middle, 270)
