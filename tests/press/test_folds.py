"""What runs past a fold, measured on the rasterised page."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import msgspec
import pytest
from PIL import Image

from engine.cases import FlatNet, FlatPanel, FlatScore, Role
from engine.lettering import default_font
from engine.model import Art, Colours, Design, InkMode, Rect, Size
from engine.press import Insert, compose, proof
from engine.press.folds import beside
from tests.press.making import insert, kinds, net

EDGE = 4.5  # around an insert on its proof
PPI = 254.0  # 10 pixels to the mm


def row(one: Insert, y: float) -> list[tuple[int, ...]]:
    """The colours of a proof along a line ``y`` mm above the foot of the insert, 10 to the mm."""
    with Image.open(BytesIO(proof(one, PPI))) as page:
        picture = page.convert("RGB")
    at = picture.height - round((EDGE + y) * 10)
    return [picture.getpixel((x, at)) for x in range(picture.width)]


def run(pixels: list[tuple[int, ...]], colour: tuple[int, ...]) -> tuple[float, float]:
    """Where a colour begins and ends, in mm from the insert's left."""
    found = [place for place, pixel in enumerate(pixels) if pixel == colour]
    return found[0] / 10 - EDGE, (found[-1] + 1) / 10 - EDGE


def test_an_edge_carries_its_colour_half_a_millimetre_past_both_folds(picture: Path) -> None:
    one = insert("jewel-tray", "", picture, base="#204060")
    pixels = row(one, 3.0)
    middle = len(pixels) // 2
    assert run(pixels[:middle], (0x20, 0x40, 0x60))[1] == pytest.approx(6.5 + 0.5, abs=0.11)
    right = run(pixels[middle:], (0x20, 0x40, 0x60))[0] + middle / 10
    assert right == pytest.approx(151 - 6.5 - 0.5, abs=0.11)


def test_no_white_shows_on_an_edge_that_stands_alone_in_colour(picture: Path) -> None:
    one = insert("soft-cassette", "", picture, base="#204060")
    edges = msgspec.structs.replace(one.design, ink=InkMode.EDGES)
    left, right = run(row(one._replace(design=edges), 3.0), (0x20, 0x40, 0x60))
    spine = one.net.panel("spine").rect
    assert (left, right) == pytest.approx((spine.x - 0.5, spine.x + spine.width + 0.5), abs=0.11)


def flap(angle: float = 90) -> FlatNet:
    """A front of 30 × 40 mm with a blank flap of 10 mm at its right."""
    outline = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
    return FlatNet(
        kind="flap",
        size=Size(40, 40),
        panels=(
            FlatPanel("front", Role.ART, "front", Rect(0, 0, 30, 40), 0),
            FlatPanel("flap", Role.BLANK, "", Rect(30, 0, 10, 40), 0),
        ),
        scores=(FlatScore(30, 0, 30, 40, angle),),
        notches=(),
        dieline=(outline,),
    )


def test_art_carries_onto_a_blank_panel(picture: Path) -> None:
    design = Design("flap", Art(picture=picture.name), Colours("#204060", "#ffffff"), ())
    one = compose(design, flap(), picture, default_font())
    left, right = run(row(one, 20.0), (0x20, 0x40, 0x60))
    assert (left, right) == pytest.approx((30.5, 41), abs=0.11)


@pytest.mark.parametrize("kind", sorted(kinds()))
def test_every_score_lies_between_two_panels(kind: str) -> None:
    flat = net(kind)
    for score in flat.scores:
        low, high = beside(flat, score)
        assert low.name != high.name
        assert (low.rect.x, low.rect.y) < (high.rect.x, high.rect.y)
