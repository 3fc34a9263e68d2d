"""``spinery setup``: each setting has an option, a line, a place in JSON and on the page."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine import SETTINGS
from tests.tui.conftest import Said
from tui.cli.options import option_of
from tui.cli.page import settings_page

ROOT = Path(__file__).parents[3]

ASKED: dict[str, tuple[list[str], object]] = {
    "stock": (["a5-card"], "A5 card, 200 g/m² (a5-card)"),
    "margins": (["5,6,7,8.5"], "left 5 right 6 top 7 bottom 8.5 mm"),
    "caliper": (["0,31"], "0.31 mm"),
    "stocks": (["snap-shell=a5-card"], "Clear snap shell, standard handheld cartridge: A5 card"),
    "printer": (["Desk printer"], "Desk printer\n"),
    "rule": (["knife"], "knife: free placement"),
    "patience": (["1"], "1 sheet\n"),
    "bleed": (["0.5"], "0.5 mm"),
    "gutter": (["4"], "4 mm"),
    "free_bleed": (["1.5"], "1.5 mm"),
    "free_gutter": (["8"], "8 mm"),
    "kerf": (["0.5"], "0.5 mm"),
    "least_distance": (["15"], "15 mm"),
    "least_edge": (["40"], "40 mm"),
    "stack": (["1"], "1 mm"),
    "reverse": (["long"], "long: turned over the long edge of the paper"),
    "machine": (["dxf"], "dxf: as DXF, on layers"),
    "batch_size": (["8"], "8 games"),
    "threshold": (["0.95"], "0.95\n"),
    "case": (["keep case, wrap"], "Keep case, wrap (keep-case)"),
    "pose": (["stack"], "stack: stacked, face up"),
    "poses": (["keep-case=drawer"], "Keep case, wrap: drawer: standing in a box or drawer"),
    "spine": (["ascending"], "ascending: from bottom to top"),
    "left_out": (["short", "long"], "every kind: long, short"),
    "ink": (["draft"], "draft: draft, half as dense"),
    "order": (["series"], "series: by series, then number"),
    "alphabet": (["Swedish"], "Swedish (sv)"),
    "articles": (["de", "French"], "German, French (de fr)\n"),
    "dividers": ([], "yes\n"),
    "mode": (["free"], "free: each title"),
    "lines": (["1"], "1\n"),
    "smallest": (["6.5"], "6.5 pt"),
    "largest": (["18"], "18 pt"),
    "narrowest": (["0.85"], "0.85\n"),
    "distance": (["700"], "700 mm"),
    "upright": (["snap-shell"], "Clear snap shell, standard handheld cartridge\n"),
    "dictionary": (["Bay=By", "Lantern=Ln."], "Bay=By, Lantern=Ln.\n"),
    "mark": (["=★"], "=★\n"),
    "mark_room": (["8"], "8 mm"),
    "mark_end": (["head"], "head: where the title begins"),
    "mark_across": ([], "yes\n"),
    "stripe": (["Series"], "series\n"),
    "stripe_room": (["3"], "3 mm"),
}
"""What is typed after a setting's option, and what its line says then."""


def test_every_setting_of_the_command_line_is_tried_here() -> None:
    elsewhere = {"font", "colour_by", "pins"}
    assert ASKED.keys() | elsewhere == SETTINGS.keys()


@pytest.mark.parametrize("name", ASKED)
def test_a_setting_is_changed_shown_and_taken_back(say: Said, name: str) -> None:
    setting, (typed, shown) = SETTINGS[name], ASKED[name]
    before = say.json("setup")
    said = say("setup", f"--{option_of(setting)}", *typed)
    assert f"{setting.title:<24}{shown}" in said
    assert say.json("setup") != before
    words, differs, *_ = say("undo").splitlines()
    assert words == f"Taken back: changed {setting.called}."
    assert differs.casefold().startswith(f"{setting.title}: ".casefold())
    assert " → " in differs
    assert say.json("setup") == before


