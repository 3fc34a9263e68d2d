"""Where the lines of a setting stand on their edge: runs and baselines for a pen."""

from __future__ import annotations

from engine.cases import Spine
from engine.lettering.compositor import Compositor, compositor_for
from engine.lettering.shaping import PlacedRun, ShapedLine, runs_of
from engine.lettering.style import STYLE, TypeStyle
from engine.model import FontRef, Rect, Size
from engine.model.units import MM_PER_POINT


def lay(
    lines: tuple[str, ...],
    size: float,
    edge: Size,
    font: FontRef,
    style: TypeStyle = STYLE,
    *,
    width: float = 1.0,
) -> tuple[PlacedRun, ...]:
    """Return the runs of ``lines`` at ``size`` points, centred in the safe area of ``edge``.

    A line that needs more than one font, or is set upright, gives several runs. The
    baselines hang on the font alone, so that all titles of one size and number of lines
    stand at one height; only ink that would leave the safe area moves them.
    Raises FontError for a bad font.
    """
    lines = tuple(line for line in lines if line)
    if not lines:
        return ()
    setter = compositor_for(lines, font, style, width)
    area, em = setter.room(edge).area, size * MM_PER_POINT
    inks = [setter.ink(line) for line in lines]
    laid: list[PlacedRun] = []
    for line, ink, y in zip(lines, inks, _baselines(setter, inks, em, area), strict=True):
        scale = em * setter.squeeze
        x = area.x + (area.width - ink.width * scale) / 2 - ink.reach.left * scale
        laid += [
            one._replace(x=x + one.x * setter.squeeze, y=y + one.y, squeeze=setter.squeeze)
            for one in runs_of(line, ink, size)
        ]
    if setter.upright and style.spine is Spine.ASCENDING:
        return tuple(_about_turned(line, area) for line in laid)
    return tuple(laid)


def _baselines(setter: Compositor, inks: list[ShapedLine], em: float, area: Rect) -> list[float]:
    """Return the height of each baseline on the edge, in mm.

    The capitals stand in the middle as far as ascenders and descenders leave room for it.
    """
    leads = [0.0, *setter.leads(inks)]
    usual = setter.cap + setter.style.leading * (len(inks) - 1)
    first = area.y + (area.height + usual * em) / 2 - setter.cap * em
    over = first + max(setter.rise, inks[0].reach.top) * em - (area.y + area.height)
    below = first + (min(setter.fall, inks[-1].reach.bottom) - sum(leads)) * em - area.y
    first -= over if over > 0 else min(below, 0.0)
    return [first - sum(leads[: index + 1]) * em for index in range(len(inks))]


def _about_turned(line: PlacedRun, area: Rect) -> PlacedRun:
    """Return a line turned half about with its area: top down runs backwards when it ascends."""
    x, y = 2 * area.x + area.width - line.x, 2 * area.y + area.height - line.y
    return line._replace(x=x, y=y, turn=line.turn + 180)
