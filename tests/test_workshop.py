"""The use cases from end to end, on a real collection in a folder."""

from pathlib import Path

import pytest

from engine import (
    ALL,
    Art,
    CaseError,
    Decision,
    Fit,
    InputError,
    ListError,
    Picture,
    PictureError,
    ReadOnlyError,
    RefusedError,
    Stage,
    Workshop,
    artwork,
    known_pictures,
    open_workshop,
    unpack,
)
from engine.artwork import inspect
from tests.conftest import TITLES, Clock, draw_cover


def ids(shop: Workshop) -> list[str]:
    return [game.id for game in shop.games()]


def stages(shop: Workshop) -> dict[str, int]:
    return {stage.value: n for stage, n in shop.progress().stages.items() if n}


def test_intake_matches_each_game_with_its_own_picture(stocked: Workshop) -> None:
    for proposal in stocked.proposals():
        assert proposal.sure, proposal.doubts
        assert proposal.art.source == f"{proposal.title.replace(' ', '_')} (Rev 1).png"


def test_taking_the_same_list_in_twice_adds_nothing(
    stocked: Workshop, delivery: tuple[Path, Path]
) -> None:
    before = stocked.games()
    again = stocked.intake(*delivery, "snap-shell")
    assert (again.added, again.known) == (0, len(TITLES))
    assert stocked.games() == before


def test_two_cartridges_of_one_title_are_two_games(workshop: Workshop, tmp_path: Path) -> None:
    twice = tmp_path / "twice.csv"
    twice.write_text("title,maker\nTide,North\nTide,South\n", encoding="utf-8")
    assert workshop.intake(twice).added == 2
    assert workshop.intake(twice).added == 0


def test_pictures_given_later_find_the_games(
    workshop: Workshop, delivery: tuple[Path, Path]
) -> None:
    list_file, pictures = delivery
    assert workshop.intake(list_file).bare == len(TITLES)
    assert workshop.intake(list_file, pictures).matched == len(TITLES)


