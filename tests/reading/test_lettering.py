"""Covers drawn with a font that ships are read: the words, and where they were drawn.

What is expected is where Pillow says that it drew each line (``ImageDraw.textbbox``).
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFont

from engine.lettering.fonts import default_font
from engine.model import Reading, TextLine
from engine.model.errors import PictureError
from engine.reading import read_all
from engine.reading.lettering import find_lines
from tests.corpus.photographs import photograph

SANS = default_font().path
SIZE = (900, 1200)
WIDE = 0.5
"""How far a box may reach beyond the ink, in heights of the line: it is drawn a little wide."""
WITHIN = 0.12
"""How much of the ink it may leave out, likewise: the stroke about the letters."""


class Drawn(NamedTuple):
    text: str
    box: tuple[float, float, float, float]
    """In fractions of the cover."""


def cover(
    *lines: tuple[str, int, tuple[int, int]], ground: Image.Image | None = None
) -> tuple[Image.Image, list[Drawn]]:
    """Draw lines, each a text, its height in pixels and where it begins."""
    image = ground or Image.new("RGB", SIZE, "#204060")
    draw = ImageDraw.Draw(image)
    drawn = []
    for text, height, at in lines:
        font = ImageFont.truetype(SANS, height)
        draw.text(at, text, "white", font, stroke_width=2, stroke_fill="black")
        left, top, right, bottom = draw.textbbox(at, text, font, stroke_width=2)
        width, tall = image.size
        drawn.append(Drawn(text, (left / width, top / tall, right / width, bottom / tall)))
    return image, drawn


def box(line: TextLine) -> tuple[float, float, float, float]:
    return line.left, line.top, line.right, line.bottom


def holds(line: TextLine, drawn: tuple[float, float, float, float], size: tuple[int, int]) -> bool:
    """Return whether a line's box lies about what was drawn, in pixels of the picture."""
    sides = [*size, *size]
    left, top, right, bottom = (one * side for one, side in zip(drawn, sides, strict=True))
    height = min(right - left, bottom - top)
    found = [one * side for one, side in zip(box(line), sides, strict=True)]
    beyond = (left - found[0], top - found[1], found[2] - right, found[3] - bottom)
    return all(-WITHIN * height <= one <= WIDE * height for one in beyond)


def test_lines_are_read_where_they_were_drawn() -> None:
    image, drawn = cover(
        ("Lantern Bay", 120, (90, 100)),
        ("Two Herons", 40, (80, 1110)),
        ("For one or two players", 44, (200, 900)),
    )
    found = find_lines(np.asarray(image))
    assert [line.text for line in found] == [
        "Lantern Bay", "For one or two players", "Two Herons",
    ]  # fmt: skip
    for line in found:
        wanted = next(one for one in drawn if one.text == line.text)
        assert holds(line, wanted.box, image.size)
        assert not line.upright


def test_on_a_photograph() -> None:
    ground = photograph(3).convert("RGB").resize(SIZE)
    image, (drawn,) = cover(("Copper Kite", 110, (90, 500)), ground=ground)
    found = find_lines(np.asarray(image))
    (line,) = [line for line in found if line.text.replace(" ", "") == "CopperKite"]
    assert holds(line, drawn.box, image.size)


@pytest.mark.parametrize("turn", [90, 270])
def test_a_line_that_runs_up_or_down(turn: int) -> None:
    image, ((_, (left, top, right, bottom)),) = cover(("Harbour Clock", 80, (160, 160)))
    turned = image.rotate(turn, expand=True)
    (line,) = find_lines(np.asarray(turned))
    assert line.text == "Harbour Clock"
    assert line.upright
    wanted = (
        (top, 1 - right, bottom, 1 - left) if turn == 90 else (1 - bottom, left, 1 - top, right)
    )
    assert holds(line, wanted, turned.size)


def test_a_cover_without_lettering_has_no_lines() -> None:
    assert find_lines(np.full((400, 300, 3), 120, np.uint8)) == ()


def test_files_are_read_by_a_worker_in_their_order(tmp_path: Path) -> None:
    paths = {}
    for name in ("Tin Gate", "Plum Mill"):
        paths[name] = tmp_path / f"{name}.png"
        cover((name, 110, (90, 200)))[0].save(paths[name])
    paths["broken"] = tmp_path / "broken.png"
    paths["broken"].write_bytes(b"no picture")
    found = dict(read_all(paths))
    assert list(found) == ["Tin Gate", "Plum Mill", "broken"]
    for name in ("Tin Gate", "Plum Mill"):
        one = found[name]
        assert isinstance(one, Reading)
        assert [line.text for line in one.lines] == [name]
        assert sum(one.across) == pytest.approx(1000, abs=24)
    assert isinstance(found["broken"], PictureError)
