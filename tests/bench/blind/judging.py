"""What a careful person would not leave as it is: the aspects, and from where each counts.

An aspect takes what is seen of a cover and yields a few words for each fault it finds. A proposal
is right where none finds any.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from enum import StrEnum
from typing import NamedTuple

from engine.artwork.windows import BACK, FRONT, SPINE, PixelRect, part_of
from engine.model import Art
from tests.bench.blind.printed import View, area, overlap
from tests.bench.blind.truth import (
    SIDES,
    Bar,
    Cover,
    Line,
    Quad,
    around,
    middle,
    straight,
)

CLEAR = 1.0
"""mm from a cut that lettering needs, where it has more in the picture itself."""
OWN = 0.85
"""Or this part of what it has there: who shows a cover whole has not cut it."""
SLIVER = 0.15
"""mm: less is not seen, and is the width of an edge in print."""
SUBJECT = 0.90
"""Part of the subject's box that has to be in sight."""
BORDER = 0.5
"""mm of border, scanner glass or a trimmed bar that may be left."""
BAR_LEFT = 0.35
"""A bar of which less than this part is left, without its lettering, was not meant to stay."""
FRAME_LEFT = 0.6
"""By how much the sides of a printed frame may differ in what is left of them."""
SKEW = 0.5
"""Degrees that a scan may still lie askew."""
TRIM = 0.02
"""Part of the art's side that a trim may cut off beyond the border, a bar or the frame."""
SPINE_SHOWN, PART_LOST = 1.0, 2.0
"""mm of the spine that a split may leave on the front or the back, or take off either."""
STRETCH, STRETCH_EXACT = 0.08, 0.04
"""How much longer one side may be drawn; and with a face or something round in sight."""
EMPTY = 0.10
"""Part of the panel that may show no picture, where the picture could have filled it."""


class Sight(NamedTuple):
    """A cover as a proposal would print it."""

    cover: Cover
    source: str | None
    """The file name of the picture that was proposed."""
    art: Art
    views: tuple[View, ...]
    titled: bool
    """Whether an edge of the insert says the title."""

    def box(self, quad: Quad) -> PixelRect:
        """Return the upright box around a quad in the straightened picture."""
        return around(straight(quad, self.art.turn, self.cover.size))

    @property
    def whole(self) -> PixelRect:
        """Return the box of the art, border and glass off, in the straightened picture."""
        return middle(straight(self.cover.art, self.art.turn, self.cover.size))

    def home(self, part: str) -> PixelRect:
        """Return the box of that part of the art; of all of it where there are no parts."""
        left, top, right, bottom = self.whole
        if self.cover.split is None or not part:
            return self.whole
        first, second = (left + cut * (right - left) for cut in self.cover.split)
        starts, ends = {BACK: (left, first), SPINE: (first, second), FRONT: (second, right)}[part]
        return PixelRect(starts, top, ends, bottom)


class Fault(NamedTuple):
    """What is wrong with a proposal."""

    aspect: str
    words: str


class Standing(StrEnum):
    """How a line of lettering came out."""

    WHOLE = "whole"
    CUT = "cut"
    GONE = "gone"


def standing(line: Line, sight: Sight) -> tuple[Standing, str]:
    """Return how a line came out, and where it is cut."""
    box, home = sight.box(line.quad), sight.home(line.part)
    found = [_standing(box, home, view) for view in sight.views]
    for wanted in (Standing.CUT, Standing.WHOLE):
        for how, where in found:
            if how is wanted:
                return how, where
    return Standing.GONE, ""


def _standing(box: PixelRect, home: PixelRect, view: View) -> tuple[Standing, str]:
    scales = (view.across, view.down, view.across, view.down)
    common = overlap(box, view.seen)
    if common.width <= SLIVER * view.across or common.height <= SLIVER * view.down:
        return Standing.GONE, ""
    have = [inner / scale for inner, scale in zip(_margins(box, view.seen), scales, strict=True)]
    own = [inner / scale for inner, scale in zip(_margins(box, home), scales, strict=True)]
    for side, there, once in zip(SIDES, have, own, strict=True):
        if there < -SLIVER:
            return Standing.CUT, f"{-there:.1f} mm off at the {side} of the {view.panel}"
        if there < min(CLEAR, OWN * once) - SLIVER:
            return Standing.CUT, f"{there:.1f} mm from the {side} of the {view.panel}"
    return Standing.WHOLE, ""


