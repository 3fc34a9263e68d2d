from __future__ import annotations

import re
from base64 import b64decode
from io import BytesIO
from xml.etree import ElementTree as ET

import pytest
from fontTools.misc.transform import Transform
from PIL import Image

from engine.lettering import default_font, shape
from engine.model import Size
from engine.press.pens.base import turned
from engine.press.pens.svg import SvgPen
from tests.press.dielines import SVG

XLINK = "{http://www.w3.org/1999/xlink}"
SQUARE = ((10.0, 20.0), (30.0, 20.0), (30.0, 60.0), (10.0, 60.0))


def pen() -> SvgPen:
    return SvgPen(Size(100.0, 80.0), "A <title> & more")


def root(drawn: SvgPen) -> ET.Element:
    return ET.fromstring(drawn.finish())  # noqa: S314 - the file is our own


def test_one_unit_is_one_millimetre() -> None:
    svg = root(pen())
    assert (svg.attrib["width"], svg.attrib["height"]) == ("100mm", "80mm")
    assert svg.attrib["viewBox"] == "0 0 100 80"
    title = svg.find(f"{SVG}title")
    assert title is not None
    assert title.text == "A <title> & more"


def test_cut_score_and_marks_are_groups_of_their_own() -> None:
    drawn = pen()
    drawn.cut([SQUARE])
    drawn.score(10, 30, 30, 30, 90)
    drawn.tick(0, 0, 5, 0)
    groups = {g.attrib["id"]: list(g) for g in root(drawn).iter(f"{SVG}g")}
    assert list(groups) == ["cut", "score", "mark"]
    assert groups["cut"][0].attrib["d"] == "M10 60L30 60L30 20L10 20Z"  # y from the top
    assert groups["score"][0].attrib | {"aria-label": ""} == {
        "x1": "10", "y1": "50", "x2": "30", "y2": "50", "aria-label": "",
    }  # fmt: skip
    assert groups["mark"][0].attrib["y1"] == "80"


def test_a_picture_keeps_its_bytes_and_stands_upright() -> None:
    data = BytesIO()
    Image.new("RGB", (4, 3), "red").save(data, "JPEG")
    drawn = pen()
    drawn.image(data.getvalue(), Transform(20, 0, 0, 10, 30, 5))
    (image,) = root(drawn).iter(f"{SVG}image")
    kept = b64decode(image.attrib[f"{XLINK}href"].removeprefix("data:image/jpeg;base64,"))
    assert kept == data.getvalue()
    numbers = [float(n) for n in image.attrib["transform"][7:-1].split()]
    # Its top left corner is at 30, 15 counted upwards, 65 from the top; it hangs down from there.
    assert numbers == pytest.approx([20, 0, 0, 10, 30, 65])


def test_type_goes_in_as_outlines_within_its_line() -> None:
    drawn = pen()
    run = shape("Hg & co", default_font(), 10.0)
    drawn.text(run, turned(90, 50, 20), "#123456")
    (path,) = root(drawn).iter(f"{SVG}path")
    assert path.attrib["aria-label"] == "Hg & co"
    xs, ys = coordinates(path.attrib["d"])
    # Turned a quarter counter-clockwise it runs up the page from y = 20, letters to the left.
    assert 80 - 20 - run.width - 0.5 < min(ys) < max(ys) <= 80 - 20 + 0.5
    em = 10 * 25.4 / 72
    assert 50 - em < min(xs) < 50 - 0.5 * em
    assert 50 < max(xs) < 50 + 0.4 * em


def coordinates(path: str) -> tuple[list[float], list[float]]:
    """Return all x and all y of path data (SVG 1.1, 8.3): H has x only, V has y only."""
    xs: list[float] = []
    ys: list[float] = []
    for command, said in re.findall(r"([MLHVCQ])([-\d. ]*)", path):
        numbers = [float(number) for number in said.split()]
        xs += {"H": numbers, "V": []}.get(command, numbers[0::2])
        ys += {"V": numbers, "H": []}.get(command, numbers[1::2])
    return xs, ys


def test_what_is_clipped_lies_in_its_clip() -> None:
    drawn = pen()
    with drawn.clip([SQUARE]):
        drawn.fill([SQUARE], "#ffffff")
        with drawn.clip([SQUARE]):
            drawn.fill([SQUARE], "#000000")
    drawn.fill([SQUARE], "#00ff00")
    svg = root(drawn)
    (art,) = (g for g in svg.iter(f"{SVG}g") if g.attrib.get("id") == "art")
    assert [child.tag for child in art] == [f"{SVG}clipPath", f"{SVG}g", f"{SVG}path"]
    outer = art[1]
    assert outer.attrib["clip-path"] == "url(#clip1)"
    assert outer[0].attrib["fill"] == "#ffffff"
    assert outer[2].attrib["clip-path"] == "url(#clip2)"


def test_the_same_drawing_gives_the_same_bytes() -> None:
    def drawn() -> bytes:
        one = pen()
        one.cut([SQUARE])
        one.text(shape("Same", default_font(), 8), Transform(), "#000000")
        return one.finish()

    assert drawn() == drawn()
