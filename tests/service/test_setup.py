"""What is set for the whole collection: changed at once, refused with a sentence, undone."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine import CaseError, FontChoice, FontError, InputError, SpineryError, Workshop
from engine.model.settings import SETTINGS
from tests.lettering.making_fonts import make_font


def test_a_change_of_settings_is_taken_back_by_its_name(stocked: Workshop) -> None:
    before = stocked.setup.settings()
    stocked.setup.change(stocks={"snap-shell": "a5-card"})
    stocked.setup.change(patience=7, kerf=0.5)
    stocked.setup.change(patience=7)
    assert stocked.undo() == "changed the patience and the kerf"
    assert stocked.setup.settings().stocks == {"snap-shell": "a5-card"}
    assert stocked.undo() == "changed the paper of a case kind"
    assert stocked.setup.settings() == before


def test_only_what_became_another_is_named(stocked: Workshop) -> None:
    stocked.setup.change(patience=4, kerf=0.5, stock="a4-card", ink="grey", mode="free")
    assert stocked.undo() == "changed the kerf, the ink and the lettering"


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"kerf": -1}, "kerf: it is 0 mm or more"),
        ({"kerf": 2.5}, "kerf: 2.5 mm is more than the 2 mm between two inserts"),
        ({"kerf": float("nan")}, "kerf"),
        ({"patience": 0}, "patience: it is 1 or more"),
        ({"stock": "papyrus"}, "papyrus: no such stock"),
        ({"stocks": {"snap-shell": "papyrus"}}, "papyrus: no such stock"),
        ({"bleed": 1.2}, "bleed: a gutter of 2 mm is less than twice the bleed of 1.2 mm"),
        ({"gutter": 1, "bleed": 0.6}, "gutter: a gutter of 1 mm is less than twice"),
        ({"margins": (6, 6, 6)}, "margins"),
        ({"margins": {"left": 5, "inner": 2}}, "margins"),
        ({"smallest": 20, "largest": 10}, "smallest: is larger than the largest size"),
        ({"pins": {"series": {"Harbour": "red"}}}, "pins"),
        ({"shelf": 3}, "shelf: no such setting. Settings are stock,"),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(
    stocked: Workshop, wrong: dict, said: str
) -> None:
    before = stocked.setup.settings()
    with pytest.raises(InputError, match=said):
        stocked.setup.change(**{"batch_size": 9, "mode": "even"} | wrong)
    assert stocked.setup.settings() == before
    assert stocked.undo().startswith("took in"), "nothing came after"


def test_a_gutter_makes_room_for_its_bleed_in_one_change(stocked: Workshop) -> None:
    settings = stocked.setup.change(bleed=3, gutter=6)
    assert (settings.forme.bleed, settings.forme.gutter) == (3, 6)


def test_every_setting_has_a_line_that_names_what_is_set(stocked: Workshop) -> None:
    stocked.setup.change(case="keep-case", stocks={"snap-shell": "a5-card"}, upright=[""])
    lines = {line.setting.id: line.words for line in stocked.setup.lines()}
    assert list(lines) == list(SETTINGS)
    assert lines["case"] == stocked.kinds.kind("keep-case").name
    assert lines["stocks"].endswith(": A5 card, 200 g/m²")
    assert lines["upright"] == "every kind"


def test_a_font_is_copied_once_all_else_is_found_right(stocked: Workshop, tmp_path: Path) -> None:
    font = FontChoice(make_font(tmp_path / "boxes.ttf"))
    with pytest.raises(InputError, match="no such stock"):
        stocked.setup.change(font=font, stock="papyrus")
    assert not list((stocked.folder / "fonts").glob("*"))
    stocked.setup.change(font=font, mode="free")
    assert len(list((stocked.folder / "fonts").glob("*"))) == 1
    lines = {line.setting.id: line.words for line in stocked.setup.lines()}
    assert lines["font"] == stocked.setup.font_name() == "Boxes Regular"
    with pytest.raises(FontError, match="cannot be read"):
        stocked.setup.change(font=FontChoice(tmp_path / "gone.ttf"), patience=9)
    assert stocked.setup.settings().patience == 4
    assert stocked.undo() == "changed the font and the lettering"
    assert stocked.setup.settings().lettering.font is None


def test_panels_are_offered_with_what_they_are(stocked: Workshop) -> None:
    takes = SETTINGS["left_out"].takes.one
    assert takes.choices(stocked.setup.there("snap-shell"))["long"] == "edge"
    assert takes.choices(stocked.setup.there())["back"].endswith(" kinds")


@pytest.mark.parametrize(
    ("settings", "fault"),
    [
        ({"left_out": ["lid"]}, CaseError),
        ({"left_out": ["back", "long", "short"]}, CaseError),
        ({"stocks": "papyrus"}, InputError),
        ({"poses": "floating"}, InputError),
    ],
)
def test_a_kind_is_not_corrected_where_what_is_set_with_it_is_wrong(
    stocked: Workshop, settings: dict, fault: type[SpineryError]
) -> None:
    before = stocked.kinds.kind("snap-shell")
    with pytest.raises(fault):
        stocked.kinds.correct("snap-shell", [("back", "width", 0.5)], **settings)
    assert stocked.kinds.kind("snap-shell") == before
    assert not list((stocked.folder / "cases").glob("*.toml"))
