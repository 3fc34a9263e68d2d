"""Dielines read back from files, each by a reader that had no hand in writing them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from io import BytesIO
from itertools import pairwise
from typing import NamedTuple
from xml.etree import ElementTree as ET

import pdfplumber

Point = tuple[float, float]
SVG = "{http://www.w3.org/2000/svg}"
MM_PER_POINT = 25.4 / 72  # ISO 32000-1, 8.3.2.3

# Each built-in kind on card of 0.25 mm, worked out by hand: the sizes from score to score and
# cut to cut, from left to right and from foot to head. Snap shells: the inside less 0.5 mm
# clearance, less 0.125 mm (half a caliper) at the score. The others are the finished sizes
# that are customary for their cases; 6 mm lie between pieces.
FLAT: dict[str, tuple[tuple[float, ...], tuple[float, ...]]] = {
    "snap-shell": ((63.375, 9.375), (71.375, 9.375)),
    "snap-shell-low": ((63.375, 9.375), (40.375, 9.375)),
    "snap-shell-card": ((37.375, 5.375), (39.375, 5.375)),
    "soft-cassette": ((67.5, 14.0, 67.5), (107.0,)),
    "soft-cassette-clips": ((67.5, 14.0, 67.5), (107.0,)),
    "soft-cassette-pieces": ((67.5, 6.0, 14.0, 6.0, 67.5), (107.0,)),
    "hard-cassette": ((16.0, 12.7, 65.0), (101.5,)),
    "hard-cassette-full": ((65.0, 12.7, 65.0), (101.5,)),
    "jewel-tray": ((6.5, 138.0, 6.5), (118.0,)),
    "jewel-front": ((120.0,), (120.0,)),
    "jewel-slim": ((120.0,), (120.0,)),
    "keep-case": ((129.5, 14.0, 129.5), (184.0,)),
    "keep-case-slim": ((129.5, 7.0, 129.5), (184.0,)),
    "keep-case-short": ((129.5, 13.0, 129.5), (165.5,)),
    "edge-label": ((8.0,), (65.0,)),
    "cartridge-label": ((41.5,), (36.5,)),
    "divider": ((65.875, 5.875), (79.875, 5.875)),
    "shelf-label": ((120.0,), (16.0,)),
}


class Dieline(NamedTuple):
    """What a file says is cut and scored, in mm."""

    cut: list[list[Point]]
    scores: list[tuple[Point, Point]]

    def sizes(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """The stretches between cuts and scores, across and up."""
        return self._along(0), self._along(1)

    def _along(self, axis: int) -> tuple[float, ...]:
        ends = [end(spot[axis] for spot in ring) for ring in self.cut for end in (min, max)]
        ends += [spot[axis] for score in self.scores for spot in score]
        places = sorted(ends)
        distinct = places[:1] + [b for a, b in pairwise(places) if b - a > 0.01]
        return tuple(b - a for a, b in pairwise(distinct))


def from_svg(data: bytes) -> Dieline:
    """Read with ElementTree; lengths by the picture's own width in mm and view box."""
    root = ET.fromstring(data)  # noqa: S314 - the file is our own
    width = float(re.fullmatch(r"([\d.]+)mm", root.attrib["width"])[1])  # type: ignore[index]
    box = [float(n) for n in root.attrib["viewBox"].split()]
    unit, high = width / box[2], float(root.attrib["height"].removesuffix("mm"))
    groups = {group.attrib["id"]: group for group in root.iter(f"{SVG}g")}
    cut = [
        [(float(x) * unit, high - float(y) * unit) for x, y in re.findall(r"([\d.]+) ([\d.]+)", p)]
        for path in groups["cut"].iter(f"{SVG}path")
        for p in path.attrib["d"].split("Z")
        if p
    ]
    scores = [
        (
            (float(at["x1"]) * unit, high - float(at["y1"]) * unit),
            (float(at["x2"]) * unit, high - float(at["y2"]) * unit),
        )
        for at in (line.attrib for name in ("score",) if name in groups for line in groups[name])
    ]
    return Dieline(cut, scores)


def tags(data: bytes) -> Iterable[tuple[int, str]]:
    """The group codes and values of a DXF file, by its reference two lines each."""
    lines = data.decode().splitlines()
    return zip(map(int, lines[0::2]), (value.strip() for value in lines[1::2]), strict=True)


def from_dxf(data: bytes) -> Dieline:
    """Read the group codes one by one; coordinates by the drawing's units."""
    found = list(tags(data))
    # DXF reference: the value after $INSUNITS has group code 70, and 4 is millimetres.
    assert found[found.index((9, "$INSUNITS")) + 1] == (70, "4")
    cut, scores = [], []
    for entity in entities(found[found.index((2, "ENTITIES")) :]):
        kind, layer = entity[0][1], dict(entity).get(8)
        xs = [float(value) for code, value in entity if code in (10, 11)]
        ys = [float(value) for code, value in entity if code in (20, 21)]
        spots = list(zip(xs, ys, strict=True))
        if layer == "CUT":
            assert (kind, int(dict(entity)[70]) & 1) == ("LWPOLYLINE", 1)  # closed
            cut.append(spots)
        elif layer == "SCORE":
            assert kind == "LINE"
            scores.append((spots[0], spots[1]))
    return Dieline(cut, scores)


def entities(found: list[tuple[int, str]]) -> Iterable[list[tuple[int, str]]]:
    """The entities of a section: each begins with group code 0, the section ends with one."""
    starts = [i for i, (code, _) in enumerate(found) if code == 0]
    for start, end in pairwise(starts):
        if found[start][1] == "ENDSEC":
            return
        yield found[start:end]


def from_pdf(data: bytes) -> Dieline:
    """Read with pdfplumber: black outlines are cut, dashed lines scored."""
    with pdfplumber.open(BytesIO(data)) as document:
        page = document.pages[0]
        closed = [*page.rects, *page.curves]
        cut = [_up(outline["pts"], page.height) for outline in closed if outline["stroke"]]
        scores = [
            (ends[0], ends[1])
            for line in page.lines
            if line["dash"]
            for ends in [_up(line["pts"], page.height)]
        ]
    return Dieline(cut, scores)


def _up(points: Iterable[Point], height: float) -> list[Point]:
    return [(x * MM_PER_POINT, (float(height) - y) * MM_PER_POINT) for x, y in points]


READERS: dict[str, Callable[[bytes], Dieline]] = {
    ".svg": from_svg,
    ".dxf": from_dxf,
    ".pdf": from_pdf,
}
