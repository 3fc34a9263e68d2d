"""What the first steps say of cases, storage and papers."""

from __future__ import annotations

from math import ceil

import pytest
from rectpack import GuillotineBafSas, newPacker

from engine import Workshop


@pytest.fixture
def shop(stocked: Workshop) -> Workshop:
    return stocked


def test_the_steps_say_what_they_came_to(shop: Workshop) -> None:
    report = shop.starting.report()
    assert (report.games, report.pictured, report.doubtful) == (12, 12, 0)
    assert report.kind == "snap-shell"
    assert list(report.kinds.values()) == [12]
    assert report.measured == ""
    shop.setup.change(pose="stack", stock="a3-card")
    later = shop.starting.report()
    assert later.stored == "stacked, face up"
    assert later.on_sheet > report.on_sheet
    assert [one.used for one in shop.starting.storage()] == [False, False, True]


def test_a_sheet_is_said_to_hold_what_is_pressed_on_it(shop: Workshop) -> None:
    said = next(one.on_sheet for one in shop.starting.kinds() if one.id == "snap-shell")
    shop.designs.accept([line.id for line in shop.games.lines()])
    assert [len(sheet.placements) for sheet in shop.sheets.report().ready] == [said, said]


def test_no_sheet_is_said_to_hold_less_than_another_packer_lays_on_it(stocked: Workshop) -> None:
    """Compared with a heuristic of rectpack that cuts edge to edge, as the trimmer does."""
    settings = stocked.setup.settings()
    compared = 0
    for one in stocked.starting.kinds():
        forme = settings.forme_on(settings.stock_of(one.id))
        if one.on_sheet > 12 or not forme.holds(*one.flat):
            continue
        packer = newPacker(rotation=True, pack_algo=GuillotineBafSas)
        packer.add_bin(*(int(100 * (side + forme.gutter)) for side in forme.field[2:]))
        for _ in range(20):
            packer.add_rect(*(ceil(100 * (side + forme.gutter)) for side in one.flat))
        packer.pack()
        assert one.on_sheet >= sum(map(len, packer)) > 0, one.id
        compared += 1
    assert compared > 6


def test_papers_say_what_they_hold_and_which_is_used(shop: Workshop) -> None:
    papers = {one.stock.id: one for one in shop.starting.papers()}
    assert [key for key, one in papers.items() if one.used] == ["a4-card"]
    assert papers["a3-card"].on_sheet > papers["a4-card"].on_sheet > papers["a5-card"].on_sheet
