"""A front and a back cover from the folder of pictures to the sheet, measured on its page."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from engine import Rect
from tests.measuring import PPI, TRUE, figures, nearest, net_height, on_page, read
from tests.tui.conftest import Said

KIND = "soft-cassette"
RED, BLUE, GREEN = (220, 30, 30), (30, 30, 220), (30, 160, 30)


@pytest.fixture
def say(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Said:
    """A collection of one game with a green front, and a back that is red above and blue below."""
    covers = tmp_path / "covers"
    covers.mkdir()
    Image.new("RGB", (675, 1070), GREEN).save(covers / "Tin Gate front.png")
    back = Image.new("RGB", (675, 1070), BLUE)
    back.paste(RED, (0, 0, 675, 535))
    back.save(covers / "Tin Gate back.png")
    (tmp_path / "list.txt").write_text("Tin Gate\n", encoding="utf-8")
    said = Said(tmp_path / "shelf", capsys)
    said("intake", str(tmp_path / "list.txt"), "--pictures", str(covers), "--case", KIND)
    return said


def test_a_back_cover_is_proposed_accepted_and_printed_on_the_back(say: Said) -> None:
    (game,) = say.json("propose")["games"]
    (own,) = game["art"]["others"]
    assert (own["panel"], own["source"]) == ("back", "Tin Gate back.png")
    assert (game["sure"], own["words"], own["chance"]) == (True, "fits as it is", 1.0)
    assert "on back: Tin Gate back.png, fits as it is" in say("propose")
    say("propose", "--accept", "--sure")
    (sheet,) = say.json("press", "--part-full")["sheets"]
    page = read(sheet)
    (placement,) = sheet["placements"]
    back = figures(KIND)["back"]
    tall = net_height(KIND)
    bleed = sheet["bleed_mm"]
    grown = Rect(-bleed, -bleed, back.width + bleed, back.height + 2 * bleed)
    assert nearest(page.images, on_page(placement, tall, grown)) < TRUE
    assert len(page.images) == 2
    half = back.height / 2
    for name, colour, rect in (
        ("above", RED, Rect(0, half, back.width, half)),
        ("below", BLUE, Rect(0, 0, back.width, half)),
        ("front", GREEN, figures(KIND)["front"]),
        ("bleed", RED, Rect(-bleed, half + 1, bleed, half - 1)),
    ):
        left, bottom, right, top = on_page(placement, tall, rect)
        x, y = (left + right) / 2, (bottom + top) / 2
        pixel = page.picture.getpixel((x / 25.4 * PPI, page.picture.height - y / 25.4 * PPI))
        assert pixel == pytest.approx(colour, abs=12), name


def test_a_back_set_to_no_picture_says_the_title(say: Said) -> None:
    say("sides", "tin-gate", "--show", "back=none")
    (game,) = say.json("propose")["games"]
    assert game["art"]["others"] == []
    say("propose", "--accept")
    (sheet,) = say.json("press", "--part-full")["sheets"]
    page = read(sheet)
    assert len(page.images) == 1
    left, bottom, right, top = on_page(
        sheet["placements"][0], net_height(KIND), figures(KIND)["back"]
    )
    on_back = [
        box for box in page.letters if left < box[0] and box[2] < right and bottom < box[1] < top
    ]
    assert len(on_back) == len("TinGate")
