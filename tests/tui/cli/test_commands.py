"""The command line: what it prints, what it refuses, and its exit codes."""

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from engine import artwork
from tests.conftest import TITLES
from tests.tui.conftest import Said
from tui.cli.dispatch import run

Delivery = tuple[Path, Path]


def test_intake_tells_what_it_brought(
    delivery: Delivery, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    list_file, pictures = delivery
    arguments = ["intake", str(list_file), "--pictures", str(pictures), "--case", "snap-shell"]
    say = Said(tmp_path / "shelf", capsys)
    said = say(*arguments)
    assert "12 games added" in said
    assert "12 matched" in said
    assert say.json(*arguments)["known"] == 12


def test_a_second_intake_opens_no_picture_again(
    delivery: Delivery, say: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    def opened(path: Path, source: str) -> None:
        raise AssertionError(f"{source} was opened")

    monkeypatch.setattr(artwork, "inspect", opened)
    list_file, pictures = delivery
    again = say.json("intake", str(list_file), "--pictures", str(pictures))
    assert (again["known"], again["notes"]) == (12, [])


def test_progress_has_every_stage_in_order(say: Said) -> None:
    progress = say.json("progress")
    assert progress["games"] == 12
    assert list(progress["stages"]) == [
        *("listed", "art chosen", "title set", "printed", "fitted"),
        "not wanted",
    ]


def test_propose_tells_the_whole_design(say: Said) -> None:
    (game,) = say.json("propose", "Lantern Bay 3", "lantern-bay-3")["games"]
    assert game["id"] == "lantern-bay-3"
    assert game["sure"] is True
    assert game["art"]["source"] == "Lantern_Bay_3 (Rev 1).png"
    assert set(game["art"]["loss"]) == {"distortion", "cropped", "empty"}
    assert game["colour"]["contrast"] >= 4.5  # WCAG 2.2, success criterion 1.4.3
    assert [edge["panel"] for edge in game["title_setting"]["edges"]] == ["long", "short"]
    assert "lantern-bay-3" in say("propose", "lantern-bay-3")


def test_from_proposals_to_fitted(say: Said) -> None:
    assert "12 games accepted" in say("propose", "--accept", "--sure")
    sheets = say.json("sheets")
    assert len(sheets["ready"]) == 2
    assert sheets["plan"] == {"sheets": 2, "bound": 2, "proven": True}
    pressed = say.json("press")["sheets"]
    assert [sheet["number"] for sheet in pressed] == [1, 2]
    assert all(Path(sheet["file"]).is_file() for sheet in pressed)
    assert pressed[0]["pressed_at"].endswith("Z")
    assert say.json("settle", "1", "--spoiled", "2,3")["stages"]["printed"] == 4
    assert say.json("withdraw", "2")["stages"]["title set"] == 8
    good = pressed[0]["placements"][0]["game"]
    assert say.json("fit", good)["stages"]["fitted"] == 1
    assert "fitted" in say("undo")
    assert say.json("progress")["stages"]["fitted"] == 0


def test_the_plan_names_its_rule_and_its_stocks(say: Said) -> None:
    assert say("sheets", "--plan").strip() == "2 sheets, proven fewest under the trimmer rule"
    assert say.json("setup", "--stock-of", "snap-shell=a5-card", "--patience", "3")["patience"] == 3
    (part,) = say.json("sheets", "--plan")["plan_by_stock"]
    assert part["stock"] == "a5-card"
    assert say.json("setup", "--stock-of", "snap-shell=usual")["stock_by_case"] == {}
    assert "no such stock" in say("setup", "--stock-of", "snap-shell=vellum", code=2)


def test_the_batch_says_what_comes_of_it(say: Said) -> None:
    batch = say.json("batch", "--next")
    assert (len(batch["games"]), batch["full_sheets"], batch["waits"]) == (6, 1, 0)
    assert "With this batch 1 sheet is full and nothing waits." in say("batch")
    assert say.json("setup", "--batch-size", "8")["batch_size"] == 8
    games = ["lantern-bay-9", "lantern-bay-12"]
    assert say.json("batch", "--next", *games)["games"][6:] == games


def scored_at(net: dict[str, Any], placed: dict[str, Any]) -> Iterator[tuple[bool, float]]:
    """Where the scores of an insert run on its sheet: turned counter-clockwise, up is left."""
    for score in net["scores"]:
        upright = score["x1_mm"] == score["x2_mm"]
        if not placed["rotated"]:
            yield (
                upright,
                placed["x_mm"] + score["x1_mm"] if upright else placed["y_mm"] + score["y1_mm"],
            )
        elif upright:
            yield False, placed["y_mm"] + score["x1_mm"]
        else:
            yield True, placed["x_mm"] + placed["width_mm"] - score["y1_mm"]


def test_a_sheet_is_told_with_its_cuts(say: Said) -> None:
    say("propose", "--accept", "--sure")
    say("press", "--cut-page")
    assert "Sheet 1 (pressed): " in say("sheets", "--cuts")
    said = say("sheets", "1")
    assert "edge at the fence" in said
    sheet = say.json("sheets", "1", "--cuts")
    told = [f"{one['letter']:>3}  {one['words']}" for one in sheet["scores"]]
    first, then = (
        said.index(head) for head in ("Score first, along the diamonds:\n", "Then cut:\n")
    )
    assert said[first:then].splitlines()[1:] == told
    page = PdfReader(say.folder / "sheets" / "sheet-0001-cuts.pdf").pages[0].extract_text()
    assert "".join(told[0].split()) in "".join(page.split()), "as the cut page words it"
    (net,) = [one for one in say.json("cases")["cases"] if one["id"] == "snap-shell"]
    lines = {
        (upright, round(at, 2))
        for placed in sheet["placements"]
        for upright, at in scored_at(net, placed)
    }
    assert {(one["upright"], round(one["at_mm"], 2)) for one in sheet["scores"]} == lines
    assert {(one["side"], one["fold"]) for one in sheet["scores"]} == {("printed", "mountain")}
    assert sheet["cuts"][0]["number"] == 1
    assert {n for cut in sheet["cuts"] for n in cut["frees"]} == set(range(1, 7))
    assert (say.folder / "sheets" / "sheet-0001-cuts.pdf").is_file()


def test_a_part_full_sheet_is_filled_and_its_offcut_kept(say: Said) -> None:
    say("propose", "lantern-bay-1", "--accept")
    assert "only a part-full sheet is filled" in say("press", "--fillers", code=2)
    (sheet,) = say.json("press", "--part-full", "--fillers")["part_full"]
    assert sheet["inserts"] == 1
    assert "spare:lantern-bay-1" in [filler["id"] for filler in sheet["fillers"]]
    assert "edge label of Lantern Bay 1" in say("press", "--part-full", "--fillers")
    (pressed,) = say.json("press", "--part-full", "--fill", "strip")["sheets"]
    assert pressed["strip"]["width_mm"] > 0
    assert "not settled" in say("offcuts", "1", "--keep", "1", code=1)
    say("settle", "1")
    (offcut,) = say.json("offcuts", "1", "--keep", "1")["sheets"][0]["offcuts"][:1]
    assert offcut["kept"]
    assert "offcut 1" in say("offcuts")
    assert not say.json("offcuts", "1", "--keep", "")["sheets"][0]["offcuts"][0]["kept"]


def test_sheets_say_what_is_lacking(say: Said) -> None:
    say("propose", "lantern-bay-1", "--accept")
    (sheet,) = say.json("sheets")["open"]
    assert sheet["number"] is None
    assert sheet["lacks"] == [{"case": "snap-shell", "count": 5}]
    assert "lacks 5 snap-shell" in say("sheets")


def test_nothing_to_do_is_code_one(say: Said) -> None:
    assert "No insert waits" in say("press", code=1)
    say("propose", "--accept")
    assert say("propose", code=1).strip() == "Nothing is left to propose."


def test_cases_json_has_every_panel_and_score(say: Said) -> None:
    kinds = {kind["id"]: kind for kind in say.json("cases")["cases"]}
    assert {"snap-shell", "soft-cassette"} <= set(kinds)
    net = kinds["snap-shell"]
    assert [panel["name"] for panel in net["panels"]] == ["back", "long", "short"]
    assert len(net["scores"]) == 2
    assert net["sources"]


def test_a_net_and_a_proof_are_written(say: Said, tmp_path: Path) -> None:
    for name in ("net.svg", "net.dxf", "net.pdf", "net.png"):
        say("cases", "snap-shell", "--out", str(tmp_path / name))
        assert (tmp_path / name).stat().st_size > 500
    say("proof", "lantern-bay-1", "--out", str(tmp_path / "proof.png"))
    assert (tmp_path / "proof.png").read_bytes().startswith(b"\x89PNG")
    assert "Name it" in say("cases", "--out", str(tmp_path / "x.svg"), code=2)


@pytest.mark.parametrize("ppi", ["0", "-3", "1e9"])
def test_a_proof_of_no_fineness_is_refused(say: Said, tmp_path: Path, ppi: str) -> None:
    out = tmp_path / "proof.png"
    said = say("proof", "lantern-bay-1", "--out", str(out), f"--ppi={ppi}", code=2)
    assert said == "ppi: it is from 10 to 1200. Give another value.\n"
    assert not out.exists()


def test_setup_is_shown_and_changed(say: Said) -> None:
    changed = say.json("setup", "--stock", "letter-card", "--margins", "5,5,5,10")
    # ASME Y14.1: ANSI A is 8.5 × 11 in.
    assert (changed["stock"]["width_mm"], changed["stock"]["height_mm"]) == (215.9, 279.4)
    assert "Paper                   Letter card, 65 lb cover (letter-card)\n" in say("setup")


def test_check_says_all_is_well_or_what_is_not(say: Said, shelf: Path) -> None:
    assert say("check").strip() == "All is well."
    next((shelf / "pictures").iterdir()).unlink()
    found = say("check", code=1)
    assert "missing" in found or "gone" in found


def bad_inputs(tmp_path: Path, delivery: Delivery) -> dict[str, list[str]]:
    """What a person may give by mistake, by what the sentence must name."""
    list_file, pictures = delivery
    (tmp_path / "empty.csv").write_bytes(b"")
    (tmp_path / "junk.csv").write_bytes(bytes(range(256)) * 40)
    (tmp_path / "headless.csv").write_text("colour;size\nred;4\n", encoding="utf-8")
    (tmp_path / "a file").write_text("x", encoding="utf-8")
    broken, fake = tmp_path / "broken", tmp_path / "fake"
    for folder in (broken, fake):
        folder.mkdir()
    whole = next(pictures.iterdir()).read_bytes()
    (broken / "Lantern Bay 1.png").write_bytes(whole[: len(whole) // 2])
    (fake / "Lantern Bay 1.jpg").write_text("no picture at all", encoding="utf-8")
    shelf = ["--collection", str(tmp_path / "new shelf")]
    return {
        "nowhere.csv": ["intake", str(tmp_path / "nowhere.csv"), *shelf],
        "is a folder": ["intake", str(pictures), *shelf],
        "empty.csv": ["intake", str(tmp_path / "empty.csv"), *shelf],
        "junk.csv": ["intake", str(tmp_path / "junk.csv"), *shelf],
        "headless.csv": ["intake", str(tmp_path / "headless.csv"), *shelf],
        "Lantern Bay 1.png": ["intake", str(list_file), "--pictures", str(broken), *shelf],
        "Lantern Bay 1.jpg": ["intake", str(list_file), "--pictures", str(fake), *shelf],
        "nothing here": ["intake", str(list_file), "--pictures", "nothing here", *shelf],
        "a file": ["intake", str(list_file), "--collection", str(tmp_path / "a file")],
        "holds no collection": ["progress", "--collection", str(tmp_path / "covers")],
    }


BAD = [
    "nowhere.csv",
    "is a folder",
    "empty.csv",
    "junk.csv",
    "headless.csv",
    "Lantern Bay 1.png",
    "Lantern Bay 1.jpg",
    "nothing here",
    "a file",
    "holds no collection",
]


@pytest.mark.parametrize("named", BAD)
def test_bad_input_is_one_sentence_and_nothing_half_done(
    named: str, tmp_path: Path, delivery: Delivery, capsys: pytest.CaptureFixture[str]
) -> None:
    arguments = bad_inputs(tmp_path, delivery)[named]
    assert run(arguments) == 2
    said = capsys.readouterr().err.strip()
    assert named in said
    assert "\n" not in said
    assert "Traceback" not in said
    assert not (tmp_path / "new shelf").exists()


def test_unknown_games_sheets_and_folders_are_sentences(say: Said) -> None:
    assert "no such game" in say("proof", "otter ferry", "--out", "x.png", code=2)
    assert "no such sheet" in say("settle", "9", code=2)
    assert "no such case kind" in say("cases", "biscuit-tin", code=2)


def test_a_slip_in_a_command_is_no_new_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["pres"]) == 2
    assert "Did you mean press" in capsys.readouterr().err
    assert run(["one", "two"]) == 2
    assert list(tmp_path.iterdir()) == []


def test_the_collection_last_opened_is_the_usual_one(
    say: Said, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    say("progress")
    monkeypatch.chdir(tmp_path)
    assert run(["progress", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["games"] == len(TITLES)


def test_without_any_collection_it_says_how_to_make_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["progress"]) == 2
    assert "spinery FOLDER" in capsys.readouterr().err


def test_a_reader_who_leaves_is_no_fault(shelf: Path) -> None:
    run_it = [sys.executable, "-m", "tui", "cases", "--json", "--collection", str(shelf)]
    with subprocess.Popen(run_it, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as program:
        assert program.stdout is not None
        assert program.stderr is not None
        program.stdout.close()
        assert program.stderr.read() == b""
        assert program.wait() == 0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("press --again", "--again: names no sheet."),
        ("batch lantern-bay-1", "lantern-bay-1: is only brought in. Add --next."),
        ("supplies --have black=1 black=2", "black: is given twice. Give it once."),
        ("setup --stock-of snap-shell=a4-card snap-shell=a5-card", "snap-shell: is given twice."),
        ("where", "where: no title is given."),
        ("papers Pearl --size 100x150 --grammage -1", "grammage: it is from 10 to 1000 g/m²."),
        ("papers Pearl --size 100x150 --caliper 0", "caliper: it is from 0.03 to 1 mm."),
        ("-v", "-v: is no command. Write spinery COMMAND"),
    ],
)
def test_what_would_be_passed_over_is_refused(words: str, told: str, say: Said) -> None:
    empty = [""] if words in {"press --again", "where"} else []
    arguments = words.split() + empty
    folder = [] if words == "-v" else ["--collection", str(say.folder)]
    assert run([*arguments, *folder]) == 2
    assert say.capsys.readouterr().err.startswith(told)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("settle two", "argument SHEET: two is no whole number"),
        ("proof lantern-bay-1 --out a.png --ppi nan", "argument --ppi: nan is no number"),
        ("proof lantern-bay-1 --out a.png --ppi inf", "argument --ppi: inf is no number"),
        ("history --day soon", "argument --day: soon is no day: write it as 2026-03-01"),
        ("propose lantern-bay-1 --ink no", "(choose from 'full', 'grey', 'edges', "),
    ],
)
def test_what_is_no_figure_is_told_in_words(
    words: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        run(words.split())
    assert left.value.code == 2
    assert told in capsys.readouterr().err


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--version"]) == 0
    assert capsys.readouterr().out.startswith("spinery 0.")
