"""Real photographs: those inside scikit-image's wheel, more from a folder, cut and toned.

``subjects.csv`` tells by the file's SHA-256 which show something that must not be lost, and
where. Of the wheel only those that the table names are used; of a folder all are.
"""

from __future__ import annotations

import csv
from functools import cache
from hashlib import sha256
from pathlib import Path
from random import Random
from typing import NamedTuple

import skimage.data
from PIL import Image, ImageEnhance, ImageOps

from engine.artwork.windows import PixelRect
from tests.bench.blind.truth import Subject, corners

WHEEL = Path(skimage.data.__file__).parent
LONGEST = 1600
"""Pixels of the longer side that a photograph is kept with."""
SUFFIXES = {".jpg", ".jpeg", ".png"}
AIR = 0.03
"""Part of the scene that stays around a subject."""


class Photograph(NamedTuple):
    """A photograph, and what it shows."""

    path: Path
    what: str = ""
    kind: str = ""
    box: tuple[float, float, float, float] | None = None
    """Where that is, as fractions from the upper left; None where there is nothing to lose."""

    @property
    def image(self) -> Image.Image:
        """The photograph, as RGB."""
        return _opened(self.path)


class Scene(NamedTuple):
    """A part of a photograph, and the subject in it."""

    image: Image.Image
    subject: Subject | None


class Album(NamedTuple):
    """All photographs there are."""

    shown: tuple[Photograph, ...]
    """Those with a subject."""
    ground: tuple[Photograph, ...]
    """Those without."""

    def scene(
        self, dice: Random, size: tuple[int, int], subject: str = "", *, busy: bool = False
    ) -> Scene:
        """Return a part of some photograph at ``size`` pixels.

        ``subject`` is "" for none, "anywhere", or "off" to have it as near to a rim as it can be.
        """
        while subject:
            photograph = dice.choice(self.shown)
            room = _room(photograph, size, dice.uniform(0.72, 1.0))
            if room is not None:
                return _toned(dice, _shown(dice, photograph, size, room, off=subject == "off"))
        rough = [one for one in self.ground if one.what in ROUGH] if busy else []
        photograph = dice.choice(rough or self.ground)
        return _toned(dice, Scene(_anywhere(dice, photograph.image, size), None))


ROUGH = {"bricks", "grass", "gravel", "coins", "tissue"}
"""What lettering is hardest to read on."""


def album(folder: Path | None = None) -> Album:
    """Return the photographs of the wheel and of a folder and those below it."""
    known = _table()
    wheel = [path for path in sorted(WHEEL.iterdir()) if path.suffix in SUFFIXES]
    found = [known[key]._replace(path=path) for path in wheel if (key := _key(path)) in known]
    if folder is not None:
        more = sorted(path for path in folder.rglob("*") if path.suffix.lower() in SUFFIXES)
        found += [known.get(_key(path), Photograph(path))._replace(path=path) for path in more]
    return Album(
        shown=tuple(one for one in found if one.box is not None),
        ground=tuple(one for one in found if one.box is None),
    )


def _table() -> dict[str, Photograph]:
    text = Path(__file__).with_name("subjects.csv").read_text(encoding="utf-8")
    table = {}
    for row in csv.DictReader(text.splitlines()):
        sides = [row[side] for side in ("left", "top", "right", "bottom")]
        box = tuple(map(float, sides)) if row["kind"] else None
        table[row["picture"]] = Photograph(Path(), row["what"], row["kind"], box)  # type: ignore[arg-type]
    return table


def _key(path: Path) -> str:
    return sha256(path.read_bytes()).hexdigest()[:16]


@cache
def _opened(path: Path) -> Image.Image:
    with Image.open(path) as file:
        file.draft("RGB", (LONGEST, LONGEST))
        image = file.convert("RGB")
    image.thumbnail((LONGEST, LONGEST))
    return image