def _margins(inner: PixelRect, outer: PixelRect) -> tuple[float, float, float, float]:
    return (
        inner.left - outer.left,
        inner.top - outer.top,
        outer.right - inner.right,
        outer.bottom - inner.bottom,
    )


# --- The aspects -------------------------------------------------------------------------


def wrong_picture(sight: Sight) -> Iterator[str]:
    if sight.source != sight.cover.file:
        yield sight.source or "none"


def lettering_cut(sight: Sight) -> Iterator[str]:
    cuts = _cuts(sight)
    for line in sight.cover.lines:
        how, where = standing(line, sight)
        if how is Standing.CUT and not _straddles(sight.box(line.quad), cuts, sight):
            yield f"{line.role} “{line.text}” {where}"


def split_through_lettering(sight: Sight) -> Iterator[str]:
    cuts = _cuts(sight)
    for line in sight.cover.lines:
        if _straddles(sight.box(line.quad), cuts, sight):
            yield f"{line.role} “{line.text}”"


def _cuts(sight: Sight) -> tuple[float, ...]:
    """Return where the proposal splits, in pixels of the straightened picture."""
    if sight.art.split is None:
        return ()
    spine = part_of(sight.cover.size, sight.art, SPINE)
    return spine.left, spine.right


def _straddles(box: PixelRect, cuts: tuple[float, ...], sight: Sight) -> bool:
    room = SLIVER * sight.views[0].across if sight.views else 0.0
    return any(box.left + room < cut < box.right - room for cut in cuts)


def title_lost(sight: Sight) -> Iterator[str]:
    """A title may go only with the whole bar it stands on, and if an edge says it."""
    for line in sight.cover.title_lines:
        if standing(line, sight)[0] is Standing.GONE and not (line.on and sight.titled):
            said = "an edge says it" if sight.titled else "no edge says it"
            yield f"“{line.text}”, {said}"


def says_title(sight: Sight) -> bool:
    """Return whether the picture says the title as it is shown."""
    lines = sight.cover.title_lines
    return any(standing(line, sight)[0] is Standing.WHOLE for line in lines)


def subject_lost(sight: Sight) -> Iterator[str]:
    subject = sight.cover.subject
    if subject is None or not sight.views:
        return
    box = sight.box(subject.quad)
    part = max(area(overlap(box, view.seen)) / area(box) for view in sight.views)
    if part < SUBJECT:
        yield f"{part:.0%} of the {subject.what} in sight"


def plain_picture_split(sight: Sight) -> Iterator[str]:
    if sight.cover.split is None and sight.art.split is not None:
        yield "at {:.2f} and {:.2f}".format(*sight.art.split)


def wrap_not_split(sight: Sight) -> Iterator[str]:
    if sight.cover.split is not None and sight.art.split is None:
        yield "shown whole"


def split_beside_the_spine(sight: Sight) -> Iterator[str]:
    if sight.cover.split is None or sight.art.split is None:
        return
    spine = sight.home(SPINE)
    for view in sight.views:
        missed = {
            FRONT: (spine.right - view.taken.left) / view.across,
            BACK: (view.taken.right - spine.left) / view.across,
        }.get(view.part, 0.0)
        if missed > SPINE_SHOWN:
            yield f"{missed:.1f} mm of the spine on the {view.part}"
        if missed < -PART_LOST:
            yield f"{-missed:.1f} mm off the {view.part}"


def border_left(sight: Sight) -> Iterator[str]:
    for view in sight.views:
        beyond = _margins(sight.whole, view.seen)
        scales = (view.across, view.down, view.across, view.down)
        for side, pixels, scale in zip(SIDES, beyond, scales, strict=True):
            if pixels / scale > BORDER:
                yield f"{pixels / scale:.1f} mm at the {side} of the {view.panel}"


