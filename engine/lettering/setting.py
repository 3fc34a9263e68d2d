"""Setting a title on an edge: size, lines, baselines, and what they come to in numbers."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import floor
from typing import NamedTuple

from engine.lettering.breaking import breaks
from engine.lettering.coverage import Fallbacks, check
from engine.lettering.faces import open_face
from engine.lettering.legibility import reading_distance
from engine.lettering.shaping import Ink, measure, runs_of
from engine.units import MM_PER_POINT
from engine.values import FontRef, Rect, Size, TextRun, Value


class Style(Value, frozen=True):
    """How titles are set; sizes in points, lengths in mm."""

    smallest: float = 5.0
    """Below this print breaks up on ordinary card (common practice, no published source)."""
    largest: float = 24.0
    lines: int = 2
    """At most this many, one or two."""
    distance: float = 500.0
    """From how far the edge is to be read: arm's length."""
    leading: float = 1.1
    """From baseline to baseline, in ems; more where the ink of two lines would meet."""
    fallbacks: Fallbacks = None


STYLE = Style()
"""How titles are set where nobody said otherwise."""


class Line(NamedTuple):
    """A run and where its baseline starts in the edge's reading frame, in mm."""

    run: TextRun
    x: float
    y: float


class Setting(Value, frozen=True):
    """A title set on an edge, in numbers."""

    lines: tuple[str, ...]
    size: float
    """In points."""
    cap_height: float
    """In mm."""
    reads_at: float
    """The farthest distance from which it reads, in mm."""
    fits: bool
    """Whether it lies inside the safe area, at no less than the smallest size, all glyphs there."""
    notes: tuple[str, ...] = ()
    """What a person should know, a sentence each."""


class Room(NamedTuple):
    """What an edge offers a font: the safe area, and the largest size for one and two lines."""

    area: Rect
    one: float
    two: float
    rise: float
    fall: float


def safe_area(edge: Size) -> Rect:
    """Return where type may stand on an edge, in its reading frame.

    A safe zone of 5 mm is the habit (common practice, no published source) but would leave
    nothing of a 6 mm edge. Across the line it is an eighth of the edge, never less than
    0.6 mm, which is what a home printer's feed errs (0.5 to 1 mm, common practice); along
    the line a thirtieth of its length, never less than across.
    """
    across = min(5.0, max(0.6, edge.height / 8.0))
    along = min(5.0, max(across, edge.width / 30.0))
    return Rect(along, across, max(edge.width - 2 * along, 0.0), max(edge.height - 2 * across, 0.0))


@lru_cache(maxsize=256)
def room(edge: Size, font: FontRef, style: Style) -> Room:
    """Return what ``edge`` offers ``font``; FontError when the font cannot be opened."""
    area, face = safe_area(edge), open_face(font)
    line = face.rise - face.fall
    return Room(
        area,
        area.height / MM_PER_POINT / line,
        area.height / MM_PER_POINT / (line + style.leading),
        face.rise,
        face.fall,
    )


def propose_title(
    title: str,
    edge: Size,
    font: FontRef,
    style: Style = STYLE,
) -> Setting:
    """Return ``title`` at the largest size whose one or two lines fit the safe area of ``edge``.

    ``edge`` is measured in its reading frame, in mm. Two lines are broken where UAX #14
    allows and balanced: the longer one as short as can be. Raises FontError for a bad font.
    """
    text = " ".join(title.split())
    lines, size = _largest(text, edge, font, style)
    return _numbers(lines, size, edge, font, style)


def set_lines(
    lines: tuple[str, ...],
    edge: Size,
    font: FontRef,
    style: Style = STYLE,
) -> Setting:
    """Return these very lines, one or two, at the largest size that fits ``edge``."""
    inks = tuple(measure(line, font, style.fallbacks) for line in lines)
    return _numbers(lines, _size(inks, room(edge, font, style), style), edge, font, style)


def judge(
    lines: tuple[str, ...],
    size: float,
    edge: Size,
    font: FontRef,
    style: Style = STYLE,
) -> Setting:
    """Return the numbers of ``lines`` set at ``size`` points on ``edge``."""
    return _numbers(tuple(lines), size, edge, font, style)