def test_a_setting_stands_in_json_under_its_name_and_unit(say: Said) -> None:
    told = say.json("setup")
    for setting in SETTINGS.values():
        if setting.home != "stock":
            place = told["lettering"] if setting.home == "lettering" else told
            assert setting.key in place, setting.id


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("--patience 0", "patience: it is 1 or more. Give another value."),
        ("--kerf -1", "kerf: it is 0 mm or more."),
        ("--kerf 2.5", "kerf: 2.5 mm is more than the 2 mm between two inserts"),
        ("--bleed 4", "bleed: it is from 0 to 3 mm."),
        ("--bleed 1.5", "bleed: a gutter of 2 mm is less than twice the bleed of 1.5 mm"),
        ("--gutter 1.5", "gutter: a gutter of 1.5 mm is less than twice the bleed of 1 mm"),
        ("--caliper 2", "caliper: it is from 0.03 to 1 mm."),
        ("--margins 90,90,6,6", "margins: leave a field of"),
        ("--margins 6,6,-1,6", "margins: it is left,right,top,bottom in mm, 0 or more."),
        ("--smallest 12 --largest 10", "smallest: is larger than the largest size."),
        ("--stock papyrus", "papyrus: no such stock. Stocks are a4-card,"),
        ("--stock-of tin=a5-card", "tin: no such case kind. Kinds are "),
        ("--stock-of =a5-card", "no such case kind. Kinds are "),
        ("--case tin", "tin: no such case kind. Kinds are "),
        ("--without lid", 'no case kind has a panel "lid"'),
        ("--colour-by wing", "wing: no such column. The list has none."),
        ("--stripe wing", "wing: no such column. Columns are series, maker"),
        ("--font gone.ttf", "gone.ttf: cannot be read."),
        ("--face 1", "--face: goes with a font file. Give it with --font."),
    ],
)
def test_what_cannot_be_is_one_sentence_that_names_it(say: Said, typed: str, said: str) -> None:
    before = say.json("setup")
    assert said in say("setup", *typed.split(), code=2)
    assert say.json("setup") == before


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("--patience four", "four is no figure"),
        ("--patience 4.5", "4.5 is no whole number"),
        ("--kerf thin", "thin is no figure"),
        ("--kerf nan", "nan is no figure"),
        ("--margins 6,6", "6,6: write left,right,top,bottom in mm, 0 or more"),
        ("--rule scissors", "scissors: give trimmer or knife"),
        ("--lines 3", "3: give 1 or 2"),
        ("--stock-of a5-card", "a5-card: write the case kind and the value, as KIND=ID"),
        ("--short Adventure", "Adventure: write the words and the form, as Adventure=Adv."),
    ],
)
def test_what_is_no_value_at_all_is_told_with_what_is(say: Said, typed: str, said: str) -> None:
    with pytest.raises(SystemExit) as left:
        say("setup", *typed.split())
    assert left.value.code == 2
    assert said in " ".join(say.capsys.readouterr().err.split())


@pytest.mark.parametrize(
    ("option", "value", "back", "key"),
    [
        ("--stored", "stack", "usual", "stored"),
        ("--case", "keep-case", "usual", "case"),
        ("--stock-of", "snap-shell=a5-card", "snap-shell=usual", "stock_by_case"),
        ("--stored-of", "snap-shell=stack", "snap-shell=usual", "stored_by_case"),
    ],
)
def test_a_setting_is_left_to_what_is_usual(
    say: Said, option: str, value: str, back: str, key: str
) -> None:
    usual = say.json("setup")[key]
    assert say.json("setup", option, value)[key] != usual
    assert say.json("setup", option, back)[key] == usual


def test_what_a_change_does_is_said_and_tried_without_making_it(say: Said) -> None:
    """A5 is half of A4 (ISO 216): of 6 in two columns of three, one column of two is left."""
    before = say.json("setup")
    said = "Clear snap shell, standard handheld cartridge: 2 to a sheet instead of 6, "
    tried = say("setup", "--stock", "a5-card", "--lines", "1", "--what-if").splitlines()
    assert tried[0].startswith(said)
    assert tried[1].startswith("0 titles short of the reading distance, smallest type ")
    assert say.json("setup") == before
    assert say("setup", "--stock", "a5-card").splitlines()[-1] == tried[0]
    assert "names no change" in say("setup", "--what-if", code=2)


def test_a_picture_that_is_gone_stops_no_change(say: Said) -> None:
    for picture in (say.folder / "pictures").iterdir():
        picture.unlink()
    say("setup", "--ink", "draft")  # words, for which the change is looked at first
    assert say.json("setup")["ink"] == "draft"


def test_the_margins_stay_with_the_printer_when_the_paper_changes(say: Said) -> None:
    say("setup", "--margins", "5,5,5,10")
    stock = say.json("setup", "--stock", "a5-card")["stock"]
    assert (stock["id"], stock["margins_mm"]["bottom"]) == ("a5-card", 10)


def test_bleed_and_gutter_are_printed_as_they_are_set(say: Said) -> None:
    say("setup", "--bleed", "2", "--gutter", "5", "--free-gutter", "0")
    say("propose", "--accept", "--sure")
    sheet, *_ = say.json("press", "--part-full")["sheets"]
    assert (sheet["bleed_mm"], sheet["gutter_mm"]) == (2, 5)
    spots = [(p["x_mm"], p["y_mm"], p["width_mm"], p["height_mm"]) for p in sheet["placements"]]
    gaps = [
        max(bx - (ax + aw), ax - (bx + bw), by - (ay + ah), ay - (by + bh))
        for n, (ax, ay, aw, ah) in enumerate(spots)
        for bx, by, bw, bh in spots[n + 1 :]
    ]
    assert min(gaps) == pytest.approx(5, abs=0.05)


def test_the_page_of_settings_is_up_to_date() -> None:
    page = (ROOT / "docs" / "settings.md").read_text(encoding="utf-8")
    assert page == settings_page(), "write it anew: python -m tui.cli.page > docs/settings.md"
