"""How long setting a thousand titles takes, against shaping each of them once.

    python -m pytest tests/bench/lettering.py -s

Both are timed in turns in one run, in processor time, and the best of each is taken, so that
a busy machine does not decide. Shaping plainly is what anyone would write with uharfbuzz:
fill a buffer, shape it, read glyphs and advances.
"""

from time import process_time

import pytest
import uharfbuzz as hb

from engine.lettering import default_font, propose_title
from engine.lettering.breaking import breaks
from engine.lettering.compositor import Compositor, compositor
from engine.lettering.faces import open_face
from engine.model import Size
from tests.lettering.titles import shelf
from tests.lettering.typefaces import STYLE

TITLES = shelf(1000, plain=0.85)
EDGES = (Size(57.0, 6.0), Size(101.5, 12.7))
ROUNDS = 9
MOST = 6.0


def shape_plainly(fonts: list[hb.Font]) -> None:
    for title, font in zip(TITLES, fonts, strict=True):
        buffer = hb.Buffer()
        buffer.add_str(title)
        buffer.guess_segment_properties()
        hb.shape(font, buffer)
        [(info.codepoint, info.cluster) for info in buffer.glyph_infos]
        [place.x_advance for place in buffer.glyph_positions]


def set_titles() -> None:
    compositor.cache_clear()
    breaks.cache_clear()
    for title in TITLES:
        for edge in EDGES:
            propose_title(title, edge, default_font(), STYLE)


def fonts_of_titles() -> list[hb.Font]:
    """Return a font for each title that has its first letter."""
    setter = Compositor(default_font(), STYLE)
    return [setter.ink(title).pieces[0].face.hb_font for title in TITLES]


def timed(work, *values) -> float:
    start = process_time()
    work(*values)
    return process_time() - start


@pytest.mark.bench
def test_setting_a_thousand_titles_on_two_edges():
    fonts = fonts_of_titles()
    set_titles()
    rounds = [(timed(shape_plainly, fonts), timed(set_titles)) for _ in range(ROUNDS)]
    plain, setting = (min(one) for one in zip(*rounds, strict=True))
    ratio = setting / plain
    print(
        f"\nsetting {len(TITLES)} titles on {len(EDGES)} edges: {setting * 1000:.0f} ms;"
        f" shaping each once: {plain * 1000:.1f} ms; ratio {ratio:.2f} (at most {MOST:g})"
    )
    assert ratio <= MOST


@pytest.mark.bench
def test_opening_the_font_that_ships():
    open_face.cache_clear()
    from engine.lettering.instances import static_face

    static_face.cache_clear()
    first = timed(open_face, default_font())
    print(f"\nthe first opening of the variable font, its axes pinned: {first * 1000:.0f} ms")
    assert first < 1.0
