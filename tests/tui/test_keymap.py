"""Keys that a person chose: read, checked, and shown wherever keys are."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from textual.keys import _character_to_key

from engine import InputError
from engine.model import Stage
from tests.tui.conftest import AtWork, Said
from tui.act import put_in_force, shown_key
from tui.actions.keymap import named_key, read_keymap

SIGNS = "?/+#%*-[]&.!<>=;:'\"(){}|\\~_,@$^`aZ7"


@pytest.fixture(autouse=True)
def back_to_the_declared() -> Iterator[None]:
    yield
    put_in_force({})


@pytest.mark.parametrize("sign", SIGNS)
def test_a_sign_is_the_key_that_types_it(sign: str) -> None:
    assert named_key(sign) == _character_to_key(sign)


@pytest.mark.parametrize("key", ["^p", "Enter", "Esc", "Space", "f2", "+", "K", "\u2190", ","])
def test_what_is_shown_is_what_can_be_written(key: str) -> None:
    assert shown_key(named_key(key)) == key


@pytest.mark.parametrize(
    ("chosen", "complaint"),
    [
        ({"accept": "y"}, "y would be both accept and accept_sure on Bench"),
        ({"undo": "q"}, "q would be both undo and quit on Bench"),
        ({"spoil": "Esc"}, "Esc would be both spoil and stop on Sheets"),
        ({"split": "+"}, "would be both split and line_in in the art dialog"),
        ({"acept": "y"}, "there is no action acept"),
        ({"accept": 3}, "accept = 3: there is no such key"),
        ({"accept": "bogus"}, "accept = 'bogus': there is no such key"),
        ({"accept": "down"}, "down cannot be accept"),
        ({"accept": "^p"}, "^p cannot be accept"),
        ({"choose": "x"}, "x cannot be choose: it types a sign"),
        ({"change_font": "x"}, "no action change_font"),
    ],
)
def test_what_cannot_be_is_told_by_name(chosen: dict[str, object], complaint: str) -> None:
    with pytest.raises(InputError) as told:
        read_keymap(chosen, "keys.toml")
    assert complaint in str(told.value)


def test_two_keys_are_changed_over() -> None:
    chosen = read_keymap({"accept": "y", "accept_sure": "Enter"}, "keys.toml")
    assert chosen == {"accept": "y", "accept_sure": "enter"}


async def test_a_chosen_key_works_and_is_shown_and_the_declared_one_is_free(
    at_work: AtWork,
) -> None:
    keys = read_keymap({"accept": "y", "accept_sure": "f2", "undo": "^z"}, "keys.toml")
    async with at_work("batch", keys=keys) as hand:
        assert "y Accept" in hand.sees("KeyBar")
        assert "^z Undo" in hand.sees("KeyBar")
        await hand.press("enter")
        assert hand.workshop.progress().stages[Stage.TITLE_SET] == 0
        await hand.press("y")
        assert hand.workshop.progress().stages[Stage.TITLE_SET] == 1
        await hand.press("ctrl+z")
        assert hand.workshop.progress().stages[Stage.TITLE_SET] == 0
        await hand.do("help")
        assert "y Accept" in hand.reads("#box")


async def test_a_chosen_key_works_in_the_list_of_what_is_fitted(at_work: AtWork) -> None:
    async with at_work("settled", keys=read_keymap({"undo": "f2"}, "keys.toml")) as hand:
        await hand.do("sheets", "fitting", "choose")
        assert "f2 Undo" in hand.sees("#box")
        assert hand.workshop.progress().stages[Stage.FITTED] == 1
        await hand.press("f2")
        assert hand.workshop.progress().stages[Stage.FITTED] == 0


def test_the_card_shows_the_chosen_keys_and_a_faulty_file_is_told(
    say: Said, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "spinery" / "keys.toml"
    file.parent.mkdir()
    file.write_text('accept = "f2"\n', encoding="utf-8")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    told = say.json("keys")
    assert told["file"] == str(file)
    accept = next(one for one in told["keys"] if one["action"] == "accept")
    assert (accept["key"], accept["own"]) == ("f2", True)
    assert "  f2     accept " in say("keys")
    file.write_text("accept = f2", encoding="utf-8")
    assert "it is no TOML" in say("keys", code=2)
