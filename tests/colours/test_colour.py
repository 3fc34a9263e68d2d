"""Colour against the published figures, and the choice of ink."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from engine.artwork.pixels import dominant, from_levels, main_colours, oklab, to_hex
from engine.colours import (
    colour_name,
    contrast,
    difference,
    ink_on,
    luminance,
    matte_colour,
    standing_out,
)
from engine.colours.arrays import ciede2000
from engine.colours.colour import BLACK, WHITE
from engine.colours.deficiency import Deficiency, seen_as
from engine.model import Matte

HERE = Path(__file__).parent

hex_colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


def table(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("# ")))


@pytest.mark.parametrize("row", table("ciede2000_sharma2005.csv"), ids=lambda row: row["pair"])
def test_ciede2000_against_all_pairs_of_sharma_wu_and_dalal(row):
    """Color Research and Application 30(1), 2005, Table 1: 34 pairs, to four places."""
    one = tuple(float(row[key]) for key in ("L1", "a1", "b1"))
    other = tuple(float(row[key]) for key in ("L2", "a2", "b2"))
    assert ciede2000(one, other) == pytest.approx(float(row["dE00"]), abs=1e-4)
    assert ciede2000(other, one) == pytest.approx(float(row["dE00"]), abs=1e-4)


def test_black_to_white_is_100():
    """CIEDE2000 between L* 0 and L* 100 without chroma is 100 (ISO/CIE 11664-6)."""
    assert difference(BLACK, WHITE) == pytest.approx(100.0, abs=1e-3)


@given(hex_colours, hex_colours)
def test_differences_of_arrays_against_coloraide(one, other):
    pair = [Color(colour).convert("lab-d65").coords() for colour in (one, other)]
    assert ciede2000(*pair) == pytest.approx(difference(one, other), abs=1e-6)
    assert difference(one, other) == Color(one).delta_e(Color(other), method="2000")


@pytest.mark.parametrize("row", table("wcag_contrast_examples.csv"), ids=lambda row: row["fg"])
def test_contrast_against_the_worked_examples(row):
    """WCAG 2.2, definitions of relative luminance and contrast ratio, computed by them."""
    fore, ground = (
        "#" + "".join(c * 2 for c in text[1:]) if len(text) == 4 else text
        for text in (row["fg"], row["bg"])
    )
    assert contrast(fore, ground) == pytest.approx(float(row["ratio"]), abs=5e-5)
    assert contrast(ground, fore) == contrast(fore, ground)
    assert luminance(fore) == pytest.approx(float(row["L_fg"]), abs=5e-7)


@given(hex_colours)
def test_black_or_white_reaches_four_and_a_half_on_anything(colour):
    assert contrast(ink_on(colour), colour) >= 4.58


@given(hex_colours)
def test_text_stands_out_more_on_a_colour_that_looks_alike(colour):
    """7 to 1 is WCAG 2.2's enhanced contrast; the difference is coloraide's CIEDE2000."""
    moved = standing_out(colour)
    reached = contrast(ink_on(moved), moved)
    away = Color(colour).delta_e(Color(moved), method="2000")
    assert reached >= contrast(ink_on(colour), colour)
    if contrast(ink_on(colour), colour) >= 7.0:
        assert moved == colour
    else:
        assert away <= 10.0
        assert reached == pytest.approx(7.0, abs=0.12) or away > 9.0


@pytest.mark.parametrize("grey", ["#777777", "#808080", "#6f6f6f"])
def test_the_drabbest_greys_come_near_seven_to_one(grey):
    assert contrast(grey, ink_on(grey)) < 5.4
    assert contrast(standing_out(grey), ink_on(standing_out(grey))) > 6.7


def test_complement_and_analogous_turn_the_hue():
    """Hue + 180 and + 30 degrees, here in OKLCh."""
    base = "#a04848"
    hue = Color(base).convert("oklch")["hue"]
    for matte, turn in ((Matte.COMPLEMENT, 180), (Matte.ANALOGOUS, 30)):
        turned = Color(matte_colour(base, matte)).convert("oklch")["hue"]
        assert (turned - hue) % 360 == pytest.approx(turn, abs=4)
    assert matte_colour(base, Matte.BASE) == base


# --- Deficiencies -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        (Deficiency.PROTAN, "Protanomaly"),
        (Deficiency.DEUTAN, "Deuteranomaly"),
        (Deficiency.TRITAN, "Tritanomaly"),
    ],
)
def test_deficiencies_against_machado_oliveira_and_fernandes(kind, name):
    """IEEE Transactions on Visualization and Computer Graphics 15(6), 2009: severity 1.0.

    Their matrices work on linear sRGB (IEC 61966-2-1); what leaves sRGB is held within it.
    """
    row = next(
        row
        for row in table("machado2009_matrices.csv")
        if row["kind"] == name and float(row["severity"]) == 1.0
    )
    published = np.array([[float(row[f"m{i}{j}"]) for j in (1, 2, 3)] for i in (1, 2, 3)])
    for number in range(0, 0x1000000, 0x1357B):
        colour = f"#{number:06x}"
        seen = np.clip(published @ Color(colour).convert("srgb-linear").coords(), 0.0, 1.0)
        wanted = Color("srgb-linear", list(seen)).convert("srgb").coords()
        found = np.array(list(bytes.fromhex(seen_as(colour, kind)[1:]))) / 255
        assert np.abs(found - wanted).max() < 0.51 / 255, colour


@pytest.mark.parametrize("kind", list(Deficiency))
def test_greys_stay_grey_to_every_eye(kind):
    for level in (0, 60, 128, 200, 255):
        grey = f"#{level:02x}{level:02x}{level:02x}"
        assert difference(grey, seen_as(grey, kind)) < 1.0


def test_red_and_green_come_together_for_deutan_eyes():
    red, green = "#b05a3c", "#787832"
    assert difference(red, green) > 25
    seen = [seen_as(colour, Deficiency.DEUTAN) for colour in (red, green)]
    assert difference(*seen) < 12


# --- Colours of pictures ----------------------------------------------------------------


@given(hex_colours)
def test_oklab_against_coloraide(colour):
    lab = from_levels(np.array(list(bytes.fromhex(colour[1:])), dtype=np.uint8))
    assert np.abs(lab - Color(colour).convert("oklab").coords()).max() < 1e-4
    assert to_hex(lab) == colour


def test_the_dominant_colour_of_two_is_the_larger_one_and_no_mix():
    strip = Image.new("RGB", (20, 100), "#204080")
    strip.paste("#f0e0c0", (0, 0, 20, 40))
    centre, share = dominant(oklab(strip))
    assert difference(to_hex(centre), "#204080") < 1.0
    assert share == pytest.approx(0.6)


def test_main_colours_put_the_striking_one_first():
    cover = Image.new("RGB", (100, 100), "#888888")
    cover.paste("#d02020", (0, 0, 100, 30))
    first, second = (to_hex(colour) for colour in main_colours(oklab(cover)))
    assert difference(first, "#d02020") < 1.0
    assert difference(second, "#888888") < 1.0


@pytest.mark.parametrize(
    ("colour", "name"),
    [
        # Named colours of CSS Color 4, section 6.1 (values from memory), by their keywords.
        ("#00008b", "dark blue"),
        ("#006400", "dark green"),
        ("#8b0000", "dark red"),
        ("#add8e6", "light blue"),
        ("#90ee90", "light green"),
        ("#ffb6c1", "light pink"),
        ("#d3d3d3", "light grey"),
        ("#000000", "black"),
        ("#ffffff", "white"),
        ("#808080", "grey"),
        ("#ffa500", "orange"),
        ("#008080", "teal"),
        ("#0000ff", "blue"),
        ("#ff0000", "red"),
    ],
)
def test_a_colour_is_called_as_the_web_calls_it(colour: str, name: str) -> None:
    assert colour_name(colour) == name
