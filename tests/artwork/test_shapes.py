"""Borders, turns, bars and spines, found in drawn covers made from real photographs."""

from __future__ import annotations

from random import Random

import pytest
from PIL import Image

from engine.artwork import inspect
from engine.artwork.inspecting import Framing, find_framing
from engine.model import Trim
from tests.artwork.covers import Cover, barred, flap_card, framed, panel, scanned, wrap
from tests.artwork.photos import ALL, photo

LOOK = 640
"""The longer side of what is looked at, as in use."""

NEAR = 0.01
"""One percent of the picture's side."""


def shape_of(image: Image.Image) -> Framing:
    look = image.copy()
    look.thumbnail((LOOK, LOOK))
    return find_framing(look)


def off(found: Trim, true: Trim) -> float:
    return max(abs(a - b) for a, b in zip(found, true, strict=True))


def art(dice: Random, name: str) -> Image.Image:
    width = dice.choice((320, 380, 440))
    return panel(dice, width, int(width * dice.uniform(0.75, 1.35)), name)


def test_uniform_borders_are_found_within_a_percent():
    dice = Random(4)
    covers = [framed(dice, art(dice, name)) for name in ALL]
    found = [shape_of(cover.image) for cover in covers]
    right = [
        off(s.trim, c.trim) <= NEAR and s.turn == 0 for s, c in zip(found, covers, strict=True)
    ]
    assert sum(right) >= 0.95 * len(covers)


def test_skewed_scans_are_straightened_and_trimmed():
    dice = Random(5)
    covers = [scanned(dice, art(dice, name)) for name in ALL]
    found = [shape_of(cover.image) for cover in covers]
    right = [
        off(s.trim, c.trim) <= NEAR and abs(s.turn - c.turn) < 0.25
        for s, c in zip(found, covers, strict=True)
    ]
    assert sum(right) >= 0.95 * len(covers)
    assert not any(shape.askew for shape in found)


@pytest.mark.parametrize(("turn", "slant"), [(-5.0, 0.04), (0.5, 0.04), (14.0, 0.0)])
def test_a_cover_photographed_askew_on_a_table_is_told(turn: float, slant: float):
    for name in ALL[:4]:
        cover = scanned(Random(9), panel(Random(9), 400, 460, name), turn).image
        wide, high = cover.size
        by = slant * wide
        corners = (0, by, 0, high, wide - by, high - by, wide, 0)
        seen = cover.transform(cover.size, Image.Transform.QUAD, corners)
        assert shape_of(seen).askew


@pytest.mark.parametrize("turn", [-6.0, -2.0, -0.4, 0.4, 2.0, 6.0])
def test_the_turn_that_straightens_has_the_right_sign_and_size(turn):
    cover = scanned(Random(6), photo("astronaut", 500), turn)
    assert shape_of(cover.image).turn == pytest.approx(turn, abs=0.15)


def test_photos_without_a_border_are_left_alone():
    dice = Random(7)
    pictures = [photo(name, 500) for name in ALL]
    pictures += [panel(dice, dice.randint(300, 500), dice.randint(300, 500)) for _ in range(24)]
    for picture in pictures:
        found = shape_of(picture)
        assert found.trim == Trim()
        assert found.turn == 0
        assert not found.askew


def test_bars_and_banners_are_offered():
    dice = Random(8)
    covers = [
        (side, barred(dice, side)) for side in ("left", "top", "right", "bottom") for _ in range(6)
    ]
    offered = 0
    for _, cover in covers:
        found = shape_of(cover.image)
        assert found.trim == Trim()
        offered += any(off(bar, cover.trim) <= NEAR for bar in found.bars)
    assert offered >= 0.95 * len(covers)


def split_right(cover: Cover) -> bool:
    found = shape_of(cover.image).split
    if found is None or cover.split is None:
        return found == cover.split
    return max(abs(a - b) for a, b in zip(found, cover.split, strict=True)) <= NEAR


def test_spines_of_flat_covers_are_found_within_a_percent():
    dice = Random(9)
    covers = [wrap(dice) for _ in range(30)] + [flap_card(dice) for _ in range(15)]
    assert sum(split_right(cover) for cover in covers) >= 0.95 * len(covers)


def test_photos_in_the_shape_of_a_flat_cover_are_not_split():
    dice = Random(11)
    for _ in range(25):
        height = dice.randint(250, 340)
        assert shape_of(panel(dice, int(height * dice.uniform(1.2, 1.7)), height)).split is None


def test_a_flat_cover_scanned_askew_is_straightened_trimmed_and_split():
    dice = Random(12)
    covers = [(flat := wrap(dice), scanned(dice, flat.image)) for _ in range(8)]
    right = 0
    for flat, scan in covers:
        found = shape_of(scan.image)
        right += (
            found.split is not None
            and abs(found.turn - scan.turn) < 0.25
            and off(found.trim, scan.trim) <= NEAR
            and max(abs(a - b) for a, b in zip(found.split, flat.split, strict=True)) <= NEAR
        )
    assert right >= 7


@pytest.mark.parametrize("size", [(1, 1), (1, 50), (50, 1), (25, 25), (640, 640)])
def test_a_picture_of_one_colour_or_hardly_any_pixels_shows_nothing(tmp_path, size):
    path = tmp_path / "flat.png"
    Image.new("RGB", size, "#2c7a3c").save(path)
    found = inspect(path, "flat.png")
    assert (found.trim, found.turn, found.bars, found.split) == (Trim(), 0.0, (), None)
    assert found.side == "#2c7a3c"
    assert found.palette == ("#2c7a3c",)
