"""Covers: the same every time, at the size they are given, and never a blank."""

from __future__ import annotations

import pytest
from PIL import Image, ImageChops, ImageStat

from harbour import covers, shelf
from harbour.canvas import Box, Canvas, Room, chance
from harbour.palettes import PALETTES
from harbour.scenes import SCENES
from harbour.title import STYLES, letter

SHAPES = ((150, 210), (210, 150), (160, 144), (120, 120), (320, 100))


def cover(**changes: object) -> shelf.Cover:
    whole = shelf.Cover("a.jpg", "A Title", "A Maker", "horizon", "dusk", "poster", 150, 200, "")
    return whole._replace(**changes)  # type: ignore[arg-type]


@pytest.mark.parametrize("scene", SCENES)
def test_a_scene_fills_a_canvas_of_any_shape_and_leaves_room_within_it(scene: str) -> None:
    for size in SHAPES:
        canvas = Canvas(*size, oversample=1)
        x, y, width, height = SCENES[scene](canvas, chance("any"), PALETTES["mint"]).box
        assert canvas.finished().size == size
        assert max(ImageStat.Stat(canvas.finished()).stddev) > 12  # a blank has none
        assert x >= 0 <= y
        assert x + width <= canvas.w + 1e-6
        assert y + height <= canvas.h + 1e-6
        assert width > 60
        assert height > 8


def test_a_canvas_drawn_larger_comes_out_as_asked_and_smoother() -> None:
    rough, smooth = (Canvas(60, 40, oversample=times) for times in (1, 4))
    for canvas in (rough, smooth):
        canvas.disc(canvas.w / 2, canvas.h / 2, 30, "#ffffff")
    colours = [len(canvas.finished().getcolors()) for canvas in (rough, smooth)]
    assert rough.finished().size == smooth.finished().size == (60, 40)
    assert colours[0] == 2 < colours[1]


def test_the_same_cover_is_the_same_picture_twice() -> None:
    for scene in ("lighthouse", "maze", "buttons"):
        one, two = covers.draw(cover(scene=scene)), covers.draw(cover(scene=scene))
        assert one.tobytes() == two.tobytes()


def test_another_title_gives_another_picture() -> None:
    one, two = (covers.draw(cover(title=title, style="")) for title in ("A Title", "B Title"))
    assert one.tobytes() != two.tobytes()


@pytest.mark.parametrize("finish", ["", "flat", "side bar"])
@pytest.mark.parametrize("size", [(150, 200), (360, 200), (160, 144)])
def test_a_cover_has_the_size_it_asks_for(finish: str, size: tuple[int, int]) -> None:
    drawn = covers.draw(cover(width=size[0], height=size[1], finish=finish))
    assert drawn.size == size
    assert drawn.mode == "RGB"


def test_a_side_bar_runs_down_the_left_in_the_accent() -> None:
    drawn = covers.draw(cover(finish="side bar"))
    colours = {drawn.getpixel((1, y)) for y in (2, 60, 120, 198)}
    assert len(colours) <= 2  # the accent, and the dark line along one side of the bar


@pytest.mark.parametrize("style", STYLES.values(), ids=list(STYLES))
@pytest.mark.parametrize(
    "text", ["Ø", "Nine Knots", "A: B", "Ο Φάρος και το Ρολόι: Η Βροχή", "x" * 40, "so on " * 14]
)
def test_lettering_stays_in_its_room(style: object, text: str) -> None:
    canvas = Canvas(600, 800, oversample=1)
    box = Box(10, 20, 80, 30)
    letter(canvas, Room(box, "#ffffff"), text, style)  # type: ignore[arg-type]
    inked = ImageChops.difference(canvas.image, Image.new("RGB", canvas.image.size)).getbbox()
    assert inked is not None
    left, top, right, bottom = (side / canvas.scale for side in inked)
    slack = 1.5  # an italic's overhang and a descender of the last line
    assert left >= box.x - slack
    assert right <= box.x + box.width + slack
    assert top >= box.y - slack
    assert bottom <= box.y + box.height + slack
