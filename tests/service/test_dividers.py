"""Dividers and labels: inserts like any other, and no games."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine import Stage, Workshop


def test_they_are_decided_ganged_and_printed_with_everything_else(stocked: Workshop) -> None:
    shop = stocked
    shop.room.add("Hall", (500, 90, 90))
    assert [one.title for one in shop.dividers.report().wanted] == ["L", "Hall: L"]
    divider, label = shop.dividers.add().present
    assert (divider.id, label.id) == ("divider-l", "shelf-label-hall-l")
    assert shop.dividers.report().wanted == ()
    report = shop.designs.accept([divider.id, label.id, "lantern-bay-1"])
    assert len(report.accepted) == 3
    placed = {
        one.game: (one.case, sorted((one.width, one.height)))
        for sheet in shop.sheets.press(part_full=True).sheets
        for one in sheet.placements
    }
    # As their files say, less what a score takes of card of 0.25 mm (docs/cases/caliper.md).
    assert placed["divider-l"] == ("divider", [71.75, 85.75])
    assert placed["shelf-label-hall-l"] == ("shelf-label", [16.0, 120.0])
    shop.sheets.settle(1)
    shop.sheets.fit([divider.id])
    assert shop.dividers.report().present[0].stage is Stage.FITTED


def test_they_count_as_no_games(stocked: Workshop, tmp_path: Path) -> None:
    shop = stocked
    shop.room.add("Hall", (500, 90, 90))
    before = shop.progress(), shop.supplies.pace().left, shop.index.report().entries
    cases = [one for one in shop.supplies.report(0).needs if one.item.startswith("case:")]
    shop.dividers.add()
    assert (shop.progress(), shop.supplies.pace().left, shop.index.report().entries) == before
    report = shop.supplies.report(0)
    assert [one for one in report.needs if one.item.startswith("case:")] == cases
    (glue,) = [one for one in report.needs if one.item == "adhesive"]
    assert glue.needed == pytest.approx(12.0 * 1.6), "the label alone, in cm2"
    assert any("safety sheet" in note for note in report.notes)
    assert len(shop.room.report().places) == 12
    assert {one.game.partition("-")[0] for one in shop.room.where("L")} == {"lantern"}
    exported = shop.export(tmp_path / "out")
    assert (exported.games, exported.labels) == (12, 2)


def test_a_stale_one_says_the_new_words(stocked: Workshop) -> None:
    shop = stocked
    (divider,) = shop.dividers.add().present
    shop.setup.change(order="maker")
    assert [one.title for one in shop.dividers.report().stale] == ["L"]
    shop.room.add("Hall", (500, 90, 90))
    assert [one.title for one in shop.dividers.add().present] == ["L", "Hall"]
    shop.setup.change(order="title")
    assert shop.dividers.report().present[0].id == divider.id
    assert [one.title for one in shop.dividers.add().present] == ["L", "Hall: L"]


def test_a_list_with_a_title_like_a_divider_is_taken_in_whole(
    stocked: Workshop, tmp_path: Path
) -> None:
    stocked.dividers.add()
    (tmp_path / "more.txt").write_text("L\n", encoding="utf-8")
    assert stocked.games.intake(tmp_path / "more.txt", case="snap-shell").added == 1
    assert stocked.progress().games == 13