class _Room(NamedTuple):
    """A window of one size, and between what it can lie, in pixels of the photograph."""

    width: float
    height: float
    across: tuple[float, float]
    down: tuple[float, float]


def _room(photograph: Photograph, size: tuple[int, int], zoom: float) -> _Room | None:
    """Return where a window may lie so that the whole subject is in it; None for nowhere."""
    whole, box = photograph.image.size, photograph.box
    assert box is not None
    width = zoom * min(whole[0], whole[1] * size[0] / size[1])
    height = width * size[1] / size[0]
    left, top, right, bottom = (side * whole[n % 2] for n, side in enumerate(box))
    across = (max(0.0, right + AIR * width - width), min(left - AIR * width, whole[0] - width))
    down = (max(0.0, bottom + AIR * height - height), min(top - AIR * height, whole[1] - height))
    if across[0] > across[1] or down[0] > down[1]:
        return None
    return _Room(width, height, across, down)


def _shown(
    dice: Random, photograph: Photograph, size: tuple[int, int], room: _Room, *, off: bool
) -> Scene:
    whole, box = photograph.image.size, photograph.box
    assert box is not None
    x, y = dice.uniform(*room.across), dice.uniform(*room.down)
    if off:
        slack = (room.across[1] - room.across[0], room.down[1] - room.down[0])
        if slack[0] >= slack[1]:
            x = dice.choice(room.across)
        else:
            y = dice.choice(room.down)
    part = photograph.image.resize(
        size, Image.Resampling.BICUBIC, (x, y, x + room.width, y + room.height)
    )
    scale = size[0] / room.width
    left, top, right, bottom = (
        (side * whole[n % 2] - (x, y)[n % 2]) * scale for n, side in enumerate(box)
    )
    return Scene(
        part,
        Subject(photograph.what, photograph.kind, corners(PixelRect(left, top, right, bottom))),
    )


def _anywhere(dice: Random, image: Image.Image, size: tuple[int, int]) -> Image.Image:
    width = dice.uniform(0.6, 1.0) * min(image.width, image.height * size[0] / size[1])
    height = width * size[1] / size[0]
    x, y = dice.uniform(0, image.width - width), dice.uniform(0, image.height - height)
    return image.resize(size, Image.Resampling.BICUBIC, (x, y, x + width, y + height))


def _toned(dice: Random, scene: Scene) -> Scene:
    """Return the scene mirrored or not, its colours and light moved."""
    image, subject = scene
    if dice.random() < 0.5:
        image = ImageOps.mirror(image)
        if subject is not None:
            (left, top), _, (right, bottom), _ = subject.quad
            box = PixelRect(image.width - right, top, image.width - left, bottom)
            subject = Subject(subject.what, subject.kind, corners(box))
    grey = ImageOps.grayscale(image)
    if dice.random() < 0.35 or _is_grey(image):
        image = ImageOps.colorize(grey, _dark(dice), _light(dice), mid=_between(dice))
    elif dice.random() < 0.4:
        hue, saturation, value = image.convert("HSV").split()
        by = dice.randrange(256)
        hue = hue.point(lambda level: (level + by) % 256)
        image = Image.merge("HSV", (hue, saturation, value)).convert("RGB")
    image = ImageEnhance.Brightness(image).enhance(dice.uniform(0.75, 1.2))
    return Scene(ImageEnhance.Contrast(image).enhance(dice.uniform(0.8, 1.25)), subject)


def _is_grey(image: Image.Image) -> bool:
    small = image.resize((24, 24)).convert("HSV").getchannel("S")
    return max(small.tobytes()) < 24


def _dark(dice: Random) -> tuple[int, int, int]:
    return dice.randrange(50), dice.randrange(50), dice.randrange(70)


def _between(dice: Random) -> tuple[int, int, int]:
    return dice.randint(60, 200), dice.randint(60, 200), dice.randint(60, 200)


def _light(dice: Random) -> tuple[int, int, int]:
    return dice.randint(190, 255), dice.randint(190, 255), dice.randint(170, 255)
