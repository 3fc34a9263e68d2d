"""Circles where they were drawn, and a face where a photograph is known to have one."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw
from skimage import data

from engine.reading import rounds

SIZE = (320, 240)


def drawn(*circles: tuple[int, int, int]) -> rounds.Grey:
    image = Image.new("L", (3 * SIZE[0], 3 * SIZE[1]), 40)
    draw = ImageDraw.Draw(image)
    for circle in circles:
        x, y, radius = (3 * one for one in circle)
        draw.ellipse([x - radius, y - radius, x + radius, y + radius], fill=220)
    return np.asarray(image.resize(SIZE, Image.Resampling.BOX))


def test_circles_are_found_where_they_were_drawn() -> None:
    circles = [(80, 90, 50), (230, 150, 60)]
    found = sorted(rounds.find_circles(drawn(*circles)))
    assert len(found) == len(circles)
    for box, (x, y, radius) in zip(found, circles, strict=True):
        wanted = (x - radius) / 320, (y - radius) / 240, (x + radius) / 320, (y + radius) / 240
        assert box == pytest.approx(wanted, abs=0.015)


def test_how_much_they_take() -> None:
    found = rounds.find_circles(drawn((160, 120, 60)))
    assert rounds.roundness((), found) == pytest.approx(120 * 120 / (320 * 240), rel=0.06)
    assert rounds.roundness(((0, 0, 1, 1),), found) == 1.0


def test_there_are_none_in_a_plain_picture_or_among_squares() -> None:
    assert rounds.find_circles(np.full((240, 320), 90, np.uint8)) == ()
    squares = Image.new("L", SIZE, 40)
    ImageDraw.Draw(squares).rectangle([60, 60, 200, 180], fill=220)
    assert rounds.find_circles(np.asarray(squares)) == ()


def test_a_face_is_found_in_a_portrait() -> None:
    """skimage's photograph of an astronaut (NASA, public domain): the face fills rows 65 to 180 and
    columns 165 to 275 of 512, as measured by eye."""
    portrait = Image.fromarray(data.astronaut()).convert("L").resize((320, 320))
    (face, *_) = rounds.find_faces(np.asarray(portrait))
    left, top, right, bottom = face
    assert (left + right) / 2 == pytest.approx(220 / 512, abs=0.05)
    assert (top + bottom) / 2 == pytest.approx(122 / 512, abs=0.06)
    assert 0.15 < right - left < 0.35


def test_no_face_looks_out_of_a_page_of_text() -> None:
    page = Image.fromarray(data.page()).resize((320, 160))
    assert rounds.find_faces(np.asarray(page)) == ()
