"""``spinery cases``: a case of one's own, its trial cut, how it is kept, what it goes without."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest

from tests.tui.conftest import Said
from tui.cli.dispatch import run

TIN = ["--shape", "wrap", "--name", "Tin", "--measure", "height=100", "front=64", "spine=14"]


class Terminal(io.StringIO):
    """Lines typed at a terminal."""

    def isatty(self) -> bool:
        return True


def types(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("".join(f"{line}\n" for line in lines)))


def test_a_case_is_added_in_one_line_and_used(say: Said) -> None:
    told = say.json("cases", "new", *TIN, "--measure", "back=0")
    (tin,) = told["cases"]
    assert told["doubts"] == []
    # 64 − 0.5 − 0.125 and 14 − 0.5 − 0.125: clearance, and half of 0.25 mm card at the score
    # (docs/cases/caliper.md, derived from the neutral line).
    assert tin["footprint_mm"] == [76.75, 99.5]
    assert (tin["own"], tin["games"], tin["facing"]) == (True, 0, ["spine"])
    assert "tin" in [kind["id"] for kind in say.json("cases")["cases"]]
    assert say.json("setup", "--case", "Tin")["case"] == "tin"


def test_measured_round_the_outside_it_is_larger(say: Said) -> None:
    told = say.json("cases", "new", *TIN, "--around", "--clearance", "1", "--stored", "drawer")
    (tin,) = told["cases"]
    assert tin["footprint_mm"] == [64 + 1 + 0.125 + 14 + 1 + 0.125, 101]
    assert tin["stored"] == "drawer"


def test_what_is_doubtful_is_told_and_taken(say: Said) -> None:
    odd = [word.replace("spine=14", "spine=3") for word in TIN]
    said = say("cases", "new", *odd)
    assert "3 mm is under 4 mm" in said
    assert "cases/tin.toml" in said, "undo leaves it alone, so it says what to delete"


def test_what_cannot_be_is_one_sentence(say: Said) -> None:
    assert "spine: is not given" in say("cases", "new", *TIN[:-1], code=2)
    assert "lid: is no measure" in say("cases", "new", *TIN, "lid=3", code=2)
    say("cases", "new", *TIN)
    assert '"tin" is taken' in say("cases", "new", *TIN, code=1)
    assert "lacks --name, --measure" in say("cases", "new", "--shape", "wrap", code=2)
    for alone in (["--trial"], ["--folded"], ["--stored", "shelf"], ["--without"]):
        assert "Name it" in say("cases", *alone, code=2)
    assert "--out FILE.png" in say("cases", "tin", "--folded", code=2)


@pytest.mark.parametrize("wrong", ["width", "width=wide", "=3mm"])
def test_a_measure_that_is_none_is_told(
    wrong: str,
    shelf: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    with pytest.raises(SystemExit) as left:
        run(["cases", "new", *TIN, wrong, "--collection", str(shelf)])
    assert left.value.code == 2
    assert "width=64.5" in capsys.readouterr().err


def test_at_a_terminal_it_asks_and_doubts(
    say: Said,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    types(monkeypatch, "box", "w", "Tin", "100", "", "64,5", "140", "14", "")
    assert run(["cases", "new", "--json", "--collection", str(say.folder)]) == 0
    read = say.capsys.readouterr()
    (tin,) = json.loads(read.out)["cases"]
    assert tin["footprint_mm"] == [64.5 - 0.625 + 14 - 0.625, 99.5]
    assert "box: is none of the shapes" in read.err
    assert "Height inside, 20 to 260 mm: " in read.err
    assert "nothing: is not a length" in read.err
    assert "140 mm is over 45 mm, which is rare. Is it 14?" in read.err


def test_a_doubtful_figure_is_kept_by_enter_and_only_what_lacks_is_asked(
    say: Said,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    types(monkeypatch, "3.5", "")
    given = ["--shape", "strip", "--name", "Edge", "--measure", "height=70"]
    assert run(["cases", "new", *given, "--collection", str(say.folder)]) == 2
    say.capsys.readouterr()
    types(monkeypatch, "Edge", "3.5", "")
    given = ["--shape", "strip", "--measure", "height=70"]
    assert run(["cases", "new", *given, "--json", "--collection", str(say.folder)]) == 0
    assert json.loads(say.capsys.readouterr().out)["cases"][0]["footprint_mm"] == [3.0, 69.5]


def test_answers_that_end_keep_nothing(
    say: Said,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    types(monkeypatch, "strip", "Edge", "70")
    assert run(["cases", "new", "--collection", str(say.folder)]) == 1
    assert "nothing was kept" in say.capsys.readouterr().err
    assert list((say.folder / "cases").iterdir()) == []


def test_a_trial_cut_and_its_correction(say: Said, tmp_path: Path) -> None:
    told = say.json("cases", "snap-shell", "--trial", "--out", str(tmp_path / "trial.pdf"))
    assert Path(told["file"]).read_bytes().startswith(b"%PDF")
    assert {"panel": "back", "side": "width"}.items() <= told["sides"][0].items()
    assert any("blade" in note for note in told["notes"])
    assert "trial-snap-shell.pdf" in say("cases", "snap-shell", "--trial")
    before = say.json("cases", "snap-shell")["cases"][0]["footprint_mm"]
    after = say.json("cases", "snap-shell", "--correct", "back.width=+0.5", "back.height=-0.25")
    assert after["cases"][0]["footprint_mm"] == [before[0] - 0.5, before[1] + 0.25]
    assert "no panel" in say("cases", "snap-shell", "--correct", "lid.width=1", code=2)


def test_how_cases_are_stored_and_what_inserts_go_without(say: Said) -> None:
    def one(*arguments: str) -> dict:
        return say.json("cases", "snap-shell", *arguments)["cases"][0]

    assert one("--stored", "drawer", "--without", "long")["left_out"] == ["long"]
    assert one()["stored"] == "drawer"
    assert [panel["name"] for panel in one()["panels"]] == ["back", "short"]
    assert "in a box or drawer" in say("cases", "snap-shell")
    assert "left out" in say("setup")
    assert one("--stored", "usual", "--without")["left_out"] == []
    assert one()["stored"] == "shelf"
    assert say.json("setup", "--stored", "stack")["stored"] == "stack"
    assert say.json("setup", "--stored", "usual", "--without", "long")["stored"] is None
    assert one()["left_out"] == ["long"]
    assert say.json("setup", "--without")["left_out"] == {}


def test_panels_of_one_game(say: Said) -> None:
    (game,) = say.json("propose", "lantern-bay-1", "--without", "short")["games"]
    assert game["left_out"] == ["short"]
    assert [edge["panel"] for edge in game["title_setting"]["edges"]] == ["long"]
    (other,) = say.json("propose", "lantern-bay-2")["games"]
    assert other["left_out"] == []
    (game,) = say.json("propose", "lantern-bay-1", "--without")["games"]
    assert game["left_out"] == []
    assert "Name them" in say("propose", "--without", "short", code=2)


def test_folded_views_are_written(say: Said, tmp_path: Path) -> None:
    for command in (["cases", "keep-case"], ["proof", "lantern-bay-1"]):
        out = tmp_path / f"{command[0]}.png"
        say(*command, "--folded", "--out", str(out))
        assert out.read_bytes().startswith(b"\x89PNG")


def test_cautions_are_told_where_a_kind_is_chosen(
    say: Said,
    delivery: tuple[Path, Path],
) -> None:
    assert "eye protection" in say("intake", str(delivery[0]), "--case", "soft-cassette")
    assert "eye protection" in say("setup", "--case", "soft-cassette")
    assert "eye protection" in say("cases", "soft-cassette")


def test_without_a_collection_the_kinds_that_ship_are_listed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], say: Said
) -> None:
    shipped = say.json("cases")["cases"]
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "never"))
    monkeypatch.chdir(tmp_path)
    assert run(["cases", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["cases"] == [{**one, "games": 0} for one in shipped]
    assert run(["cases", "Keep case, wrap"]) == 0
    assert "spine" in capsys.readouterr().out
    assert run(["cases", "biscuit-tin"]) == 2
    assert run(["cases", "keep-case", "--stored", "stack"]) == 2
    assert "No collection is here" in capsys.readouterr().err
    assert not list(tmp_path.glob("cases"))


def test_a_measure_of_no_name_and_a_length_with_a_unit(say: Said) -> None:
    told = say.json("cases", "new", *[word.replace("=14", "=14mm") for word in TIN])
    assert told["cases"][0]["footprint_mm"] == [76.75, 99.5]
