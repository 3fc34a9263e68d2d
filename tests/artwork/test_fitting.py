"""What a fit costs, said in numbers and in words, and which one is proposed."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from engine.artwork import Surface, Wanted, cost, fittings, judge, propose_fit
from engine.artwork.windows import PixelRect, part_of, window
from engine.model import Art, Fit, Loss, Pattern, Picture, Reading, Size, TextLine, Trim

READ = Reading()
"""Of a picture without lettering."""


def picture(width: int, height: int, **facts: object) -> Picture:
    return Picture("0.png", "Harbour.png", width, height, "#204080", **{"reading": READ} | facts)


sides = st.integers(50, 6000)
lengths = st.floats(5.0, 300.0)
foci = st.tuples(st.floats(0, 1), st.floats(0, 1))


@given(sides, sides, lengths, lengths, foci)
def test_a_fill_lies_within_the_picture_and_has_the_panel_s_shape(w, h, across, down, focus):
    shown = window((w, h), Size(across, down), Art("0.png", Fit.FILL, focus))
    assert shown.left >= -1e-6
    assert shown.top >= -1e-6
    assert shown.right <= w + 1e-6
    assert shown.bottom <= h + 1e-6
    assert shown.width / shown.height == pytest.approx(across / down)
    assert shown.width == pytest.approx(w) or shown.height == pytest.approx(h)


@given(sides, sides, lengths, lengths, foci)
def test_a_matte_shows_all_of_the_picture(w, h, across, down, focus):
    shown = window((w, h), Size(across, down), Art("0.png", Fit.MATTE, focus))
    assert shown.left <= 1e-6
    assert shown.top <= 1e-6
    assert shown.right >= w - 1e-6
    assert shown.bottom >= h - 1e-6
    assert shown.width / shown.height == pytest.approx(across / down)


@given(sides, sides, lengths, lengths)
def test_losses_are_those_of_the_shapes(w, h, across, down):
    """From the two shapes alone: the lesser over the greater is what stays of an area."""
    shape, wanted = w / h, across / down
    kept = min(shape, wanted) / max(shape, wanted)
    panel = Size(across, down)
    it = picture(w, h)
    losses = {fit: judge(it, Art("0.png", fit), panel).loss for fit in Fit if fit != Fit.PIXELS}
    assert losses[Fit.FILL].cropped == pytest.approx(1 - kept, abs=1e-9)
    assert losses[Fit.MATTE].empty == pytest.approx(1 - kept, abs=1e-9)
    assert losses[Fit.STRETCH].distortion == pytest.approx(1 / kept - 1, abs=1e-9)
    for fit, loss in losses.items():
        others = {"distortion", "cropped", "empty"} - {
            {Fit.FILL: "cropped", Fit.MATTE: "empty", Fit.STRETCH: "distortion"}[fit]
        }
        assert all(getattr(loss, other) == 0 for other in others)


@given(sides, sides, lengths, lengths)
def test_the_proposal_costs_no_more_than_any_other_way(w, h, across, down):
    ways = fittings(picture(w, h), Wanted(Surface(Size(across, down)), titled=True))
    assert {way.art.fit for way in ways} == {Fit.FILL, Fit.MATTE, Fit.STRETCH}
    prices = [cost(way.loss) + 1.0 - way.chance for way in ways]
    assert prices == pytest.approx(sorted(prices))


@given(st.floats(0, 0.5), st.floats(0, 0.5))
def test_more_loss_costs_more(one, other):
    assume(abs(one - other) > 1e-6)
    less, more = sorted((one, other))
    for kind in ("distortion", "cropped", "empty"):
        assert cost(Loss(**{kind: less})) < cost(Loss(**{kind: more}))


@pytest.mark.parametrize(
    ("size", "panel", "fit", "words"),
    [
        ((600, 600), Size(60, 60), Fit.FILL, "fits as it is"),
        ((600, 600), Size(60, 61.8), Fit.FILL, "stretched 3 % taller"),
        ((600, 600), Size(61.8, 60), Fit.FILL, "stretched 3 % wider"),
        ((600, 600), Size(60, 68), Fit.FILL, "crops 9 %, half left, half right"),
        ((600, 600), Size(60, 120), Fit.MATTE, "whole, 49 % of the panel is matte"),
    ],
)
def test_the_proposal_and_its_words(size, panel, fit, words):
    found = propose_fit(picture(*size), panel)
    assert found.art.fit is fit
    assert found.words == words


@pytest.mark.parametrize(
    ("focus", "words"),
    [
        ((0.0, 0.5), "crops 20 % right"),
        ((1.0, 0.5), "crops 20 % left"),
        ((0.45, 0.5), "crops 5 % left, 15 % right"),
    ],
)
def test_the_point_kept_in_sight_moves_the_crop(focus, words):
    assert judge(picture(500, 400), Art("0.png", Fit.FILL, focus), Size(40, 40)).words == words


def test_a_crop_above_and_below():
    found = judge(picture(400, 500), Art("0.png", Fit.FILL, (0.5, 0.0)), Size(40, 40))
    assert found.words == "crops 20 % bottom"


def test_resolution_is_pixels_by_the_inch_of_25_4_mm():
    found = judge(picture(300, 600), Art("0.png", Fit.STRETCH), Size(25.4, 50.8))
    assert found.ppi == pytest.approx(300)
    squeezed = judge(picture(300, 600), Art("0.png", Fit.STRETCH), Size(50.8, 50.8))
    assert squeezed.ppi == pytest.approx(150)
    cropped = judge(picture(300, 600), Art("0.png", Fit.FILL), Size(25.4, 25.4))
    assert cropped.ppi == pytest.approx(300)


@pytest.mark.parametrize(
    ("pixels", "warned", "sure"), [(201, False, True), (199, True, True), (119, True, False)]
)
def test_a_coarse_picture_is_warned_of_and_a_very_coarse_one_is_not_sure(pixels, warned, sure):
    """200 and 120 pixels to the inch: common practice, no published source."""
    found = propose_fit(picture(pixels, pixels), Size(25.4, 25.4))
    assert bool(found.warnings) is warned
    assert found.sure is sure


def test_a_cover_that_lies_askew_on_its_ground_is_not_sure():
    found = propose_fit(picture(1000, 1000, askew=True), Size(50, 50))
    assert not found.sure
    assert found.doubts[0] == "It lies askew in its picture, on a ground that shows around it."
    assert propose_fit(picture(1000, 1000), Size(50, 50)).sure


def test_plain_needs_no_picture():
    found = judge(picture(1, 1), Art(pattern=Pattern.DOTS), Size(50, 50))
    assert (found.ppi, found.sure, found.loss.empty) == (0.0, True, 1.0)
    assert "dots" in found.words


# --- Facts found in the picture ---------------------------------------------------------


def test_the_border_found_is_trimmed_and_said():
    trim = Trim(0.1, 0.1, 0.1, 0.1)
    found = propose_fit(picture(1000, 1000, trim=trim, turn=1.2), Size(50, 50))
    assert found.art.trim == trim
    assert found.art.turn == 1.2
    assert found.words == "straightened by 1.2°, border trimmed, fits as it is"
    assert found.ppi == pytest.approx(800 * 25.4 / 50)


def test_a_bar_is_trimmed_only_where_the_rest_then_fits():
    bar = Trim(left=0.2)
    said = TextLine("Kite Press", 0.05, 0.2, 0.15, 0.8, upright=True)
    it = picture(1125, 900, bars=(bar,), reading=Reading(lines=(said,)))
    square = propose_fit(it, Size(50, 50))
    assert square.art.trim == bar
    assert square.words == "left bar trimmed, fits as it is"
    whole = propose_fit(it, Size(50, 40))
    assert whole.art.trim == Trim()


@pytest.mark.parametrize(
    ("bar", "words"),
    [(Trim(top=0.2), "top banner trimmed"), (Trim(bottom=0.2), "bottom banner trimmed")],
)
def test_a_banner_is_called_by_its_name(bar, words):
    top = 0.06 if bar.top else 0.86
    said = TextLine("Kite Press", 0.2, top, 0.8, top + 0.06)
    found = propose_fit(
        picture(900, 1125, bars=(bar,), reading=Reading(lines=(said,))), Size(50, 50)
    )
    assert found.words.startswith(words)


def test_each_panel_takes_its_part_of_a_flat_cover():
    it = picture(1000, 500, split=(0.45, 0.55))
    art = propose_fit(it, Size(50, 50)).art
    assert art.split == (0.45, 0.55)
    # A hair, 1.5 thousandths of the width, is left off beside each cut.
    assert part_of((1000, 500), art, "back") == PixelRect(0, 0, 448.5, 500)
    assert part_of((1000, 500), art, "spine") == PixelRect(451.5, 0, 548.5, 500)
    assert part_of((1000, 500), art, "front") == PixelRect(551.5, 0, 1000, 500)
    assert part_of((1000, 500), art) == part_of((1000, 500), art, "front")
    spine = judge(it, art, Size(12, 60), "spine")
    assert spine.words.startswith("spine of the scan")


def test_the_split_lies_within_the_trim():
    art = Art("0.png", trim=Trim(0.1, 0, 0.1, 0), split=(0.25, 0.5))
    assert part_of((1000, 500), art, "spine") == pytest.approx((301.2, 0, 498.8, 500))


def test_a_screenshot_is_drawn_dot_for_dot():
    """160 x 144 dots on 65 x 57 mm: 4 printed dots of 300 to the inch each, 640 of 767 across."""
    found = propose_fit(picture(160, 144, dot=1), Size(65, 57))
    assert found.art.fit is Fit.PIXELS
    assert found.ppi == pytest.approx(75)
    assert found.warnings == ()
    assert found.words.startswith("dot for dot, ")
    enlarged = propose_fit(picture(640, 576, dot=4), Size(65, 57))
    assert enlarged.loss == pytest.approx(found.loss) or enlarged.loss.empty == pytest.approx(
        found.loss.empty
    )
