"""The finer choices of the art reach the design, and ink is told for inserts and sheets."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine import Fit, InkMode, Matte, Pattern, PictureError, RefusedError, Stage, Trim, Workshop
from tests.conftest import draw_cover


@pytest.fixture
def game(stocked: Workshop) -> str:
    return stocked.games.lines()[0].id


def art_of(shop: Workshop, game: str):
    return shop.designs.proposal(game).design.art


def test_a_picture_that_is_gone_is_named_as_the_person_knows_it(
    stocked: Workshop, game: str
) -> None:
    name = stocked.designs.proposal(game).design.art.picture
    (stocked.folder / "pictures" / name).unlink()
    with pytest.raises(PictureError) as told:
        stocked.proofs.proof(game)
    source = stocked.designs.proposal(game).art.source
    assert str(told.value) == (
        f"{source}, pictures/{name}: the picture is gone. Put it back or choose another."
    )


def test_the_crop_moves_and_stays_in_the_picture(stocked: Workshop, game: str) -> None:
    stocked.art.move_crop(game, 0.1, -0.2)
    assert art_of(stocked, game).focus == (0.6, 0.3)
    for _ in range(9):
        stocked.art.move_crop(game, 0.1, 0)
    assert art_of(stocked, game).focus == (1.0, 0.3)
    assert stocked.undo() == "changed Lantern Bay 1"
    assert art_of(stocked, game).focus == (0.9, 0.3), "the last four moved nothing"


def test_a_side_is_trimmed_and_given_back(stocked: Workshop, game: str) -> None:
    stocked.art.move_trim(game, "left", 0.05)
    stocked.art.move_trim(game, "bottom", 0.02)
    assert art_of(stocked, game).trim == Trim(left=0.05, bottom=0.02)
    stocked.art.move_trim(game, "left", -0.2)
    assert art_of(stocked, game).trim == Trim(bottom=0.02)
    assert stocked.art.next_trim(game).design.art.trim in stocked.art.trims(game)


def test_a_picture_is_split_its_lines_moved_and_joined(stocked: Workshop, game: str) -> None:
    begins, ends = stocked.art.split_or_join(game).design.art.split or (0, 0)
    assert 0.4 < begins < ends < 0.6
    stocked.art.move_split(game, begins=-0.01, ends=0.02)
    assert art_of(stocked, game).split == pytest.approx((begins - 0.01, ends + 0.02))
    assert stocked.art.split_or_join(game).design.art.split is None


def test_a_turn_is_in_degrees(stocked: Workshop, game: str) -> None:
    stocked.art.turn(game, 0.5)
    assert stocked.art.turn(game, 0.5).design.art.turn == 1.0
    assert "straightened by 1.0°" in stocked.designs.proposal(game).art.words


def test_every_way_to_fit_is_a_stop_with_a_band_and_without(
    workshop: Workshop, tmp_path: Path
) -> None:
    covers = tmp_path / "wide"
    covers.mkdir()
    draw_cover(covers / "Tin Gate.png", (90, 60, 40), (900, 500))
    listed = tmp_path / "list.txt"
    listed.write_text("Tin Gate\n", encoding="utf-8")
    workshop.games.intake(listed, covers, "snap-shell")
    snapshot = workshop._session.snapshot
    ways = [one.art for one in snapshot.proposer.fittings(snapshot.game("tin-gate"))]
    fills = [art for art in ways if art.fit is Fit.FILL and art.picture]
    assert {bool(art.band) for art in fills} == {False, True}
    stops = [workshop.art.next_fit("tin-gate").design.art for _ in ways]
    assert stops == [*ways[1:], ways[0]]


def test_a_matte_shows_the_picture_whole_then_goes_round(stocked: Workshop, game: str) -> None:
    seen = []
    for _ in range(len(Matte) + 1):
        art = stocked.art.next_matte(game).design.art
        assert art.fit in {Fit.MATTE, Fit.PIXELS}
        seen.append(art.matte)
    assert set(seen) == set(Matte)


def test_patterns_need_no_picture(stocked: Workshop, game: str) -> None:
    seen = [stocked.art.next_pattern(game).design.art for _ in Pattern]
    assert [art.pattern for art in seen] == list(Pattern)
    assert {art.picture for art in seen} == {None}
    assert seen[-1].words == "Lantern Bay 1"
    assert stocked.designs.proposal(game).art.words == "no picture, the title set large"
    assert stocked.designs.change_title(game, "Lantern / Bay I").design.art.words == "Lantern Bay I"


def test_what_needs_a_picture_is_refused_without_one(stocked: Workshop, game: str) -> None:
    stocked.art.next_pattern(game)
    for move in (stocked.art.next_matte, stocked.art.next_trim, stocked.art.split_or_join):
        with pytest.raises(RefusedError, match="shows no picture"):
            move(game)


def test_a_games_own_ink_mode_is_a_reprint(stocked: Workshop, game: str) -> None:
    stocked.designs.accept([game])
    (sheet,) = stocked.sheets.press(part_full=True).sheets
    stocked.sheets.settle(sheet.number or 0)
    assert stocked.designs.proposal(game).stage is Stage.PRINTED
    stocked.designs.change_ink([game], InkMode.GREY)
    assert stocked.designs.proposal(game).stage is Stage.TITLE_SET
    assert stocked.progress().reprints == 1
    stocked.designs.change_ink([game], None)
    assert stocked.designs.proposal(game).stage is Stage.PRINTED


def test_a_games_own_ink_mode_stays_when_the_setup_changes(stocked: Workshop, game: str) -> None:
    stocked.designs.change_ink([game], InkMode.DRAFT)
    stocked.setup.change(ink="letters")
    modes = {p.game: p.design.ink for p in stocked.designs.proposals()}
    assert modes.pop(game) is InkMode.DRAFT
    assert set(modes.values()) == {InkMode.LETTERS}
    assert stocked.art.next_ink(game).design.ink is InkMode.FULL


def test_ink_is_told_for_inserts_and_sheets(stocked: Workshop, game: str) -> None:
    stocked.designs.change_colour(game, "#000000")
    stocked.art.next_pattern(game)
    summary = stocked.ink.report([game])
    (insert,) = summary.inserts
    # Solid black but for white titles and the notch of its net, which is no paper of the insert.
    assert insert.coverage["black"] > 85
    assert insert.coverage["cyan"] == pytest.approx(0, abs=0.1)
    assert insert.saving[InkMode.FULL] == 0
    assert insert.saving[InkMode.DRAFT] == pytest.approx(0.5, abs=0.05)
    assert insert.saving[InkMode.LETTERS] > 0.9
    assert "ISO 32000-1" in summary.model


def test_a_sheet_takes_the_ink_of_its_inserts(stocked: Workshop, game: str) -> None:
    stocked.designs.change_colour(game, "#000000")
    stocked.art.next_pattern(game)
    stocked.designs.accept([game])
    (open_sheet,) = stocked.sheets.report().open
    summary = stocked.ink.report(sheets=[open_sheet])
    (insert,), (sheet,) = summary.inserts, summary.sheets
    placed, stock = open_sheet.placements[0], open_sheet.forme.stock
    # With 1 mm of bleed on every side.
    part = (placed.width + 2) * (placed.height + 2) / (stock.width * stock.height)
    assert sheet.coverage["black"] == pytest.approx(insert.coverage["black"] * part)
    assert sheet.saving == pytest.approx(insert.saving)
