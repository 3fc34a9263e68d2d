"""Right-to-left order against the Unicode Character Database."""

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from engine.lettering.ordering import Stretch, visual_order

SAMPLES = Path(__file__).parent / "data" / "bidi_order.txt"
BASES = {"0": "L", "1": "R", "2": None}


def order(text, base=None):
    return [
        index
        for start, end, rightwards in visual_order(text, base)
        for index in (range(start, end) if rightwards else reversed(range(start, end)))
    ]


def test_bidi_samples():
    """BidiCharacterTest.txt, Unicode Character Database 15.0."""
    checked = 0
    for sample in SAMPLES.read_text("utf-8").splitlines():
        if sample.startswith("#"):
            continue
        codes, base, places = sample.split(";")
        text = "".join(chr(int(code, 16)) for code in codes.split())
        wanted = [int(place) for place in places.split()]
        found = [place for place in order(text, BASES[base]) if place in wanted]
        assert found == wanted, sample
        checked += 1
    assert checked > 1500


def test_a_number_in_a_hebrew_title_runs_to_the_right():
    # UAX #9: a European number keeps its own direction, to the left of the word before it.
    assert visual_order("אור 12") == (Stretch(4, 6, True), Stretch(0, 4, False))


def test_brackets_face_with_their_text():
    # UAX #9, N0: brackets around Hebrew in an English title stay with the English.
    assert order("ab (אב) cd") == [0, 1, 2, 3, 5, 4, 6, 7, 8, 9]


def test_a_line_of_any_length_is_no_trouble():
    assert visual_order("א" * 5000) == (Stretch(0, 2304, False),)


@given(st.text("ab12 -(!)אבجذ٣", max_size=30))
def test_every_character_stands_somewhere_once(text):
    assert sorted(order(text)) == list(range(len(text)))