def test_a_picture_is_opened_once_whatever_it_is_called(
    stocked: Workshop, delivery: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    list_file, pictures = delivery
    opened: list[str] = []

    def seen(path: Path, source: str) -> Picture:
        opened.append(source)
        return inspect(path, source)

    monkeypatch.setattr(artwork, "inspect", seen)
    before = dict(stocked.pictures())
    old, new = pictures / "Lantern_Bay_2 (Rev 1).png", pictures / "second of the bay.png"
    old.rename(new)
    draw_cover(pictures / "Lantern_Bay_5 (Rev 1).png", (200, 0, 0))
    delivered = unpack(list_file, pictures, known=known_pictures(stocked.folder))
    assert opened == ["Lantern_Bay_5 (Rev 1).png"]
    assert delivered.pictures[new.name].source == new.name
    fresh = unpack(list_file, pictures)
    assert delivered.pictures == fresh.pictures
    opened.clear()
    stocked.intake(list_file, pictures)
    assert opened == ["Lantern_Bay_5 (Rev 1).png"]
    after = dict(stocked.pictures())
    assert len(after) == len(before) + 1
    assert before.items() <= after.items()


def test_what_is_known_of_a_picture_goes_with_its_content_only(
    delivery: tuple[Path, Path],
) -> None:
    list_file, pictures = delivery
    known = unpack(list_file, pictures).pictures.values()
    (pictures / "Lantern_Bay_4 (Rev 1).png").write_bytes(b"no picture")
    with pytest.raises(PictureError, match="Lantern_Bay_4"):
        unpack(list_file, pictures, known=known)


def test_nothing_is_known_where_there_is_no_collection(tmp_path: Path) -> None:
    assert known_pictures(tmp_path / "nowhere") == ()
    assert list(tmp_path.iterdir()) == []


def test_a_broken_picture_refuses_the_whole_delivery(
    workshop: Workshop, delivery: tuple[Path, Path]
) -> None:
    list_file, pictures = delivery
    whole = (pictures / "Lantern_Bay_3 (Rev 1).png").read_bytes()
    (pictures / "Lantern_Bay_3 (Rev 1).png").write_bytes(whole[: len(whole) // 2])
    with pytest.raises(PictureError, match="Lantern_Bay_3"):
        workshop.intake(list_file, pictures)
    assert workshop.games() == ()
    assert list((workshop.folder / "pictures").iterdir()) == []
    report = workshop.intake(list_file, pictures, skip_broken=True)
    assert (report.added, report.matched, report.bare) == (12, 11, 1)
    assert any("Lantern_Bay_3" in note for note in report.notes)


def test_unknown_case_kind_names_the_kinds(workshop: Workshop, delivery: tuple[Path, Path]) -> None:
    with pytest.raises(CaseError, match="snap-shell"):
        workshop.intake(*delivery, "biscuit tin")
    assert workshop.games() == ()


def test_a_list_that_is_missing_is_named(workshop: Workshop, tmp_path: Path) -> None:
    with pytest.raises(ListError, match=r"nowhere\.csv"):
        workshop.intake(tmp_path / "nowhere.csv")


def test_accepting_art_then_title_climbs_the_stages(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.accept([one], [Decision.ART])
    assert stocked.proposal(one).stage is Stage.ART_CHOSEN
    assert Decision.CASE in stocked.proposal(one).accepted
    stocked.accept([one], [Decision.TITLE])
    assert stocked.proposal(one).stage is Stage.TITLE_SET
    assert set(stocked.proposal(one).accepted) == set(ALL)


def test_accepting_sure_ones_leaves_the_doubtful(workshop: Workshop, tmp_path: Path) -> None:
    list_file = tmp_path / "two.txt"
    list_file.write_text("Lantern Bay\nOtter Ferry\n", encoding="utf-8")
    (tmp_path / "covers").mkdir()
    draw_cover(tmp_path / "covers" / "lantern bay.png", (10, 60, 120))
    workshop.intake(list_file, tmp_path / "covers", "snap-shell")
    report = workshop.accept(ids(workshop), sure_only=True)
    assert report.accepted == ("lantern-bay",)
    assert [left.title for left in report.left] == ["Otter Ferry"]
    assert "No picture" in report.left[0].doubts[0]
    assert workshop.accept(["otter-ferry"]).accepted == ("otter-ferry",)
    assert workshop.proposal("otter-ferry").design.art.picture is None


def test_a_proposal_never_overwrites_what_was_accepted(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.change_colour(one, "#0a6")
    stocked.change_title(one, "Lantern/Bay")
    stocked.accept([one])
    design = stocked.proposal(one).design
    assert design.colours.base == "#00aa66"
    assert {edge.lines for edge in design.title} == {("Lantern", "Bay")}


def test_changing_the_case_opens_the_title_again(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.accept([one])
    proposal = stocked.change_case(one, "soft-cassette")
    assert proposal.case == "soft-cassette"
    assert proposal.stage is Stage.ART_CHOSEN
    assert [edge.panel for edge in proposal.edges] == ["spine"]


def test_art_can_be_changed_and_reopened(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    ways = stocked.arts(one)
    assert {art.fit for art in ways} >= {Fit.STRETCH, Fit.MATTE, Fit.FILL}
    assert ways[-1].picture is None
    stocked.change_art(one, ways[1])
    assert stocked.proposal(one).design.art == ways[1]
    stocked.reopen([one], [Decision.ART])
    assert stocked.proposal(one).design.art == ways[0]


def test_wrong_names_are_sentences(stocked: Workshop) -> None:
    with pytest.raises(InputError, match="no such game"):
        stocked.proposal("otter-ferry")
    with pytest.raises(InputError, match="could be"):
        stocked.proposal("Lantern")
    with pytest.raises(InputError, match="is no colour"):
        stocked.change_colour(ids(stocked)[0], "teal-ish")
    with pytest.raises(InputError, match="is empty"):
        stocked.change_title(ids(stocked)[0], " / ")
    with pytest.raises(InputError, match="not among the pictures"):
        stocked.change_art(ids(stocked)[0], Art(picture="gone.png"))
    with pytest.raises(InputError, match="no such sheet"):
        stocked.settle(4)


def press_all(shop: Workshop) -> list[int]:
    shop.accept(ids(shop))
    return [sheet.number or 0 for sheet in shop.press(part_full=True).sheets]


def test_nothing_to_press_says_what_is_missing(stocked: Workshop) -> None:
    with pytest.raises(RefusedError, match="No insert waits"):
        stocked.press()
    stocked.accept(ids(stocked)[:1])
    with pytest.raises(RefusedError, match="No sheet is full yet; 1 inserts wait"):
        stocked.press()
    lacks = stocked.sheets().open[0].lacks
    assert lacks[0].case == "snap-shell"
    assert lacks[0].count >= 1


def test_every_game_is_in_exactly_one_place(stocked: Workshop) -> None:
    stocked.accept(ids(stocked))
    report = stocked.sheets()
    ready = [p.game for sheet in report.ready for p in sheet.placements]
    waiting = [p.game for sheet in report.open for p in sheet.placements]
    assert sorted(ready + waiting) == sorted(ids(stocked))
    pressed = stocked.press()
    assert sorted(p.game for s in pressed.sheets for p in s.placements) == sorted(ready)
    after = stocked.sheets()
    assert after.ready == ()
    assert [s.number for s in after.pressed] == [s.number for s in pressed.sheets]
    assert any("sharps box" in note for note in pressed.notes)


def test_settle_marks_good_and_spoiled(stocked: Workshop) -> None:
    numbers = press_all(stocked)
    first = next(s for s in stocked.sheets().pressed if s.number == numbers[0])
    spoiled = first.placements[1].game
    stocked.settle(numbers[0], [2])
    assert stocked.proposal(spoiled).stage is Stage.TITLE_SET
    good = [p.game for p in first.placements if p.game != spoiled]
    assert {stocked.proposal(game).stage for game in good} == {Stage.PRINTED}
    with pytest.raises(InputError, match="has no placement 99"):
        stocked.settle(numbers[0], [99])
    with pytest.raises(RefusedError, match="is settled"):
        stocked.withdraw(numbers[0])
    with pytest.raises(RefusedError, match="not printed"):
        stocked.fit([spoiled])
    stocked.fit(good)
    assert {stocked.proposal(game).stage for game in good} == {Stage.FITTED}


def test_a_change_after_pressing_is_caught_on_settling(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    game = stocked.sheets().pressed[0].placements[0].game
    stocked.change_colour(game, "#112233")
    progress = stocked.settle(number)
    assert any("was changed after" in note for note in progress.notes)
    assert stocked.proposal(game).stage is Stage.TITLE_SET


def test_a_change_after_printing_waits_again(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    game = stocked.sheets().pressed[0].placements[0].game
    stocked.settle(number)
    stocked.change_colour(game, "#112233")
    assert stocked.progress().reprints == 1
    assert next(g for g in stocked.games() if g.id == game).reprint


def test_withdrawing_puts_everything_back_and_the_page_away(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    page = stocked.folder / "sheets" / f"sheet-{number:04d}.pdf"
    whole = page.read_bytes()
    stocked.withdraw(number)
    assert not page.exists()
    with pytest.raises(InputError, match="was withdrawn"):
        stocked.settle(number)
    stocked.undo()
    assert page.read_bytes() == whole
    stocked.withdraw(number)
    assert number not in [s.number for s in stocked.press(part_full=True).sheets]


def test_undo_takes_back_each_deed_in_turn(stocked: Workshop) -> None:
    start = stages(stocked)
    stocked.next_batch()
    stocked.accept(ids(stocked))
    number = stocked.press(part_full=True).sheets[0].number or 0
    stocked.settle(number)
    assert stocked.undo() == f"settled sheet {number}"
    assert stocked.undo().startswith("pressed sheet 1")
    assert stages(stocked) == {"title set": 12}
    assert stocked.undo().startswith("accepted Lantern Bay 1 and 11 more")
    assert stages(stocked) == start
    assert stocked.undo() == "changed the batch"
    assert stocked.undo() == "took in games.csv"
    assert stocked.games() == ()
    with pytest.raises(RefusedError, match="nothing to take back"):
        stocked.undo()


def test_batches_bring_the_next_unfinished_games(stocked: Workshop) -> None:
    first = stocked.next_batch()
    assert first == tuple(ids(stocked)[:6])
    stocked.accept(first[:4])
    second = stocked.next_batch()
    assert second == (*first[4:], *ids(stocked)[6:10])
    assert stocked.drop_from_batch(first[4:]) == tuple(ids(stocked)[6:10])
    assert stocked.add_to_batch([first[0]])[-1] == first[0]


def test_what_was_done_is_there_when_opened_again(
    stocked: Workshop, tmp_path: Path, clock: Clock
) -> None:
    stocked.accept(ids(stocked)[:3])
    before = stocked.games()
    stocked.close()
    again = open_workshop(tmp_path / "shelf", clock)
    try:
        assert again.games() == before
        assert again.check().ok
    finally:
        again.close()


def test_the_second_to_open_reads_only(stocked: Workshop, tmp_path: Path, clock: Clock) -> None:
    second = open_workshop(tmp_path / "shelf", clock)
    try:
        assert second.read_only
        assert second.games() == stocked.games()
        with pytest.raises(ReadOnlyError, match="reading only"):
            second.accept(ids(second))
    finally:
        second.close()


def test_setup_changes_paper_and_rule(stocked: Workshop) -> None:
    settings = stocked.set_up(stock_id="letter-card", rule="knife", margins=(5, 5, 5, 10))
    assert (settings.stock.width, settings.stock.height) == (215.9, 279.4)
    assert settings.forme.stock.margins.bottom == 10
    with pytest.raises(InputError, match="no such stock"):
        stocked.set_up(stock_id="papyrus")
    with pytest.raises(InputError, match="margins"):
        stocked.set_up(margins=(100, 100, 5, 5))
    with pytest.raises(InputError, match="batch_size"):
        stocked.set_up(batch_size=0)
    assert stocked.settings() == settings


def test_a_measured_caliper_changes_the_dieline(stocked: Workshop) -> None:
    before = stocked.net("snap-shell").size
    stocked.set_up(caliper=0.45)
    after = stocked.net("snap-shell").size
    # Fitting into an opening, all of a fold takes one caliper (docs/cases/caliper.md).
    assert before.width - after.width == pytest.approx(0.2)
    for slip in (0, 3, -1, "thick"):
        with pytest.raises(InputError, match="thickness of paper"):
            stocked.set_up(caliper=slip)


def test_proof_is_a_png(stocked: Workshop, tmp_path: Path) -> None:
    stocked.write_proof(ids(stocked)[0], tmp_path / "proof.png")
    assert (tmp_path / "proof.png").read_bytes().startswith(b"\x89PNG")
    with pytest.raises(InputError, match=r"end in \.png"):
        stocked.write_proof(ids(stocked)[0], tmp_path / "proof.jpg")
    with pytest.raises(InputError, match="cannot be written"):
        stocked.write_proof(ids(stocked)[0], tmp_path / "nowhere" / "proof.png")


def test_the_same_collection_gives_the_same_pages(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    page = stocked.folder / "sheets" / f"sheet-{number:04d}.pdf"
    first = page.read_bytes()
    stocked.undo()
    stocked.press(part_full=True)
    assert page.read_bytes() == first


def test_a_last_sheet_says_how_much_paper_it_leaves(stocked: Workshop) -> None:
    games = ids(stocked)
    stocked.accept(games)
    notes = stocked.press().notes
    assert not any("part-full" in note for note in notes), "twelve fill two sheets of six"
    stocked.undo()
    stocked.reopen(games[1:])
    assert any("part-full" in note for note in stocked.press(part_full=True).notes)


def test_a_panel_left_out_changes_the_net_and_opens_the_title(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.accept([one])
    proposal = stocked.change_panels(one, {"short"})
    assert proposal.design.left_out == ("short",)
    assert [edge.panel for edge in proposal.edges] == ["long"]
    assert proposal.stage is Stage.ART_CHOSEN
    stocked.accept([one])
    placed = stocked.sheets().open[0].placements[0]
    whole, less = stocked.net("snap-shell").size, 0.02
    assert {round(placed.width, 2), round(placed.height, 2)} != {whole.width, whole.height}
    assert max(placed.width, placed.height) < max(whole) - less
    with pytest.raises(CaseError, match="no panel"):
        stocked.change_panels(one, {"spine"})
    with pytest.raises(CaseError):
        stocked.change_panels(one, {"back", "long", "short"})


def test_setup_leaves_a_panel_out_of_every_case(stocked: Workshop) -> None:
    stocked.set_up(left_out={"": ["short"]})
    assert [edge.panel for edge in stocked.proposal(ids(stocked)[0]).edges] == ["long"]


def test_a_label_has_no_panel_for_art_and_needs_none(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    proposal = stocked.change_case(one, "edge-label")
    assert proposal.art.words == "no panel for art"
    assert proposal.sure
    assert stocked.arts(one)[-1].picture is None


@pytest.mark.parametrize("suffix", [".svg", ".dxf", ".pdf", ".png"])
def test_nets_are_drawn(stocked: Workshop, tmp_path: Path, suffix: str) -> None:
    out = tmp_path / f"net{suffix}"
    stocked.draw_net("soft-cassette", out)
    assert out.stat().st_size > 500
    with pytest.raises(InputError, match="net"):
        stocked.draw_net("soft-cassette", tmp_path / "net.doc")


def test_many_games_change_their_case_as_one_deed(stocked: Workshop) -> None:
    before = stocked.games()
    stocked.change_cases(ids(stocked)[:5], "soft-cassette")
    assert [game.case for game in stocked.games()].count("soft-cassette") == 5
    stocked.undo()
    assert stocked.games() == before


def test_another_picture_is_fitted_as_it_loses_least(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    other = stocked.pictures("lantern bay 7")[0]
    assert other[1] == "Lantern_Bay_7 (Rev 1).png"
    proposal = stocked.swap_picture(one, other[0])
    assert proposal.art.source == other[1]
    assert proposal.design.art.fit is stocked.arts(one)[0].fit
