"""What one command changes is one change: all of it or nothing, taken back at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.conftest import Said
from tui.cli.dispatch import run

TIN = ["--shape", "wrap", "--name", "Tin", "--measure", "height=100", "front=64", "spine=14"]
ONE, TWO = "lantern-bay-1", "lantern-bay-2"


def contents(folder: Path) -> dict[str, bytes]:
    """Return what a collection has on record, and its case kinds and fonts."""
    files = [folder / "collection.json", *folder.glob("cases/*"), *folder.glob("fonts/*")]
    return {str(path): path.read_bytes() for path in files}


@pytest.mark.parametrize(
    "asked",
    [
        ["setup", "--lettering", "even", "--stock", "nosuch"],
        ["setup", "--patience", "9", "--smallest", "30"],
        ["setup", "--rule", "knife", "--margins", "100,100,5,5"],
        ["setup", "--case", "snap-shell", "--without", "lid"],
        ["setup", "--stored", "stack", "--stock-of", "biscuit-tin=a5-card"],
        ["setup", "--ink", "grey", "--mark", "wing"],
        ["setup", "--kerf", "0.5", "--bleed", "1.5"],
        ["setup", "--largest", "20", "--font", "gone.ttf"],
        ["cases", "snap-shell", "--stored", "drawer", "--without", "nosuch"],
        ["cases", "snap-shell", "--stored", "drawer", "--stock", "papyrus"],
        ["cases", "snap-shell", "--correct", "back.width=0.5", "--without", "nosuch"],
        ["cases", "snap-shell", "--correct", "lid.width=0.5", "--stored", "drawer"],
        ["cases", "new", *TIN, "--without", "nosuch"],
        ["cases", "new", *TIN, "--stock", "papyrus"],
        ["propose", ONE, "--ink", "grey", "--without", "lid", "--accept"],
        ["propose", ONE, "nobody", "--accept"],
        ["colours", "Nobody=#112233", "--follow", ONE],
        ["titles", ONE, "--words", "Otters"],
        ["offcuts", "1", "--keep", "1"],
        ["fit", ONE, "nobody"],
    ],
    ids=" ".join,
)
def test_what_is_wrong_with_a_part_leaves_all_as_it_was(say: Said, asked: list[str]) -> None:
    before = contents(say.folder)
    assert run([*asked, "--collection", str(say.folder)]) == 2
    said = say.capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert contents(say.folder) == before


def test_a_setup_of_many_things_is_taken_back_at_once(say: Said) -> None:
    before = say.json("setup")
    say("setup", "--lettering", "free", "--rule", "knife", "--without", "long", "--reads-at", "700")
    said, *differs = say("undo").splitlines()
    assert said == (
        "Taken back: changed the cutting rule, the panels left out, the lettering"
        " and the reading distance."
    )
    assert len(differs) == 4
    assert say.json("setup") == before


def test_a_proposal_changed_and_accepted_is_taken_back_at_once(say: Said) -> None:
    before = say.json("propose", ONE)
    (game,) = say.json("propose", ONE, "--without", "short", "--ink", "grey", "--accept")["games"]
    assert (game["left_out"], game["ink"], game["stage"]) == (["short"], "grey", "title set")
    said, differs = say("undo").splitlines()
    assert said == "Taken back: changed Lantern Bay 1 and accepted Lantern Bay 1."
    assert "panels left out: short → none; ink: grey → full" in differs
    assert say.json("propose", ONE) == before
    assert "took in" in say("undo"), "nothing came before but the intake"


def test_colours_are_pinned_and_followed_at_once(say: Said, tmp_path: Path) -> None:
    more = tmp_path / "more.csv"
    more.write_text("title,series\nCopper Kite 1,Kites\nCopper Kite 2,Kites\n", encoding="utf-8")
    say("intake", str(more), "--case", "snap-shell")
    say("setup", "--colour-by", "series")
    say("propose", "copper-kite-1", "--accept")
    before = say.json("colours")
    say("colours", "Kites=#aa3311", "--follow", "copper-kite-1")
    assert say.json("colours")["groups"][0]["base"] == "#aa3311"
    say("undo")
    assert say.json("colours") == before


def test_a_kind_is_corrected_and_set_apart_together(say: Said) -> None:
    (kind,) = say.json(
        "cases", "snap-shell", "--correct", "back.width=0.5", "--without", "long", "--upright"
    )["cases"]
    assert (kind["own"], kind["left_out"]) == (True, ["long"])
    assert say.json("setup")["lettering"]["upright"] == ["snap-shell"]
    assert "the panels left out and the upright titles" in say("undo")
    (kind,) = say.json("cases", "snap-shell")["cases"]
    assert (kind["own"], kind["left_out"]) == (True, []), "undo leaves a kind's file alone"


def test_a_new_case_goes_without_panels_on_paper_of_its_own(say: Said) -> None:
    new = say.json("cases", "new", *TIN, "--without", "front", "--stock", "a5-card")["cases"][0]
    assert new["left_out"] == ["front"]
    assert [panel["name"] for panel in new["panels"]] == ["spine"]
    setup = say.json("setup")
    assert setup["left_out"] == {"tin": ["front"]}
    assert setup["stock_by_case"] == {"tin": "a5-card"}


def test_what_changes_nothing_can_be_shown_while_another_program_is_at_work(say: Said) -> None:
    from engine import open_workshop

    shop = open_workshop(say.folder)
    try:
        assert say.json("propose", ONE)["games"][0]["id"] == ONE
        assert say.json("setup")["patience"] == 4
        assert say.json("colours", code=1)["groups"] == []
        assert "open" in say("setup", "--patience", "9", code=2)
    finally:
        shop.close()
