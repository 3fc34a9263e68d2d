"""What a picture says and shows, as it was read once."""

from __future__ import annotations

from engine.model.base import Value

BINS = 24
"""Parts into which a picture is divided each way, to tell where it draws the eye."""


class TextLine(Value, frozen=True):
    """A line of lettering in a picture. Its box is in fractions of the picture, from top left."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    upright: bool = False
    """It runs up or down the picture."""
    sure: float = 1.0
    """How sure the reader is of the text, 0 to 1; of the box it is sure."""


class Reading(Value, frozen=True):
    """What a picture says and shows."""

    lines: tuple[TextLine, ...] = ()
    across: tuple[int, ...] = ()
    """How much draws the eye in each of ``BINS`` columns, left to right, in thousandths."""
    down: tuple[int, ...] = ()
    """The same in rows, from the top."""
    faces: tuple[tuple[float, float, float, float], ...] = ()
    """Faces: left, top, right and bottom, in fractions of the picture."""
    round: float = 0.0
    """How much of the picture are circles, faces among them, 0 to 1: what stretching spoils."""
    failed: bool = False
    """It could not be read: nothing is known of what it says and shows."""