def lay(
    lines: tuple[str, ...],
    size: float,
    edge: Size,
    font: FontRef,
    style: Style = STYLE,
) -> tuple[Line, ...]:
    """Return the runs of ``lines`` at ``size`` points, centred in the safe area of ``edge``.

    A line that needs more than one font, or runs both ways, gives several runs. The
    baselines hang on the font alone, so all titles of one size and number of lines stand at
    the same height; only ink that would leave the safe area moves them.
    """
    inks = [measure(line, font, style.fallbacks) for line in lines]
    space, mm = room(edge, font, style), size * MM_PER_POINT
    laid: list[Line] = []
    for line, ink, y in zip(lines, inks, _baselines(inks, mm, space, style), strict=True):
        x = space.area.x + (space.area.width - ink.width * mm) / 2 - ink.reach.left * mm
        laid += [Line(run, x + start, y) for run, start in runs_of(line, ink, size)]
    return tuple(laid)


def is_sure(setting: Setting) -> bool:
    """Return whether the setting can be taken without a look."""
    return setting.fits


def _largest(text: str, edge: Size, font: FontRef, style: Style) -> tuple[tuple[str, ...], float]:
    space = room(edge, font, style)
    lines, size = (text,), _size((measure(text, font, style.fallbacks),), space, style)
    if (
        style.lines > 1
        and size < min(space.two, style.largest)
        and (halves := _halves(text, font, style))
    ):
        two = _size(tuple(measure(half, font, style.fallbacks) for half in halves), space, style)
        if two > size:
            return halves, two
    return lines, size


def _halves(text: str, font: FontRef, style: Style) -> tuple[str, str] | None:
    """Return the text broken once, the longer part as short as can be; None if it cannot be."""
    best: tuple[float, tuple[str, str]] | None = None
    for index in breaks(text):
        halves = text[:index].rstrip(), text[index:].lstrip()
        longer = max(measure(half, font, style.fallbacks).width for half in halves)
        if best is None or longer < best[0]:
            best = longer, halves
    return best and best[1]


def _size(inks: tuple[Ink, ...], space: Room, style: Style) -> float:
    """Return the largest size in points, down to a tenth, at which lines fit the safe area."""
    height = _block(inks, space, style)
    width = max(ink.width for ink in inks)
    em = min(space.area.height / height, space.area.width / width if width else 1e9)
    return min(style.largest, floor(em / MM_PER_POINT * 10 + 1e-9) / 10)


def _block(inks: tuple[Ink, ...], space: Room, style: Style) -> float:
    """Return how high lines are, from ink top to ink bottom, in ems."""
    return (
        max(space.rise, inks[0].reach.top)
        - min(space.fall, inks[-1].reach.bottom)
        + sum(_leads(inks, space, style))
    )


def _leads(inks: tuple[Ink, ...], space: Room, style: Style) -> list[float]:
    """Return the distance between baselines, in ems."""
    clear = style.leading - (space.rise - space.fall)
    return [
        max(space.rise, lower.reach.top) - min(space.fall, upper.reach.bottom) + clear
        for upper, lower in pairwise(inks)
    ]


def _baselines(inks: list[Ink], mm: float, space: Room, style: Style) -> list[float]:
    """Return the height of each baseline, in mm, for an em of ``mm``."""
    leads = _leads(tuple(inks), space, style)
    usual = space.rise - space.fall + style.leading * (len(inks) - 1)
    area = space.area
    first = area.y + (area.height + usual * mm) / 2 - space.rise * mm
    top = first + max(space.rise, inks[0].reach.top) * mm
    bottom = first - sum(leads) * mm + min(space.fall, inks[-1].reach.bottom) * mm
    if top > area.y + area.height:
        first -= top - area.y - area.height
    elif bottom < area.y:
        first += area.y - bottom
    return [first - sum(leads[:index]) * mm for index in range(len(inks))]


def _numbers(
    lines: tuple[str, ...], size: float, edge: Size, font: FontRef, style: Style
) -> Setting:
    inks = tuple(measure(line, font, style.fallbacks) for line in lines)
    cap = open_face(font).cap * size * MM_PER_POINT
    notes: list[str] = []
    if size > _size(inks, room(edge, font, style), style):
        notes.append("stands out of the safe area")
    if size < style.smallest:
        notes.append(f"smaller than {style.smallest:g} pt")
    if lacking := check("".join(lines), font, style.fallbacks):
        notes.append("no font has " + ", ".join(map(str, lacking)))
    return Setting(lines, size, cap, reading_distance(cap), not notes, tuple(notes))
