"""A cover while it is being drawn: what is done to the picture is done to the truth about it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import msgspec
from PIL import Image, ImageChops, ImageStat

from engine.artwork.windows import PixelRect
from tests.bench.blind.lettering import SEEN, Piece
from tests.bench.blind.photographs import Scene
from tests.bench.blind.printed import overlap, pixels
from tests.bench.blind.truth import (
    Bar,
    Cover,
    Edges,
    Line,
    Point,
    Quad,
    Role,
    Subject,
    corners,
    straight,
)

Placed = TypeVar("Placed", Line, Subject)


class Canvas:
    """A picture, the ink of its title alone, and the truth, kept in step."""

    def __init__(self, image: Image.Image, subject: Subject | None = None) -> None:
        self.image = image.convert("RGB")
        self.ink = Image.new("L", image.size)
        """The title's pixels, to be looked for in what is printed."""
        self.lines: list[Line] = []
        self.subject = subject
        self.art: Quad = corners(PixelRect(0.0, 0.0, image.width, image.height))
        self.turn = 0.0
        self.split: tuple[float, float] | None = None
        self.bars: list[Bar] = []
        self.frame = Edges()
        self.dot = 0

    @classmethod
    def of(cls, scene: Scene) -> Canvas:
        """Return a canvas with nothing on it but a photograph."""
        return cls(scene.image, scene.subject)

    @property
    def width(self) -> int:
        return self.image.width

    @property
    def height(self) -> int:
        return self.image.height

    def put(self, piece: Piece, at: Point, text: str, role: Role, on: str = "") -> PixelRect:
        """Draw a piece so that its ink begins at ``at``; return the box of the ink."""
        ink = piece.ink
        x, y = round(at[0] - ink.left), round(at[1] - ink.top)
        if piece.shadow is not None:
            self.image.paste(Image.new("RGB", piece.mask.size), (x, y), piece.shadow)
        self.image.paste(piece.colours, (x, y), piece.mask)
        if role is Role.TITLE:
            sole = Image.new("L", self.image.size)
            sole.paste(piece.mask.point(lambda level: 255 * (level >= SEEN)), (x, y))
            self.ink = ImageChops.lighter(self.ink, sole)
        box = PixelRect(x + ink.left, y + ink.top, x + ink.right, y + ink.bottom)
        assert overlap(box, PixelRect(0, 0, self.width, self.height)) == box, (text, box)
        self.lines.append(Line(text, role, corners(box), on))
        return box

    def lightness(self, box: PixelRect) -> tuple[float, float]:
        """Return the mean lightness of a box and its spread, 0 to 255."""
        area = self.image.crop(pixels(box)).convert("L")
        statistics = ImageStat.Stat(area)
        return statistics.mean[0], statistics.stddev[0]

    def paste(self, other: Canvas, at: tuple[int, int], part: str = "") -> None:
        """Lay another canvas onto this one, with its lines and its subject."""
        self.image.paste(other.image, at)
        self.ink.paste(other.ink, at)
        moved = other._truth_moved(lambda point: (point[0] + at[0], point[1] + at[1]))
        lines, subject, _ = moved
        self.lines += [msgspec.structs.replace(line, part=part or line.part) for line in lines]
        if subject is not None:
            self.subject = msgspec.structs.replace(subject, part=part or subject.part)

    def mount(self, ground: Image.Image, at: tuple[int, int]) -> None:
        """Lay all of it on a larger ``ground``: a border, or the glass of a scanner."""
        ground.paste(self.image, at)
        ink = Image.new("L", ground.size)
        ink.paste(self.ink, at)
        self.image, self.ink = ground, ink
        self._move(lambda point: (point[0] + at[0], point[1] + at[1]))

    def skew(self, turn: float, ground: str) -> None:
        """Turn all of it clockwise, so that ``turn`` degrees counter-clockwise straighten it."""
        size = self.image.size
        self.image = self.image.rotate(-turn, Image.Resampling.BICUBIC, fillcolor=ground)
        self.ink = self.ink.rotate(-turn, Image.Resampling.BICUBIC)
        self.turn = turn
        self.lines, self.subject, self.art = (
            [_with(line, straight(line.quad, -turn, size)) for line in self.lines],
            self.subject and _with(self.subject, straight(self.subject.quad, -turn, size)),
            straight(self.art, -turn, size),
        )

    def enlarge(self, factor: int) -> None:
        """Draw each pixel as a square of ``factor`` pixels: a screenshot."""
        size = (self.width * factor, self.height * factor)
        self.image = self.image.resize(size, Image.Resampling.NEAREST)
        self.ink = self.ink.resize(size, Image.Resampling.NEAREST)
        self._move(lambda point: (point[0] * factor, point[1] * factor))
        self.dot = factor

    def cover(self, sort: str, title: str, file: str) -> Cover:
        """Return the truth about the finished cover."""
        return Cover(
            sort=sort,
            title=title,
            file=file,
            size=self.image.size,
            lines=tuple(self.lines),
            subject=self.subject,
            art=self.art,
            turn=self.turn,
            split=self.split,
            bars=tuple(self.bars),
            frame=self.frame,
            dot=self.dot,
        )

    def _move(self, way: Callable[[Point], Point]) -> None:
        self.lines, self.subject, self.art = self._truth_moved(way)

    def _truth_moved(
        self, way: Callable[[Point], Point]
    ) -> tuple[list[Line], Subject | None, Quad]:
        lines = [_with(line, _moved(line.quad, way)) for line in self.lines]
        subject = self.subject and _with(self.subject, _moved(self.subject.quad, way))
        return lines, subject, _moved(self.art, way)


def _moved(quad: Quad, way: Callable[[Point], Point]) -> Quad:
    a, b, c, d = quad
    return way(a), way(b), way(c), way(d)


def _with(thing: Placed, quad: Quad) -> Placed:
    return msgspec.structs.replace(thing, quad=quad)
