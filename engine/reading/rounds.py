"""What stretching spoils: circles and faces."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Grey = NDArray[np.uint8]

Box = tuple[float, float, float, float]
"""Left, top, right and bottom, in fractions of the picture."""

SIDE = 320
"""Pixels on the longer side of what is looked at."""

LEAST_FACE = 0.08
"""Of the shorter side: smaller faces are not what a picture is about."""


def find_faces(grey: Grey) -> tuple[Box, ...]:
    """Return the faces that look out of a picture, largest first.

    The cascade of OpenCV for faces seen from the front (Viola and Jones 2001), asked to be sure.
    """
    import cv2
    from cv2.data import haarcascades

    cascade = cv2.CascadeClassifier(haarcascades + "haarcascade_frontalface_alt2.xml")
    least = max(20, round(LEAST_FACE * min(grey.shape)))
    found = cascade.detectMultiScale(grey, 1.1, 6, minSize=(least, least))
    boxes = (_box(x, y, x + w, y + h, grey) for x, y, w, h in found)
    return tuple(sorted(boxes, key=_area, reverse=True))


def find_circles(grey: Grey) -> tuple[Box, ...]:
    """Return the circles of a picture that are drawn clearly (Hough's transform, gradients)."""
    import cv2

    side = min(grey.shape)
    calm = cv2.medianBlur(grey, 5)
    found = cv2.HoughCircles(
        calm,
        cv2.HOUGH_GRADIENT_ALT,
        dp=1,
        minDist=side / 6,
        param1=100,
        param2=0.9,
        minRadius=side // 12,
        maxRadius=side // 2,
    )
    if found is None:
        return ()
    return tuple(_box(x - r, y - r, x + r, y + r, grey) for x, y, r in found[0])


def roundness(faces: tuple[Box, ...], circles: tuple[Box, ...]) -> float:
    """Return how much of a picture faces and circles take, 0 to 1."""
    return round(min(1.0, sum(map(_area, (*faces, *circles)))), 3)


def _box(left: float, top: float, right: float, bottom: float, grey: Grey) -> Box:
    """Return a box in pixels as fractions."""
    height, width = grey.shape
    return (
        round(float(left) / width, 3),
        round(float(top) / height, 3),
        round(float(right) / width, 3),
        round(float(bottom) / height, 3),
    )


def _area(box: Box) -> float:
    left, top, right, bottom = box
    return max(0.0, right - left) * max(0.0, bottom - top)
