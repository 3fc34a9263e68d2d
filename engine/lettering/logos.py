"""A title logo on an edge in place of the title: its letters judged like type."""

from __future__ import annotations

from enum import StrEnum

import msgspec

from engine.lettering.furniture import mark_area, safe_area
from engine.lettering.legibility import reading_distance
from engine.lettering.setting import Setting, propose_title
from engine.lettering.style import STYLE, TypeStyle
from engine.model import End, FontRef, Rect, Size, Value

_BESIDE = 1 / 3
"""A logo beside its title may take at most this part of the safe area's length."""
_LOSS = 0.8
"""... and the title must still read from this part of the distance it reads from alone."""


class Show(StrEnum):
    """What an edge shows."""

    LOGO = "logo"
    TITLE = "title"
    BOTH = "logo and title"


class LogoSetting(Value, frozen=True):
    """What is proposed for an edge whose game has a logo."""

    show: Show
    height: float
    """Of the logo's letters at the size it would have alone, in mm."""
    reads_at: float
    """The farthest distance from which they read, in mm."""
    words: str
    """What a person should know, a sentence."""
    logo: Rect | None
    """Where the logo stands, whole, in the edge's reading frame; None where it is not shown."""
    title: Setting | None
    style: TypeStyle
    """The style to lay the title with: it keeps the logo's room."""


def letters_share(pixels: Size) -> float:
    """Return the part of a logo's height that one row of its letters takes: an estimate.

    A wide logo has one row of letters, a squarish one two or three and ornament (ours, no
    published source). A person who measures it says better.
    """
    shape = pixels.width / pixels.height
    rows = 1 if shape >= 4 else 2 if shape >= 2 else 3
    return 0.7 / rows


def logo_height(
    pixels: Size, edge: Size, style: TypeStyle = STYLE, share: float | None = None
) -> float:
    """Return how high the letters of a logo are that fills the safe area of ``edge``, in mm."""
    place = fitted(pixels, safe_area(edge, style.furniture))
    return place.height * (letters_share(pixels) if share is None else share)


def propose_logo(
    title: str,
    pixels: Size,
    edge: Size,
    font: FontRef,
    style: TypeStyle = STYLE,
    *,
    share: float | None = None,
    alone: bool = False,
) -> LogoSetting:
    """Return whether a logo of ``pixels`` stands on ``edge`` alone, beside its title or not at all.

    ``share`` is the part of its height that its letters take, where a person measured it.
    A logo that would not read from the style's distance gives way to the title, with the
    logo beside it where there is room, unless it is wanted ``alone`` all the same. Raises
    FontError for a bad font.
    """
    place = fitted(pixels, safe_area(edge, style.furniture))
    height = logo_height(pixels, edge, style, share)
    reads_at = reading_distance(height)
    if alone or reads_at >= style.distance:
        words = f"The logo's letters are {height:.1f} mm high and read from {reads_at / 10:.0f} cm."
        return LogoSetting(Show.LOGO, height, reads_at, words, place, None, style)
    words = (
        f"The logo's letters would be {height:.1f} mm high and read from only"
        f" {reads_at / 10:.0f} cm."
    )
    text = propose_title(title, edge, font, style)
    beside, narrower = _beside(title, pixels, edge, font, style)
    if beside is not None and beside.fits and beside.reads_at >= _LOSS * text.reads_at:
        logo = fitted(pixels, mark_area(edge, narrower.furniture))
        return LogoSetting(Show.BOTH, height, reads_at, words, logo, beside, narrower)
    return LogoSetting(Show.TITLE, height, reads_at, words, None, text, style)


def _beside(
    title: str, pixels: Size, edge: Size, font: FontRef, style: TypeStyle
) -> tuple[Setting | None, TypeStyle]:
    """Return the title set beside the logo, and the style that keeps its room."""
    area = safe_area(edge, style.furniture)
    width = area.height * pixels.width / pixels.height
    if style.furniture.mark or width > area.width * _BESIDE:
        return None, style
    kept = msgspec.structs.replace(style.furniture, mark=width, mark_end=End.HEAD)
    narrower = msgspec.structs.replace(style, furniture=kept)
    return propose_title(title, edge, font, narrower), narrower


def fitted(pixels: Size, area: Rect) -> Rect:
    """Return the largest rectangle of the picture's shape in the middle of ``area``."""
    scale = min(area.width / pixels.width, area.height / pixels.height)
    width, height = pixels.width * scale, pixels.height * scale
    return Rect(
        area.x + (area.width - width) / 2, area.y + (area.height - height) / 2, width, height
    )
