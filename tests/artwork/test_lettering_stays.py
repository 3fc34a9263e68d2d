"""No proposal cuts lettering that was read, and none that is sure loses the title.

What is in sight is worked out here from the definition of a crop, not from the engine's own.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.artwork import Surface, Wanted, fittings, propose_fit
from engine.artwork.windows import PixelRect, part_of, room, window
from engine.model import Art, Fit, Matte, Picture, Reading, Size, TextLine, Trim

TITLE = "Lantern Bay"

starts = st.floats(0.0, 0.85)


def line(text: str, left: float, top: float, wide: float, high: float) -> TextLine:
    return TextLine(text, left, top, min(1.0, left + wide), min(1.0, top + high))


lines = st.builds(
    line,
    st.sampled_from((TITLE, "Kite Press", "Mind the third step")),
    starts,
    starts,
    st.floats(0.1, 0.8),
    st.floats(0.02, 0.12),
)


def picture(width: int, height: int, *said: TextLine, **facts: object) -> Picture:
    facts.setdefault("reading", Reading(lines=said))
    return Picture("0.png", "Lantern Bay.png", width, height, "#204080", **facts)


def seen(it: Picture, art: Art, panel: Size) -> PixelRect:
    """What of the picture a panel shows, band off, in pixels."""
    whole = part_of((it.width, it.height), art)
    its = room(panel, art)
    shown = window((whole.width, whole.height), panel, art)
    across, down = shown.width / panel.width, shown.height / panel.height
    return PixelRect(
        max(whole.left, whole.left + shown.left),
        max(whole.top, whole.top + shown.top),
        min(whole.right, whole.left + shown.left + across * its.width),
        min(whole.bottom, whole.top + shown.top + down * its.height),
    )


@given(
    st.integers(300, 2000),
    st.integers(300, 2000),
    st.floats(20, 130),
    st.floats(20, 190),
    st.lists(lines, min_size=1, max_size=4),
    st.booleans(),
)
def test_what_is_sure_cuts_no_lettering_and_keeps_the_title(w, h, across, down, said, titled):
    it, panel = picture(w, h, *said), Size(across, down)
    for found in fittings(it, Wanted(Surface(panel), title=TITLE, titled=titled)):
        if not found.sure:
            continue
        box = seen(it, found.art, panel)
        for one in said:
            left, top, right, bottom = one.left * w, one.top * h, one.right * w, one.bottom * h
            # The reader's box stands off the ink by a tenth of the line's thickness.
            air = 0.1 * min(right - left, bottom - top) + 1e-6
            outside = (
                right - air <= box.left
                or left + air >= box.right
                or bottom - air <= box.top
                or top + air >= box.bottom
            )
            inside = (
                left + air >= box.left
                and right - air <= box.right
                and top + air >= box.top
                and bottom - air <= box.bottom
            )
            assert inside or outside, one.text
            if one.text == TITLE:
                assert inside


def test_the_crop_goes_where_the_title_is_not():
    it = picture(1000, 1000, line(TITLE, 0.1, 0.02, 0.8, 0.1))
    found = propose_fit(it, Size(60, 50), title=TITLE)
    assert found.art.fit is Fit.FILL
    assert seen(it, found.art, Size(60, 50)).top <= 0.01 * 1000


def test_a_title_from_rim_to_rim_is_not_cropped():
    it = picture(1000, 1000, line(TITLE, 0.02, 0.02, 0.96, 0.1))
    found = propose_fit(it, Size(40, 60), title=TITLE)
    assert found.loss.cropped == 0.0


def test_lettering_keeps_its_distance_from_a_cut():
    """1 mm, what a feed and a trimmer err (common practice, no published source)."""
    it = picture(1200, 1000, line(TITLE, 0.3, 0.4, 0.4, 0.1))
    found = propose_fit(it, Size(50, 50), title=TITLE)
    box = seen(it, found.art, Size(50, 50))
    per_mm = box.width / 50
    assert 0.3 * 1200 - box.left >= per_mm
    assert box.right - 0.7 * 1200 >= per_mm


BAR = Trim(top=0.2)


def test_a_bar_with_a_maker_may_go_and_one_with_the_title_stays_where_no_edge_says_it():
    ends = line(TITLE, 0.2, 0.25, 0.6, 0.05), line(TITLE, 0.2, 0.92, 0.6, 0.05)
    maker = picture(1000, 1250, line("Kite Press", 0.2, 0.03, 0.6, 0.08), *ends, bars=(BAR,))
    gone = seen(maker, propose_fit(maker, Size(50, 50), title=TITLE).art, Size(50, 50))
    assert gone.top >= BAR.top * 1250 - 1
    title = picture(1000, 1250, line(TITLE, 0.2, 0.03, 0.6, 0.08), bars=(BAR,))
    label = fittings(title, Wanted(Surface(Size(50, 50)), title=TITLE))[0]
    assert label.art.trim == Trim()


def test_a_bar_is_none_without_lettering_of_its_own():
    mast = picture(1000, 1250, line(TITLE, 0.2, 0.5, 0.6, 0.08), bars=(BAR,))
    assert propose_fit(mast, Size(50, 50), title=TITLE).art.trim == Trim()


def test_a_picture_with_a_title_across_its_spine_is_not_split():
    split = (0.47, 0.53)
    plain = picture(1480, 1000, line(TITLE, 0.2, 0.4, 0.6, 0.1), split=split)
    assert propose_fit(plain, Size(60, 50), title=TITLE).art.split is None
    wrap = picture(
        1480,
        1000,
        TextLine(TITLE, 0.485, 0.2, 0.515, 0.8, upright=True),
        line(TITLE, 0.6, 0.1, 0.3, 0.1),
        split=split,
    )
    found = propose_fit(wrap, Size(60, 86), title=TITLE)
    assert found.art.split == split
    assert found.sure


def test_a_cover_that_is_far_too_wide_gets_a_band_that_says_what_the_list_says():
    wide = picture(1600, 1000, line(TITLE, 0.05, 0.1, 0.9, 0.2))
    wanted = Wanted(Surface(Size(65, 102)), title=TITLE, lines=("Bay Tales", "1993"), titled=True)
    art = fittings(wide, wanted)[0].art
    assert art.band == pytest.approx(1 - 65 / 1.6 / 102, abs=1e-3) or art.matte is Matte.MIRROR
    banded = next(one.art for one in fittings(wide, wanted) if one.art.band)
    assert (banded.words, banded.lines) == (TITLE, ("Bay Tales", "1993"))
    assert seen(wide, banded, Size(65, 102)) == pytest.approx((0, 0, 1600, 1000), abs=1.0)


def test_a_label_is_never_without_its_title():
    found = fittings(picture(1000, 800), Wanted(Surface(Size(50, 40)), title=TITLE))[0]
    assert found.art.band
    assert found.art.words == TITLE


def test_without_a_reading_a_crop_is_not_sure_and_says_so():
    unread = picture(1000, 1400, reading=None)
    ways = fittings(unread, Wanted(Surface(Size(50, 60)), title=TITLE, titled=True))
    crop = next(one for one in ways if one.art.fit is Fit.FILL and not one.art.band)
    assert not crop.sure
    assert any("not read" in doubt for doubt in crop.doubts)


def test_more_is_stretched_less_where_faces_look_out():
    it = Reading(round=0.2)
    calm = picture(1000, 1000)
    faces = picture(1000, 1000, reading=it)
    panel = Size(50, 53)
    assert propose_fit(calm, panel).loss.distortion >= propose_fit(faces, panel).loss.distortion
