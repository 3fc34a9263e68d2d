"""Papers of one's own, and what is said of inserts that fit none."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.conftest import Said

BOARD = ["papers", "Studio board", "--size", "10x14in", "--grain", "short", "--feed", "face down"]


@pytest.fixture
def wrap(say: Said, tmp_path: Path) -> Said:
    """A shelf with nothing to press but one keep case wrap: 273 × 184 mm."""
    say("propose", "--accept")
    say("press", "--part-full")
    (tmp_path / "list.csv").write_text("title,case\nBay Otters,keep-case\n", encoding="utf-8")
    say("intake", str(tmp_path / "list.csv"))
    return say


def test_a_paper_of_ones_own_is_described_used_and_forgotten(say: Said) -> None:
    say(*BOARD, "--margins", "3,3,4,5")
    (board,) = [one for one in say.json("papers")["papers"] if one["own"]]
    assert (board["stock"]["width_mm"], board["stock"]["height_mm"]) == (254.0, 355.6)
    say("papers", "studio-board", "--caliper", "0.3")
    say("papers", "STUDIO BOARD", "--feed", "face up")
    say("setup", "--stock", "Studio board")
    stock = say.json("setup")["stock"]
    assert (stock["id"], stock["caliper_mm"], stock["grain"]) == ("studio-board", 0.3, "short")
    assert stock["margins_mm"] == {"left": 3, "right": 3, "top": 4, "bottom": 5}
    assert "inserts are printed on it" in say("papers", "studio-board", "--forget", code=1)
    say("setup", "--stock", "a4-card")
    say("papers", "studio-board", "--forget")
    assert not [one for one in say.json("papers")["papers"] if one["own"]]
    said = say("undo").splitlines()
    assert said == ["Taken back: forgot the paper studio-board.", "own papers changed"]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (["Board"], "Board: no such paper"),
        (["--margins", "3,3,4,5"], "papers: this is for one paper"),
        (["--caliper", "0.3"], "papers: this is for one paper"),
        (["Board", "--size", "20x30"], "size: 20 × 30 mm: sides are from 50 to 1300 mm"),
        (["a4-card", "--size", "200x300"], "is no name for a paper of your own"),
        (["Board", "--size", "100x150", "--margins", "40,40,5,5"], "leave a field of"),
        (["Board", "--size", "100x150", "--caliper", "9"], "caliper"),
    ],
)
def test_what_is_wrong_with_a_paper_is_said(say: Said, asked: list[str], said: str) -> None:
    before = (say.folder / "collection.json").read_bytes()
    assert said in say("papers", *asked, code=2)
    assert (say.folder / "collection.json").read_bytes() == before


def test_pressing_says_how_to_feed_it_and_what_crosses_its_grain(wrap: Said) -> None:
    """A wrap lies 273 mm along the longer side, its scores across it: so they cross its grain."""
    wrap(*BOARD[:3], "300x320", "--grain", "long", "--feed", "face down")
    wrap("setup", "--stock", "studio-board")
    wrap("propose", "--accept")
    notes = wrap.json("press", "--part-full")["notes"]
    (sheet,) = wrap.json("sheets")["pressed"][-1:]
    assert "Feed Studio board face down." in notes
    crossing = any("cross the grain of Studio board" in note for note in notes)
    (place,) = sheet["placements"]
    assert crossing is place["rotated"]  # its scores are upright on the net, as the fibres are


def test_what_fits_no_paper_is_said_at_once_and_everywhere(wrap: Said, tmp_path: Path) -> None:
    """Letter is 279.4 mm high: less margins of 18 mm there are 261.4 for a wrap of 273.

    With 1 mm of bleed at each end it takes 275, so margins of 4.4 mm together.
    """
    wrap("setup", "--stock", "letter-card")
    what = "Keep case, wrap: its insert of 273 × 184 mm does not fit on Letter card, 65 lb cover"
    mend = (
        "It fits on A4 card, 200 g/m²: spinery setup --stock-of keep-case=a4-card. This paper "
        "takes it with top and bottom margins of 4.4 mm together, where 18 mm are set"
    )
    assert f"{what}. {mend}." in wrap("progress")
    assert f"{what}. {mend}." in wrap.json("progress")["notes"]
    again = str(tmp_path / "list.csv")
    assert f"{what}. {mend}." in wrap.json("intake", again)["notes"]
    assert f"{what}. {mend}." in wrap("propose", "bay-otters")
    assert f"{what}. {mend}." in wrap("propose", "--accept")
    for asked in (["press"], ["press", "--part-full"]):
        said = wrap(*asked, code=1)
        assert f"{what}. {mend}" in said
        assert "add --part-full" not in said
    assert f"bay-otters: {what}. {mend}." in wrap("check", code=1)
    wrap("setup", "--margins", "6,6,2.2,2.2")
    assert wrap("check") == "All is well.\n"
    wrap("setup", "--margins", "6,6,6,12", "--stock-of", "keep-case=a4-card")
    assert wrap("check") == "All is well.\n"
    assert len(wrap.json("press", "--part-full")["sheets"]) == 1
