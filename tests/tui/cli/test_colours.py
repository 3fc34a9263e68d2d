"""The commands about colour and ink on a made collection."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine import open_workshop
from tests.tui.conftest import Said


@pytest.fixture
def say(shelf: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Said:
    """Commands on a collection to which six games of two series were added."""
    more = tmp_path / "more.csv"
    rows = [f"Copper Kite {n},{'Kites' if n % 2 else 'Boats'}" for n in range(6)]
    more.write_text("title,series\n" + "\n".join(rows) + "\n", encoding="utf-8")
    shop = open_workshop(shelf)
    shop.games.intake(more, None, "snap-shell")
    shop.close()
    return Said(shelf, capsys)


def test_without_groups_it_says_how_to_have_them(say: Said) -> None:
    assert "--colour-by COLUMN (picture, series)" in say("colours", code=1)
    assert say.json("setup")["colour_by"] == "picture"


def test_groups_are_listed_and_pinned(say: Said) -> None:
    assert "Colour groups           series\n" in say("setup", "--colour-by", "Series")
    listed = say.json("colours")
    assert [group["name"] for group in listed["groups"]] == ["Boats", "Kites"]
    assert listed["smallest"] == min(listed["seen"].values())
    pinned = say.json("colours", "kites=#aa3311")["groups"][1]
    assert (pinned["base"], pinned["origin"], pinned["text"]) == ("#aa3311", "pinned", "#ffffff")
    said = say("colours")
    assert "#aa3311  Kites: 3 games, yours" in said
    assert "Smallest difference" in said
    assert "deutan" in said
    assert say.json("colours", "Kites=")["groups"][1]["origin"] == "chosen"
    assert say.json("propose", "copper-kite-1")["games"][0]["colour"]["group"] == "Kites"


def test_what_is_printed_is_listed_with_the_sheets_to_print_it_again(say: Said) -> None:
    say("setup", "--colour-by", "series")
    say("propose", "copper-kite-1", "copper-kite-3", "--accept")
    say("press", "--part-full")
    say("settle", "1")
    assert "2 inserts printed in a group's colour stay when it changes" in say("colours")
    said = say("colours", "Kites=#aa3311")
    assert "Printed in an earlier colour: copper-kite-1, copper-kite-3" in said
    assert "(1 sheet): spinery colours --follow GAME" in said
    assert say.json("colours", "--follow", "copper-kite-1")["groups"][1]["reprint"] == [
        "copper-kite-3"
    ]
    assert say.json("progress")["reprints"] == 1


def test_bad_colours_and_groups_are_refused(say: Said) -> None:
    say("setup", "--colour-by", "series")
    assert "no such group of games. Groups are Boats, Kites" in say("colours", "Owls=#123", code=2)
    assert "is no colour" in say("colours", "Kites=reddish", code=2)
    assert "shoe size: no such column. Columns are series" in say(
        "setup", "--colour-by", "shoe size", code=2
    )


def test_ink_modes_are_set_for_all_and_for_one(say: Said) -> None:
    assert "Ink                     grey: greys\n" in say("setup", "--ink", "grey")
    inks = {game["id"]: game["ink"] for game in say.json("propose", "copper-kite-1",
            "copper-kite-2", "--ink", "edges")["games"]}  # fmt: skip
    assert set(inks.values()) == {"edges"}
    assert say.json("propose", "copper-kite-3")["games"][0]["ink"] == "grey"
    assert say.json("propose", "copper-kite-1", "--ink", "usual")["games"][0]["ink"] == "grey"
    assert "is for certain games" in say("propose", "--ink", "grey", code=2)


def test_ink_is_told_in_percent_of_each_colour(say: Said) -> None:
    assert "No insert waits" in say("ink", code=1)
    say("propose", "copper-kite-1", "--accept")
    told = say.json("ink")
    (insert,), (sheet,) = told["inserts"], told["sheets"]
    assert insert["game"] == "copper-kite-1"
    assert list(insert["coverage_percent"]) == ["cyan", "magenta", "yellow", "black"]
    assert 0 < sheet["coverage_percent"]["black"] < insert["coverage_percent"]["black"]
    assert insert["saving_percent"]["full"] == 0
    # Half of all but the titles, which stay as black as ever.
    assert 30 < insert["saving_percent"]["draft"] < 60
    said = say("ink", "copper-kite-1")
    assert "ISO 32000-1" in said
    assert "draft saves" in said
