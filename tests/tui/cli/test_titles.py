"""The command line for titles: setting them up, seeing which fall short, wording one."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.lettering.making_fonts import make_font
from tests.tui.conftest import Said


@pytest.fixture
def moles(say: Said, tmp_path: Path) -> str:
    """A game whose title is too long for its edge."""
    path = tmp_path / "more.csv"
    title = "The Extraordinarily Patient Lighthouse Keeper and the Seventeen Moles: Low Tide"
    path.write_text(f"title\n{title}\n", encoding="utf-8")
    say("intake", str(path), "--case", "snap-shell")
    return next(g["id"] for g in say.json("propose")["games"] if g["title"] == title)


def test_setup_shows_and_changes_lettering(say: Said) -> None:
    assert say.json("setup")["lettering"]["font"].startswith("Noto Sans")
    said = say("setup", "--lettering", "even", "--reads-at", "700", "--upright", "snap-shell")
    assert "Lettering               even: one size" in said
    assert "Reading distance        700 mm" in said
    assert "Upright titles          Clear snap shell" in said
    lettering = say.json("setup", "--upright", "--short", "Bay=By", "Lantern=")["lettering"]
    assert lettering["mode"] == "even"
    assert lettering["upright"] == []
    assert lettering["short"] == {"Bay": "By"}


def test_a_font_is_chosen_by_its_file_and_taken_back(say: Said, tmp_path: Path) -> None:
    file = make_font(tmp_path / "boxes.ttf", chars="Lanter By123456789")
    assert say.json("setup", "--font", str(file))["lettering"]["font"] == "Boxes Regular"
    assert say.json("setup", "--font", "usual")["lettering"]["font"].startswith("Noto Sans")
    assert "gone.ttf: cannot be read." in say("setup", "--font", "gone.ttf", code=2)


def test_titles_that_fall_short_are_listed_with_what_helps(say: Said, moles: str) -> None:
    said = say("titles", code=1)
    assert "26 edges looked at; 2 cannot be read from 50 cm." in said
    assert f"{moles} long: " in said
    assert "Abridge it to " in said
    report = say.json("titles", code=1)
    assert {one["game"] for one in report["short"]} == {moles}
    assert all(one["reads_at_mm"] < report["distance_mm"] == 500 for one in report["short"])
    assert all(one["helps"] for one in report["short"])
    assert say.json("titles", "Lantern Bay 3")["short"] == []


def test_even_titles_are_told_with_those_set_apart(say: Said, moles: str) -> None:
    say("setup", "--lettering", "even")
    even = {one["panel"]: one for one in say.json("titles", code=1)["even"]}
    assert set(even) == {"long", "short"}
    assert even["long"]["titles"] == 13
    assert list(even["long"]["apart"]) == [moles]
    assert "snap-shell long: 13 titles at" in say("titles", code=1)


def test_a_title_is_worded_in_one_of_its_ways(say: Said, moles: str) -> None:
    wordings = say.json("titles", moles, code=1)["wordings"]
    assert [one["now"] for one in wordings].count(True) <= 1
    shorter = wordings[1]["text"]
    worded = say.json("titles", moles, "--words", shorter)
    assert {" ".join(one["lines"]) for one in worded["edges"]} == {shorter}
    assert worded["edges"][0]["steps"] == wordings[1]["steps"]
    assert f"* {shorter}" in say("titles", moles, code=1)
    assert "is no wording of" in say("titles", moles, "--words", "Otters", code=2)
    assert "this is for one game" in say("titles", "--words", "Otters", code=2)


def test_a_logo_is_put_on_the_edges_of_a_game(say: Said, tmp_path: Path) -> None:
    from PIL import Image

    logo = tmp_path / "logo.png"
    Image.new("RGB", (1200, 140), "#802020").save(logo)
    assert "It stands for the title." in say("titles", "lantern-bay-3", "--logo", str(logo))
    (game,) = say.json("propose", "lantern-bay-3")["games"]
    assert {edge["logo"] for edge in game["title_setting"]["edges"]} == {"logo"}


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--mark", "wing"], "wing: no such column. Columns are series"),
        (["--narrowest", "0.2"], "narrowest: it is from 0.7 to 1."),
        (["--upright", "biscuit tin"], "biscuit tin: no such case kind."),
    ],
)
def test_a_wrong_setting_is_one_sentence(say: Said, arguments: list[str], words: str) -> None:
    assert words in say("setup", *arguments, code=2)


def test_a_short_form_that_is_none_is_refused(say: Said) -> None:
    with pytest.raises(SystemExit):
        say("setup", "--short", "Adventure")