def bar_left(sight: Sight) -> Iterator[str]:
    for bar in sight.cover.bars:
        strip = _strip(sight.whole, bar)
        for view in sight.views:
            mm, share = _left_of(strip, bar.side, view)
            if mm > BORDER and share < BAR_LEFT:
                yield f"{mm:.1f} mm of the bar at the {bar.side}"


def frame_cut(sight: Sight) -> Iterator[str]:
    """A printed frame stays on all sides or goes from all. It may go before a bar, not after it."""
    frame = [Bar(*pair) for pair in zip(SIDES, sight.cover.frame, strict=True) if pair[1]]
    if not frame:
        return
    for view in sight.views:

        def left(bar: Bar, view: View = view) -> float:
            return _left_of(_strip(sight.whole, bar), bar.side, view)[1]

        sides = {bar.side: left(bar) for bar in frame}
        sides |= {bar.side: left(bar) for bar in sight.cover.bars if left(bar) < BAR_LEFT}
        if max(sides.values()) - min(sides.values()) > FRAME_LEFT:
            yield ", ".join(f"{share:.0%} {side}" for side, share in sides.items())


def _strip(whole: PixelRect, bar: Bar) -> PixelRect:
    left, top, right, bottom = whole
    across, down = bar.depth * whole.width, bar.depth * whole.height
    return {
        "left": PixelRect(left, top, left + across, bottom),
        "top": PixelRect(left, top, right, top + down),
        "right": PixelRect(right - across, top, right, bottom),
        "bottom": PixelRect(left, bottom - down, right, bottom),
    }[bar.side]


def _left_of(strip: PixelRect, side: str, view: View) -> tuple[float, float]:
    """Return how deep a strip along ``side`` is still seen, in mm and as a part of it."""
    seen = overlap(strip, view.seen)
    if side in {"left", "right"}:
        return seen.width / view.across, seen.width / strip.width
    return seen.height / view.down, seen.height / strip.height


def skew_left(sight: Sight) -> Iterator[str]:
    off = sight.cover.turn - sight.art.turn
    if abs(off) > SKEW:
        yield f"{off:+.1f}°"


def wrong_trim(sight: Sight) -> Iterator[str]:
    width, height = sight.cover.size
    trim = sight.art.trim
    kept = PixelRect(
        trim.left * width, trim.top * height, (1 - trim.right) * width, (1 - trim.bottom) * height
    )
    whole = sight.whole
    spans = (whole.width, whole.height, whole.width, whole.height)
    right = [{0.0, frame} for frame in sight.cover.frame]
    for bar in sight.cover.bars:
        right[SIDES.index(bar.side)].add(bar.depth)
    for side, pixels, span, depths in zip(SIDES, _margins(kept, whole), spans, right, strict=True):
        part = pixels / span
        if part > TRIM and min(abs(part - depth) for depth in depths) > TRIM:
            yield f"{part:.0%} of the art at the {side}"


def stretched(sight: Sight) -> Iterator[str]:
    subject = sight.cover.subject
    most = STRETCH_EXACT if subject is not None and subject.exact else STRETCH
    worst = max((view.stretch for view in sight.views), default=0.0)
    if worst > most:
        yield f"{worst:.0%}"


ASPECTS: Mapping[str, Callable[[Sight], Iterator[str]]] = {
    "wrong picture": wrong_picture,
    "lettering cut": lettering_cut,
    "title lost": title_lost,
    "subject lost": subject_lost,
    "split through lettering": split_through_lettering,
    "plain picture split": plain_picture_split,
    "wrap not split": wrap_not_split,
    "split beside the spine": split_beside_the_spine,
    "border left": border_left,
    "bar left in part": bar_left,
    "frame cut": frame_cut,
    "skew left": skew_left,
    "wrong trim": wrong_trim,
    "stretched": stretched,
}
"""By name: how its faults are found. What is empty without need is judged in ``better``."""


def faults(sight: Sight) -> tuple[Fault, ...]:
    """Return all that is wrong with a proposal, but for a matte without need."""
    return tuple(Fault(name, words) for name, found in ASPECTS.items() for words in found(sight))
