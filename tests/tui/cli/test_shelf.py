"""``spinery shelf``."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.conftest import Said


def test_the_shelf_is_listed_and_a_game_is_filed_and_moved(say: Said) -> None:
    before = [game["game"] for game in say.json("shelf")["games"]]
    said = say("shelf", "--file", f"{before[0]}=Zz", "--what-if", "order=title")
    assert "filed as Zz" in said
    assert "0 printed." in said
    assert [g["game"] for g in say.json("shelf")["games"]] == [*before[1:], before[0]]
    say("shelf", "--move", f"{before[0]}=-1")
    found = say.json("shelf")
    assert found["order"] == "hand"
    assert [g["game"] for g in found["games"]][-2] == before[0]
    assert say("undo").strip().startswith("Taken back: moved")


def test_a_picture_is_written(say: Said, tmp_path: Path) -> None:
    said = say("shelf", "--out", str(tmp_path / "a.png"), "--ppi", "30", "--finished")
    assert said == f"Wrote {tmp_path / 'a.png'}.\n"


@pytest.mark.parametrize(
    "asked", [["--ppi", "90"], ["--out", "shelf.gif"], ["--file", "nobody=Zz"]]
)
def test_bad_input_is_a_sentence(say: Said, asked: list[str]) -> None:
    said = say("shelf", *asked, code=2)
    assert said.count("\n") == 1


@pytest.mark.parametrize(
    "asked", [["--what-if", "size=9"], ["--move", "tide=far"], ["--file", "x"]]
)
def test_what_is_no_setting_or_move_is_said(say: Said, asked: list[str], capsys) -> None:
    with pytest.raises(SystemExit) as stopped:
        say("shelf", *asked)
    assert stopped.value.code == 2
    assert "write " in capsys.readouterr().err
