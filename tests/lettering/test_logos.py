"""Logos on edges: judged like type, given up for the title where they would be tiny."""

import pytest

from engine.lettering import (
    Show,
    TypeStyle,
    default_font,
    propose_logo,
    reading_distance,
    safe_area,
)
from engine.model import Size

FONT = default_font()
FLAP, SPINE = Size(57.0, 6.0), Size(101.5, 12.7)
STYLE = TypeStyle(fallbacks=())


def test_a_wide_logo_that_reads_stands_alone():
    found = propose_logo("Rook", Size(1200, 150), SPINE, FONT, STYLE)
    assert found.show is Show.LOGO
    assert found.title is None
    assert found.reads_at >= STYLE.distance
    area = safe_area(SPINE)
    assert found.logo.width / found.logo.height == pytest.approx(8.0)
    assert found.logo.x >= area.x - 1e-9
    assert found.logo.y >= area.y - 1e-9
    assert found.logo.height <= area.height + 1e-9


def test_a_squarish_logo_gives_way_and_tells_its_height_and_distance():
    found = propose_logo("Lantern Keeper", Size(600, 500), FLAP, FONT, STYLE)
    # 4.5 mm high on a flap of 6 mm, three rows of letters at 0.7 of a row: 1.05 mm, which by
    # 16 minutes of arc (ISO 9241-303) reads from 226 mm.
    assert found.show is not Show.LOGO
    assert found.height == pytest.approx(4.5 * 0.7 / 3)
    assert found.reads_at == pytest.approx(reading_distance(1.05))
    assert "1.1 mm" in found.words or "1.0 mm" in found.words
    assert "23 cm" in found.words


def test_the_title_is_proposed_with_the_logo_beside_it_where_there_is_room():
    found = propose_logo("Rook", Size(600, 500), FLAP, FONT, STYLE)
    assert found.show is Show.BOTH
    room = safe_area(FLAP, found.style.furniture)
    assert found.logo.x + found.logo.width < room.x
    assert found.title.reads_at >= 500


def test_the_title_stands_alone_where_the_logo_would_press_it():
    found = propose_logo("Lantern Keeper of the Old Harbour", Size(1000, 400), FLAP, FONT, STYLE)
    assert found.show is Show.TITLE
    assert found.logo is None
    assert found.title.lines


def test_a_person_who_measured_the_letters_is_believed():
    tall = propose_logo("Rook", Size(600, 500), FLAP, FONT, STYLE, share=0.9)
    assert tall.show is Show.LOGO
    assert tall.height == pytest.approx(4.05)
