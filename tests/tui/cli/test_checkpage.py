"""``spinery check-page``: what is measured of a printer is kept, and undone on what is pressed."""

from __future__ import annotations

import sys
from io import StringIO
from pathlib import Path

import msgspec
import pdfplumber
import pytest

from engine.model.settings import Settings
from tests.tui.conftest import Said

MM = 25.4 / 72  # the inch of 1959; ISO 32000-1, 8.3.2.3
TRUE = {
    "--level": "186", "--upright": "267", "--rising": "263.04", "--falling": "263.04",
    "--left-below": "9", "--left-above": "9", "--bottom": "15",
}  # fmt: skip
LONG = {**TRUE, "--level": "187.86", "--rising": "264.36", "--falling": "264.36"}
"""A printer that stretches 1 % across: 186 × 1.01; hypot(187.86, 186) for the diagonals."""


def typed(figures: dict[str, str]) -> list[str]:
    return [word for pair in figures.items() for word in pair]


def test_the_page_is_written_among_the_sheets_and_the_health_check_knows_it(say: Said) -> None:
    said = say("check-page")
    assert (say.folder / "sheets" / "check-a4-card.pdf").is_file()
    assert "--level        the level bar, A to B: 186.0" in said
    assert "back" not in said
    assert say("check") == "All is well.\n"
    assert "--back-right" in say("check-page", "--duplex")
    with pdfplumber.open(say.folder / "sheets" / "check-a4-card.pdf") as opened:
        assert len(opened.pages) == 2


def test_what_was_measured_is_undone_on_every_page_from_then_on(say: Said) -> None:
    say("propose", "--accept")
    said = say("check-page", *typed(LONG))
    assert "101.00 % across, 100.00 % up" in said
    told = say.json("press", "--part-full")
    assert any(note.startswith("The printer is allowed for on A4 card") for note in told["notes"])
    with pdfplumber.open(told["sheets"][0]["file"]) as opened:
        page = opened.pages[0]
        level = max((x["x1"] - x["x0"]) * MM for x in page.lines if x["height"] < 0.1)
        upright = max((x["y1"] - x["y0"]) * MM for x in page.lines if x["width"] < 0.1)
        assert "The printer is allowed for: 101.00 % across" in page.extract_text()
    assert level * 1.01 == pytest.approx(100, abs=0.02)
    assert upright == pytest.approx(100, abs=0.02)


def test_a_trial_cut_is_corrected_too(say: Said, tmp_path: Path) -> None:
    files = [tmp_path / name for name in ("as-it-comes.pdf", "corrected.pdf")]
    say("cases", "snap-shell", "--trial", "--out", str(files[0]))
    say("check-page", *typed(LONG))
    say("cases", "snap-shell", "--trial", "--out", str(files[1]))
    widths = []
    for file in files:
        with pdfplumber.open(file) as opened:
            page = opened.pages[0]
            found = [p[0] for one in [*page.rects, *page.curves] for p in one["pts"]]
        widths.append(max(found) - min(found))
    assert widths[0] / widths[1] == pytest.approx(1.01, abs=1e-4)


def test_figures_that_no_true_page_has_are_doubted(say: Said) -> None:
    fitted = {**TRUE, "--level": "178.5", "--upright": "256.3"}
    said = say("check-page", *typed(fitted), code=2)
    assert said.startswith("level: 178.5 mm is 96.0 % of 186.0 mm. Is the viewer scaling?")
    assert say.json("check-page")["calibration"] is None
    kept = say.json("check-page", *typed(fitted), "--anyway")
    assert kept["calibration"]["across_percent"] == pytest.approx(95.97)


def test_what_is_lacking_is_named(say: Said) -> None:
    assert "lacks --upright, --rising" in say("check-page", "--level", "186", code=2)
    assert "lacks --back-up" in say("check-page", *typed(TRUE), "--back-right", "1", code=2)


def test_printers_and_stocks_are_kept_apart(say: Said) -> None:
    said = say("check-page", *typed(LONG), "--printer", "Upstairs")
    assert "spinery setup --printer 'Upstairs'" in said
    assert say.json("check-page")["calibration"] is None
    say("setup", "--printer", "Upstairs")
    assert say.json("check-page")["calibration"]["across_percent"] == 101
    assert say.json("check-page", "--stock", "a4-copy")["calibration"] is None
    say("check-page", *typed(TRUE))
    assert say.json("check-page")["calibration"]["across_percent"] == 100
    assert say("undo").startswith("Taken back: measured the printer on A4 card")
    assert say.json("check-page")["calibration"]["across_percent"] == 101
    say("check-page", "--forget")
    assert say.json("check-page")["calibration"] is None
    assert "nothing was measured on a4-card" in say("check-page", "--corrected", code=1)


def test_a_terminal_is_asked_one_figure_after_the_other(
    say: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One is no figure and one is doubted, put right; one is doubted and kept."""
    answers = ["wide", "17", "187,86", "267", "264.36", "264.36", "9", "15", "", "15"]

    class Terminal(StringIO):
        def isatty(self) -> bool:
            return True

    monkeypatch.setattr(sys, "stdin", Terminal("\n".join(answers) + "\n"))
    say("check-page", "--measured")
    told = say.json("check-page")["calibration"]
    assert told["across_percent"] == 101
    assert told["turn_deg"] == pytest.approx(-1.29, abs=0.01)  # arcsin(6 / 267)


def test_a_collection_from_before_opens(say: Said) -> None:
    """What has no calibrations in it has none."""
    assert msgspec.json.decode(b"{}", type=Settings).calibrations == ()
    assert b"calibration" not in (say.folder / "collection.json").read_bytes()
