"""Reading pictures, each once, in worker processes that leave a core to the person."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from engine.model.errors import PictureError
from engine.model.reading import Reading
from engine.model.waiting import Cancel
from engine.workers import Asked, Job, Pool, Reason, usable_cores
from engine.workers.limits import GIGABYTE, READING
from engine.workers.serving import within

NEEDED = ("rapidocr", "onnxruntime", "cv2")


def can_read() -> bool:
    """Return whether what reads pictures is installed."""
    return all(find_spec(name) is not None for name in NEEDED)


def read_all(
    paths: Mapping[str, Path], cancel: Cancel | None = None
) -> Iterator[tuple[str, Reading | PictureError]]:
    """Yield what each picture says and shows, or why it cannot be read, in their order.

    ``paths`` are by a name that is used in messages. Raises Cancelled when ``cancel`` says so;
    what was yielded before is done.
    """
    asked = [Asked(name, (os.fsencode(path.absolute()),)) for name, path in paths.items()]
    return zip(paths, _readers().each(asked, cancel), strict=True)


@cache
def _readers() -> Pool[Reading, PictureError]:
    most = max(1, usable_cores() - 1)
    return Pool(Job(f"{__name__}:read", Reading, READING, PictureError, _refusal), most)


def _refusal(name: str, reason: Reason) -> PictureError:
    return PictureError(name, f"cannot be read: {reason}", "It is fitted without being read")


def read(path: bytes) -> Reading:
    """Return what a picture says and shows, its lines from the top down. For workers.

    Raises PictureError.
    """
    import cv2
    import numpy as np

    from engine.artwork.opening import open_wholly
    from engine.reading import lettering, rounds, subject

    with within(GIGABYTE):
        image = open_wholly(Path(os.fsdecode(path)), enough=lettering.SIDE).image
    image.thumbnail((lettering.SIDE, lettering.SIDE), reducing_gap=3.0)
    pixels = np.asarray(image.convert("RGB"))
    lines = lettering.find_lines(pixels)
    boxes = [(line.left, line.top, line.right, line.bottom) for line in lines]
    across, down = subject.profiles(subject.find_interest(image, boxes))
    scale = rounds.SIDE / max(image.size)
    size = max(1, round(image.width * scale)), max(1, round(image.height * scale))
    small = cv2.resize(pixels, size, interpolation=cv2.INTER_AREA)
    grey = np.asarray(cv2.cvtColor(small, cv2.COLOR_RGB2GRAY), dtype=np.uint8)
    faces = rounds.find_faces(grey)
    return Reading(
        lines=lines,
        across=across,
        down=down,
        faces=faces,
        round=rounds.roundness(faces, rounds.find_circles(grey)),
    )
