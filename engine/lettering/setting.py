"""Setting a title on an edge: size and lines, and what they come to in numbers."""

from __future__ import annotations

from collections.abc import Iterator

from engine.lettering.abridging import AbridgingStep, tidy
from engine.lettering.compositor import Compositor, SizedLines, compositor_for
from engine.lettering.coverage import check
from engine.lettering.legibility import BODY_ANGLE, reading_distance
from engine.lettering.scripts import is_all_east_asian, is_east_asian
from engine.lettering.style import NARROWEST, STYLE, TypeStyle
from engine.model import FontRef, Size, Value
from engine.model.units import MM_PER_POINT

_CONDENSING = 0.05
"""Type is condensed by steps of this part of its width."""


class Setting(Value, frozen=True):
    """A title set on an edge, in numbers."""

    lines: tuple[str, ...]
    size: float
    """In points."""
    cap_height: float
    """Of a capital, in mm; of the body where a line has ideographs or kana and nothing else."""
    reads_at: float
    """The farthest distance from which it reads, in mm."""
    fits: bool
    """Whether it lies inside the safe area, at no less than the smallest size, all glyphs there."""
    notes: tuple[str, ...] = ()
    """Why it does not fit as it is, a phrase each: 'stands out of the safe area'."""
    width: float = 1.0
    """How far the type is condensed; 1 is not at all."""
    upright: bool = False
    """Set top down, characters upright."""
    steps: tuple[AbridgingStep, ...] = ()
    """How the title was abridged."""


def propose_title(title: str, edge: Size, font: FontRef, style: TypeStyle = STYLE) -> Setting:
    """Return ``title`` at the largest size whose one or two lines fit the safe area of ``edge``.

    ``edge`` is measured in its reading frame, in mm. Two lines are broken where UAX #14
    allows and balanced: the longer one as short as can be. Nothing is abridged here.
    Raises FontError for a bad font.
    """
    text = tidy(title)
    setter = compositor_for((text,), font, style)
    setting = numbers(setter, setter.largest(text, edge), font)
    if style.narrowest < 1.0 and setting.reads_at < style.distance and not setting.upright:
        return _condensed(text, edge, font, style, setting)
    return setting


def set_lines(
    lines: tuple[str, ...], edge: Size, font: FontRef, style: TypeStyle = STYLE
) -> Setting:
    """Return the person's own ``lines`` at the largest size that fits the safe area of ``edge``.

    Empty lines are left out. Raises FontError for a bad font.
    """
    lines = tuple(filter(None, map(tidy, lines))) or ("",)
    setter = compositor_for(lines, font, style)
    return numbers(setter, setter.fitted(lines, edge), font)


def judge(
    lines: tuple[str, ...],
    size: float,
    edge: Size,
    font: FontRef,
    style: TypeStyle = STYLE,
    *,
    width: float = 1.0,
) -> Setting:
    """Return the numbers of ``lines`` set at ``size`` points, condensed to ``width``."""
    lines = tuple(lines) or ("",)
    setter = compositor_for(lines, font, style, width)
    return numbers(setter, SizedLines(lines, size, setter.size(lines, edge)), font)


def is_sure(setting: Setting) -> bool:
    """Return whether a setting can be taken unseen: it fits and nothing about it is a guess."""
    return setting.fits and all(step.sure for step in setting.steps)


def widths(style: TypeStyle) -> Iterator[float]:
    """Yield the widths that type may have in a style, natural first."""
    least, width = max(style.narrowest, NARROWEST), 1.0
    while width > least:
        yield width
        width = round(width - _CONDENSING, 4)
    yield least


def numbers(
    setter: Compositor, chosen: SizedLines, font: FontRef, steps: tuple[AbridgingStep, ...] = ()
) -> Setting:
    """Return a setting with all its numbers."""
    lines, size, most = chosen
    text = "".join(lines)
    em = size * MM_PER_POINT
    cap = setter.face.cap * em
    distance = reading_distance(cap)
    if is_east_asian(text):
        distance = min(distance, reading_distance(em, BODY_ANGLE))
        if is_all_east_asian(text):
            cap, distance = em, reading_distance(em, BODY_ANGLE)
    notes: list[str] = []
    if size > most:
        notes.append("stands out of the safe area")
    if size < setter.style.smallest:
        notes.append(f"at {size:g} pt it is smaller than {setter.style.smallest:g} pt")
    if not all([setter.ink(line).whole for line in lines]):  # noqa: C419 (no generator: hot)
        lacking = check(text, font, setter.style.fallbacks)
        notes.append(f"no font has {', '.join(map(str, lacking))}")
    fits, width = not notes, setter.width
    return Setting(lines, size, cap, distance, fits, tuple(notes), width, setter.upright, steps)


def _condensed(text: str, edge: Size, font: FontRef, style: TypeStyle, usual: Setting) -> Setting:
    """Return the widest condensed setting that reads from the shelf's distance, if any does.

    Where none does, the widest that fits, if the usual one does not.
    """

    def at(width: float) -> Setting:
        setter = compositor_for((text,), font, style, width)
        return numbers(setter, setter.largest(text, edge), font)

    tightest = at(min(widths(style)))
    if tightest.reads_at >= style.distance:
        return next(one for one in map(at, widths(style)) if one.reads_at >= style.distance)
    if tightest.fits and not usual.fits:
        return next(one for one in map(at, widths(style)) if one.fits)
    return usual
