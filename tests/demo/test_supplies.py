"""The worked example of docs/supplies.md: what the program says is what adds up by hand there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from engine import Pack, SuppliesReport, Workshop
from engine.shelf.supplies import PAGE

pytestmark = pytest.mark.xdist_group("demo")

PAGE_OF_DOCS = (Path(__file__).parents[2] / "docs" / "supplies.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def report(demo: Workshop) -> SuppliesReport:
    """What is said where the page's own stock is in the house."""
    packs = {"snap-shell": Pack(10, 4.5), "a4-card": Pack(50, 12.9)}
    demo.supplies.keep({"snap-shell": 20, "a4-card": 10}, packs, "€")
    return demo.supplies.report(sample=0)


def by_hand() -> dict[str, str]:
    """Return the results of the page's table, by step."""
    _, table = PAGE_OF_DOCS.split("| step | sum | result |\n| --- | --- | --- |\n")
    rows = re.findall(r"^\| ([^|]+) \| ([^|]+) \| ([^|]+) \|$", table, re.M)
    return {step: result for step, _, result in rows}


def test_the_example_adds_up(report: SuppliesReport) -> None:
    hand = by_hand()
    needs = {need.item: need for need in report.needs}
    shells, paper = needs["case:snap-shell"], needs["paper:a4-card"]
    spoilage, pace = report.spoilage, report.pace
    said = {
        "games left": f"{report.games}",
        "of them in keep cases": f"{needs['case:keep-case'].needed:g}",
        "in soft cassette cases": f"{needs['case:soft-cassette'].needed:g}",
        "in snap shells": f"{shells.needed:g}",
        "snap shells to buy, 20 in the house": f"{shells.missing:g}",
        "packs of 10": f"{shells.packs}",
        "what they cost at 4.50": f"{shells.price:.2f}",
        "inserts settled, spoiled": f"{spoilage.settled}, {spoilage.spoiled}",
        "prints an insert": f"{spoilage.prints:.2f}",
        "sheets of the plan": f"{report.planned}",
        "with spoilage": f"{paper.needed:g}",
        "sheets to buy, 10 in the house": f"{paper.missing:g}",
        "evenings worked, games fitted": f"{pace.evenings}, {pace.weeks[-1].total}",
        "games an evening": f"{pace.done_an_evening:.1f}",
        "evenings left": f"{pace.evenings_left}",
        "minutes worked": f"{pace.minutes_a_game * pace.weeks[-1].total:g}",
        "hours left": f"{pace.hours_left:.1f}",
    }
    assert said == hand


def test_the_sums_of_the_page_are_right() -> None:
    """Each sum that is written in figures gives the result beside it, whatever the program says."""
    rows = re.findall(r"^\| ([^|]+) \| ([\d.,×/−+ ]+)[^|]* \| ([\d.]+) \|$", PAGE_OF_DOCS, re.M)
    assert len(rows) >= 9
    for step, written, result in rows:
        value = product_of(written.split(",")[0].split("=")[0])
        assert value == pytest.approx(float(result), abs=0.51), step


def product_of(written: str) -> float:
    """Return what a row of figures comes to, from left to right."""
    value, by = 0.0, "+"
    for sign in re.findall(r"[\d.]+|[×/−+]", written):
        if sign in "×/−+":
            by = sign
        else:
            one = float(sign)
            value = {"+": value + one, "−": value - one, "×": value * one, "/": value / one}[by]
    return value


def test_the_ink_of_an_insert_by_hand(demo: Workshop) -> None:
    snapshot = demo.supplies._session.snapshot
    ink, size = demo.supplies._ink.printed(snapshot, "postman-of-gull-rock")
    covered = size.width * size.height * ink.black / 100
    assert f"{size.width:g} × {size.height:g} mm" in PAGE_OF_DOCS
    assert f"{ink.black:.1f} %: {covered:.0f} mm²" in PAGE_OF_DOCS
    assert f"{covered:.0f} / {PAGE:.1f} = {covered / PAGE:.3f} pages" in " ".join(
        PAGE_OF_DOCS.split()
    )


def test_what_is_noted_is_one_change_and_taken_back(demo: Workshop) -> None:
    before = demo.setup.settings().house
    demo.supplies.keep({"black": 0.5})
    assert demo.setup.settings().house.have["ink:black"] == 0.5
    assert demo.undo() == "noted supplies"
    assert demo.setup.settings().house == before
