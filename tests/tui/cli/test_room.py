"""``spinery room``, ``where``, ``index``, ``dividers``, ``supplies`` and ``progress`` in words."""

from __future__ import annotations

import pytest

from tests.tui.conftest import Said
from tui.roomwords import bar


def test_what_is_not_there_yet_is_told_with_the_way_to_it(say: Said) -> None:
    assert "spinery room NAME --size" in say("room", code=1)
    assert "no place yet" in say("where", "lantern", "bay", "3")
    assert "quartz: no title is like that" in say("where", "quartz", code=1)
    assert "there is no pace to go by yet" in say("progress")
    assert "nothing is added for spoilage" in say("supplies", "--sample", "0")


def test_a_shelf_is_described_filled_and_searched(say: Said) -> None:
    said = say("room", "Hall", "--size", "500x90x90", "--growth", "20", "--keep")
    assert "12 games, Lantern Bay 1 to Lantern Bay 12; room for 31 more" in said
    assert "Lantern Bay 4: Hall, 4 from the left" in say("where", "lantren bay 4")
    assert "L  Lantern Bay 12  Hall, 12" in say("index")
    assert "2 more wanted (--add adds them): L, Hall: L" in say("dividers")
    assert "put in its place" in say("undo")
    say("room", "The long corridor by the window", "--size", "500x90x90")
    short, *_, long = sorted(say("dividers", "--add").splitlines(), key=len)
    assert short.split() == ["divider-l", "listed", "L"]
    assert long.index("listed") == short.index("listed") == long.index(" ") + 2


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        (["room", "--size", "10x10x10"], "this is for one container"),
        (["room", "Hall"], "no such container"),
        (["room", "Hall", "--size", "0x1x1"], "above 0"),
        (["room", "Hall", "--forget"], "no such container"),
        (["supplies", "--have", "vellum=3"], "is no supply"),
        (["index", "--out", "index.txt"], "PDF or CSV"),
    ],
)
def test_bad_input_is_a_sentence(say: Said, asked: list[str], why: str) -> None:
    assert why in say(*asked, code=2)


@pytest.mark.parametrize(
    ("part", "drawn"),
    [(0, "····"), (1, "████"), (0.5, "██··"), (1 / 32, "▏···"), (0.28, "█▏··"), (2, "████")],
)
def test_a_bar_is_as_long_as_its_part(part: float, drawn: str) -> None:
    """Unicode's block elements, U+2588 to U+258F, draw eighths of a cell."""
    assert bar(part, 4) == drawn
