"""Line breaks against the Unicode Character Database, and the shortcut against the library."""

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lettering.breaking import breaks, library_breaks

SAMPLES = Path(__file__).parent / "data" / "line_breaks.txt"
ALPHABET = "ab éЖαאबनि่ก灯台ゃー하국々 12'’-–.,:;!?()「」。、・（）&…"


def test_line_break_samples():
    """LineBreakTest.txt, Unicode Character Database 15.0."""
    checked = 0
    for sample in SAMPLES.read_text("utf-8").splitlines():
        if sample.startswith("#"):
            continue
        text, allowed = "", []
        for sign in sample.split():
            if sign == "÷":
                allowed.append(len(text))
            elif sign != "×":
                text += chr(int(sign, 16))
        assert breaks(text) == tuple(at for at in allowed if 0 < at < len(text)), sample
        checked += 1
    assert checked > 700


@given(st.lists(st.sampled_from([*ALPHABET, " - ", "-b", "ְ"]), max_size=12).map("".join))
def test_the_short_way_and_the_long_agree(text):
    assert breaks(text) == library_breaks(text)


@pytest.mark.parametrize(
    ("title", "parts"),
    [
        # LB18, LB21, LB13: after spaces and hyphens, never before a mark of punctuation.
        ("Lantern Keeper: Second Voyage", ["Lantern ", "Keeper: ", "Second ", "Voyage"]),
        ("Spider-Hop 2", ["Spider-", "Hop ", "2"]),
        # Kinsoku (LB13, LB14, LB21, CJ as NS): no line begins with 、」ゃー, none ends with 「.
        ("灯台、「きゃー」", ["灯", "台、", "「きゃー」"]),
        ("3,5 Metre", ["3,5 ", "Metre"]),
    ],
)
def test_where_titles_break(title, parts):
    ends = [0, *breaks(title), len(title)]
    assert [title[a:b] for a, b in pairwise(ends)] == parts
