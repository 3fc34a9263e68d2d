"""Which side of a game a picture shows, told from its name, its shape and its words."""

from __future__ import annotations

from collections.abc import Sequence

from engine.intake.readings import NameReading
from engine.intake.remarks import role_said
from engine.intake.saying import Shown
from engine.model import PictureRole
from engine.model.reading import Reading

NARROW = 5.0
"""A picture so many times longer than wide is a spine: fronts of tall cases reach 3."""
BLURB = 8, 120
"""Lines and letters of a back's small print; what is told of a cover's front is less."""


def side_named(ways: Sequence[NameReading]) -> PictureRole | None:
    """Return the side that a file's name speaks of in one of the ways to read it, if any does."""
    return next(filter(None, (role_said(way.remarks) for way in ways)), None)


def side_of(named: PictureRole | None, shown: Shown | None) -> PictureRole:
    """Return which side a picture shows, ``named`` the one that its name speaks of.

    The name knows it best, but 'cover' may be said of the whole flat cover as well.
    """
    if named is not None and named is not PictureRole.FRONT:
        return named
    if shown is not None and shown.split:
        return PictureRole.WRAP
    return named or (_side_shown(shown) if shown else PictureRole.FRONT)


def _side_shown(shown: Shown) -> PictureRole:
    if shown.dot:
        return PictureRole.SCREEN
    long, short = max(shown.width, shown.height), min(shown.width, shown.height)
    if long > NARROW * short:
        return PictureRole.SPINE
    return PictureRole.BACK if _has_blurb(shown.reading) else PictureRole.FRONT


def _has_blurb(reading: Reading | None) -> bool:
    lines, letters = BLURB
    texts = [line.text for line in reading.lines] if reading else []
    return len(texts) >= lines and sum(map(len, texts)) >= letters
