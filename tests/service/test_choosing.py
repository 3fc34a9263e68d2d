"""What is looked at while choosing: pictures, neighbours, and a title as it prints."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from engine import Workshop
from engine.model.errors import InputError
from engine.service.choosing import LONGEST


def test_a_picture_says_whose_it_is_and_what_it_shows(stocked: Workshop) -> None:
    first = stocked.choosing.pictures("lantern bay 3")[0]
    assert (first.owner, first.role) == ("Lantern Bay 3", "front")
    shown = Image.open(BytesIO(stocked.choosing.picture(first.name, 64)))
    assert max(shown.size) <= 64 <= LONGEST


def test_neighbours_stand_by_title_and_numbers_as_numbers(stocked: Workshop) -> None:
    games = {line.title: line.id for line in stocked.games.lines()}
    beside = stocked.choosing.neighbours(games["Lantern Bay 9"], of_each=1)
    assert [one.title for one in beside.before] == ["Lantern Bay 8"]
    assert [one.title for one in beside.after] == ["Lantern Bay 10"]


def test_a_title_is_drawn_as_it_prints_and_nothing_is_changed(stocked: Workshop) -> None:
    game = stocked.games.lines()[0].id
    before = stocked.designs.proposal(game)
    shown = stocked.choosing.titled(game, "One / Two")
    assert stocked.designs.proposal(game) == before
    after = stocked.designs.change_title(game, "One / Two")
    assert [(one.panel, one.size) for one in shown.edges] == [
        (one.panel, one.size) for one in after.edges
    ]
    picture = Image.open(BytesIO(shown.picture)).convert("RGB")
    edge = after.edges[0]
    snapshot = stocked._session.snapshot
    reading = snapshot.casing.net_of(snapshot.games[game]).panel(edge.panel).reading
    sides = (reading.width, reading.height)
    assert [side / 300 * 25.4 for side in picture.size] == pytest.approx(sides, abs=0.1)
    base = tuple(bytes.fromhex(after.design.colours.base[1:]))
    bare = {colour: times for times, colour in picture.getcolors(1 << 24)}[base]
    assert 0.5 < bare / (picture.width * picture.height) < 1.0, "letters stand on it"


def test_looked_at_closely_the_bare_ends_are_left_out(stocked: Workshop) -> None:
    game = stocked.games.lines()[0].id
    whole, close = (
        Image.open(BytesIO(stocked.choosing.titled(game, "Moss", closely=closely).picture))
        for closely in (False, True)
    )
    assert close.height == whole.height
    assert close.width < whole.width


def test_an_empty_title_is_refused(stocked: Workshop) -> None:
    with pytest.raises(InputError, match="is empty"):
        stocked.choosing.titled(stocked.games.lines()[0].id, " / ")
