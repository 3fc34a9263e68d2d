"""What a fit does to a picture, in a person's words: 'straightened by 1.2°, crops 11 % left'."""

from __future__ import annotations

from typing import NamedTuple

from engine.artwork.windows import FRONT, PixelRect
from engine.model import Art, Fit, Loss, Picture, Trim

SEEN = 0.005
"""Shares below this are not worth a word: half a percent."""


class Laying(NamedTuple):
    """A part of a picture on a panel."""

    part: str
    whole: PixelRect
    """The part, in pixels."""
    shown: PixelRect
    """What of it covers the panel."""
    loss: Loss
    taller: bool
    """Whether a stretch draws it taller rather than wider."""


def describe(picture: Picture, art: Art, laying: Laying) -> str:
    """Return one line on how ``art`` lays ``picture`` on its panel."""
    steps = (
        _turned(art),
        _trimmed(picture, art),
        f"{laying.part or FRONT} of the scan" if art.split else "",
        _laid(art, laying),
    )
    return ", ".join(step for step in steps if step)


def _turned(art: Art) -> str:
    return f"straightened by {abs(art.turn):.1f}°" if abs(art.turn) >= 0.05 else ""


def _trimmed(picture: Picture, art: Art) -> str:
    if art.trim in picture.bars:
        return f"{_which_bar(picture.trim, art.trim)} trimmed"
    return "border trimmed" if max(art.trim) >= SEEN else ""


def _which_bar(border: Trim, bar: Trim) -> str:
    side = max(Trim._fields, key=lambda name: getattr(bar, name) - getattr(border, name))
    return {"top": "top banner", "bottom": "bottom banner"}.get(side, f"{side} bar")


def _laid(art: Art, laying: Laying) -> str:
    loss = laying.loss
    if art.band:
        where = "below" if art.band > 0.0 else "beside"
        crops = loss.cropped >= SEEN
        cropped = f"crops {_cropped(laying.whole, laying.shown)}" if crops else "whole"
        return f"{cropped}, the title {where} it"
    if art.fit is Fit.PIXELS:
        return f"dot for dot, {_percent(loss.empty)} of the panel is matte"
    if max(loss.distortion, loss.cropped, loss.empty) < SEEN:
        return "fits as it is"
    if loss.cropped >= SEEN:
        return f"crops {_cropped(laying.whole, laying.shown)}"
    if loss.empty >= SEEN:
        return f"whole, {_percent(loss.empty)} of the panel is matte"
    way = "taller" if laying.taller else "wider"
    return f"stretched {_percent(loss.distortion)} {way}"


def _cropped(whole: PixelRect, shown: PixelRect) -> str:
    across, down = whole.width - shown.width, whole.height - shown.height
    if across / whole.width > down / whole.height:
        return _two_sides("left", shown.left / whole.width, "right", 1 - shown.right / whole.width)
    return _two_sides("top", shown.top / whole.height, "bottom", 1 - shown.bottom / whole.height)


def _two_sides(one: str, share: float, other: str, rest: float) -> str:
    if rest < SEEN:
        return f"{_percent(share)} {one}"
    if share < SEEN:
        return f"{_percent(rest)} {other}"
    if abs(share - rest) < SEEN:
        return f"{_percent(share + rest)}, half {one}, half {other}"
    return f"{_percent(share)} {one}, {_percent(rest)} {other}"


def _percent(share: float) -> str:
    return f"{share * 100:.0f} %"
