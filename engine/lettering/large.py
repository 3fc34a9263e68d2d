"""A title set as large as a panel allows, on as many lines as that takes: art without a picture."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import inf

import msgspec

from engine.lettering.abridging import tidy
from engine.lettering.breaking import breaks
from engine.lettering.compositor import compositor_for
from engine.lettering.layout import lay
from engine.lettering.shaping import PlacedRun
from engine.lettering.style import TypeStyle
from engine.model import FontRef, Size

MOST_LINES = 8

LARGE = TypeStyle(largest=144.0, leading=1.05)
"""Two inches of type is enough for any panel."""


BESIDE = TypeStyle(largest=13.0, leading=1.1)
"""What stands below a title: a third of an inch at most, and less than the title."""

TITLE_SHARE = 0.62
"""Part of a block's height that the title takes where there is more below it."""


def set_block(
    title: str,
    lines: tuple[str, ...],
    panel: Size,
    font: FontRef,
    fallbacks: tuple[FontRef, ...] = (),
) -> tuple[PlacedRun, ...]:
    """Return ``title`` set large in the upper part of ``panel`` and ``lines`` smaller below it.

    Each line has its own part of the height. Raises FontError for a bad font.
    """
    if not lines:
        return set_large(title, panel, font, fallbacks)
    share = max(TITLE_SHARE, 1.0 - 0.16 * len(lines)) if len(lines) < 4 else 0.4
    upper = Size(panel.width, share * panel.height)
    each = Size(panel.width, (panel.height - upper.height) / len(lines))
    headed = set_large(title, upper, font, fallbacks)
    most = max((one.run.size for one in headed), default=LARGE.largest)
    style = msgspec.structs.replace(BESIDE, largest=min(BESIDE.largest, 0.7 * most))
    placed = [one._replace(y=one.y + panel.height - upper.height) for one in headed]
    for row, text in enumerate(lines, start=1):
        up = panel.height - upper.height - row * each.height
        placed += [
            one._replace(y=one.y + up) for one in set_large(text, each, font, fallbacks, style)
        ]
    return tuple(placed)


def set_large(
    text: str,
    panel: Size,
    font: FontRef,
    fallbacks: tuple[FontRef, ...] = (),
    style: TypeStyle = LARGE,
) -> tuple[PlacedRun, ...]:
    """Return ``text`` at the largest size that fits the safe area of ``panel``, centred.

    ``panel`` is in its reading frame, in mm; what ``font`` lacks comes from ``fallbacks``. Lines
    end where UAX #14 allows. Nothing comes of no text. Raises FontError for a bad font.
    """
    text = tidy(text)
    if not text:
        return ()
    style = msgspec.structs.replace(style, fallbacks=fallbacks)
    setter = compositor_for((text,), font, style)
    spots = (0, *breaks(text), len(text))

    @cache
    def line(begin: int, end: int) -> tuple[float, str]:
        words = text[spots[begin] : spots[end]].strip()
        return setter.ink(words).width, words

    ways = (_broken(len(spots) - 1, count, line) for count in range(1, MOST_LINES + 1))
    lines = max(filter(None, ways), key=lambda lines: setter.size(lines, panel))
    return lay(lines, setter.size(lines, panel), panel, font, style)


def _broken(
    last: int, count: int, line: Callable[[int, int], tuple[float, str]]
) -> tuple[str, ...] | None:
    """Return a text on so many lines, the longest as short as can be; None if it cannot be.

    It can be broken at places numbered from 0 to ``last``; ``line`` gives the width and the words
    from one to another.
    """
    if count > last:
        return None

    @cache
    def best(begin: int, left: int) -> tuple[float, tuple[str, ...]]:
        if left == 1:
            width, rest = line(begin, last)
            return width, (rest,)
        found: tuple[float, tuple[str, ...]] = (inf, ())
        for end in range(begin + 1, last - left + 2):
            width, first = line(begin, end)
            if width > found[0]:  # with more words it gets no shorter
                break
            longest, others = best(end, left - 1)
            found = min(found, (max(width, longest), (first, *others)))
        return found

    return best(0, count)[1]
