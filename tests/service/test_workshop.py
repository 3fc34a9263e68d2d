"""The use cases from end to end, on a real collection in a folder."""

from collections.abc import Iterator, Mapping
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
from engine.artwork import inspect_all
from engine.model import Colours
from tests.conftest import TITLES, Clock, draw_cover


def ids(shop: Workshop) -> list[str]:
    return [game.id for game in shop.games.lines()]


def stages(shop: Workshop) -> dict[str, int]:
    return {stage.value: n for stage, n in shop.progress().stages.items() if n}


def test_intake_matches_each_game_with_its_own_picture(stocked: Workshop) -> None:
    for proposal in stocked.designs.proposals():
        assert proposal.sure, proposal.doubts
        assert proposal.art.source == f"{proposal.title.replace(' ', '_')} (Rev 1).png"


def test_taking_the_same_list_in_twice_adds_nothing(
    stocked: Workshop, delivery: tuple[Path, Path]
) -> None:
    before = stocked.games.lines()
    again = stocked.games.intake(*delivery, "snap-shell")
    assert (again.added, again.known) == (0, len(TITLES))
    assert stocked.games.lines() == before


def test_two_cartridges_of_one_title_are_two_games(workshop: Workshop, tmp_path: Path) -> None:
    twice = tmp_path / "twice.csv"
    twice.write_text("title,maker\nTide,North\nTide,South\n", encoding="utf-8")
    assert workshop.games.intake(twice).added == 2
    assert workshop.games.intake(twice).added == 0


def test_pictures_given_later_find_the_games(
    workshop: Workshop, delivery: tuple[Path, Path]
) -> None:
    list_file, pictures = delivery
    assert workshop.games.intake(list_file).bare == len(TITLES)
    assert workshop.games.intake(list_file, pictures).matched == len(TITLES)


def test_a_picture_is_opened_once_whatever_it_is_called(
    stocked: Workshop, delivery: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    list_file, pictures = delivery
    opened: list[str] = []

    def seen(paths: Mapping[str, Path], *rest: object) -> Iterator[tuple[str, object]]:
        opened.extend(paths)
        return inspect_all(paths)

    monkeypatch.setattr(artwork, "inspect_all", seen)
    before = {one.name: one.source for one in stocked.choosing.pictures()}
    old, new = pictures / "Lantern_Bay_2 (Rev 1).png", pictures / "second of the bay.png"
    old.rename(new)
    draw_cover(pictures / "Lantern_Bay_5 (Rev 1).png", (200, 0, 0))
    delivered = unpack(list_file, pictures, known=known_pictures(stocked.folder))
    assert opened == ["Lantern_Bay_5 (Rev 1).png"]
    assert delivered.pictures[new.name].source == new.name
    fresh = unpack(list_file, pictures)
    assert delivered.pictures == fresh.pictures
    opened.clear()
    stocked.games.intake(list_file, pictures)
    assert opened == ["Lantern_Bay_5 (Rev 1).png"]
    after = {one.name: one.source for one in stocked.choosing.pictures()}
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
        workshop.games.intake(list_file, pictures)
    assert workshop.games.lines() == ()
    assert list((workshop.folder / "pictures").iterdir()) == []
    report = workshop.games.intake(list_file, pictures, skip_broken=True)
    assert (report.added, report.matched, report.bare) == (12, 11, 1)
    assert any("Lantern_Bay_3" in note for note in report.notes)


def test_unknown_case_kind_names_the_kinds(workshop: Workshop, delivery: tuple[Path, Path]) -> None:
    with pytest.raises(CaseError, match="snap-shell"):
        workshop.games.intake(*delivery, "biscuit tin")
    assert workshop.games.lines() == ()


def test_a_list_that_is_missing_is_named(workshop: Workshop, tmp_path: Path) -> None:
    with pytest.raises(ListError, match=r"nowhere\.csv"):
        workshop.games.intake(tmp_path / "nowhere.csv")


def test_accepting_art_then_title_climbs_the_stages(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.designs.accept([one], [Decision.ART])
    assert stocked.designs.proposal(one).stage is Stage.ART_CHOSEN
    assert Decision.CASE in stocked.designs.proposal(one).accepted
    stocked.designs.accept([one], [Decision.TITLE])
    assert stocked.designs.proposal(one).stage is Stage.TITLE_SET
    assert set(stocked.designs.proposal(one).accepted) == set(ALL)


def test_accepting_sure_ones_leaves_the_doubtful(workshop: Workshop, tmp_path: Path) -> None:
    list_file = tmp_path / "two.txt"
    list_file.write_text("Lantern Bay\nOtter Ferry\n", encoding="utf-8")
    (tmp_path / "covers").mkdir()
    draw_cover(tmp_path / "covers" / "lantern bay.png", (10, 60, 120))
    workshop.games.intake(list_file, tmp_path / "covers", "snap-shell")
    report = workshop.designs.accept(ids(workshop), sure_only=True)
    assert report.accepted == ("lantern-bay",)
    assert [left.title for left in report.left] == ["Otter Ferry"]
    assert "No picture" in report.left[0].doubts[0]
    assert workshop.designs.accept(["otter-ferry"]).accepted == ("otter-ferry",)
    assert workshop.designs.proposal("otter-ferry").design.art.picture is None


def test_a_proposal_never_overwrites_what_was_accepted(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.designs.change_colour(one, "#0a6")
    stocked.designs.change_title(one, "Lantern/Bay")
    stocked.designs.accept([one])
    design = stocked.designs.proposal(one).design
    assert design.colours.base == "#00aa66"
    assert {edge.lines for edge in design.title} == {("Lantern", "Bay")}


def test_changing_the_case_opens_the_title_again(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.designs.accept([one])
    (proposal,) = stocked.designs.change_cases([one], "soft-cassette")
    assert proposal.case == "soft-cassette"
    assert proposal.stage is Stage.ART_CHOSEN
    assert [edge.panel for edge in proposal.edges] == ["spine"]


def test_art_can_be_changed_and_reopened(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    ways = stocked.games.arts(one)
    assert {art.fit for art in ways} >= {Fit.STRETCH, Fit.MATTE, Fit.FILL}
    assert ways[-1].picture is None
    stocked.designs.change_art(one, ways[1])
    assert stocked.designs.proposal(one).design.art == ways[1]
    stocked.designs.reopen([one], [Decision.ART])
    assert stocked.designs.proposal(one).design.art == ways[0]


def test_wrong_names_are_sentences(stocked: Workshop) -> None:
    with pytest.raises(InputError, match="no such game"):
        stocked.designs.proposal("otter-ferry")
    with pytest.raises(InputError, match=r"^“ ”: names no game\. Give its id"):
        stocked.designs.proposal(" ")
    with pytest.raises(InputError, match="could be"):
        stocked.designs.proposal("Lantern")
    with pytest.raises(InputError, match="is no colour"):
        stocked.designs.change_colour(ids(stocked)[0], "teal-ish")
    with pytest.raises(InputError, match="is empty"):
        stocked.designs.change_title(ids(stocked)[0], " / ")
    with pytest.raises(InputError, match="not among the pictures"):
        stocked.designs.change_art(ids(stocked)[0], Art(picture="gone.png"))
    with pytest.raises(InputError, match="no such sheet"):
        stocked.sheets.settle(4)


def press_all(shop: Workshop) -> list[int]:
    shop.designs.accept(ids(shop))
    return [sheet.number or 0 for sheet in shop.sheets.press(part_full=True).sheets]


def test_nothing_to_press_says_what_is_missing(stocked: Workshop) -> None:
    with pytest.raises(RefusedError, match="No insert waits"):
        stocked.sheets.press()
    stocked.designs.accept(ids(stocked)[:1])
    with pytest.raises(RefusedError, match="No sheet is full yet; 1 inserts wait"):
        stocked.sheets.press()
    lacks = stocked.sheets.report().open[0].lacks
    assert lacks[0].case == "snap-shell"
    assert lacks[0].count >= 1


def test_every_game_is_in_exactly_one_place(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked))
    report = stocked.sheets.report()
    ready = [p.game for sheet in report.ready for p in sheet.placements]
    waiting = [p.game for sheet in report.open for p in sheet.placements]
    assert sorted(ready + waiting) == sorted(ids(stocked))
    pressed = stocked.sheets.press()
    assert sorted(p.game for s in pressed.sheets for p in s.placements) == sorted(ready)
    after = stocked.sheets.report()
    assert after.ready == ()
    assert [s.number for s in after.pressed] == [s.number for s in pressed.sheets]
    assert any("sharps box" in note for note in pressed.notes)


def test_settle_marks_good_and_spoiled(stocked: Workshop) -> None:
    numbers = press_all(stocked)
    first = next(s for s in stocked.sheets.report().pressed if s.number == numbers[0])
    spoiled = first.placements[1].game
    stocked.sheets.settle(numbers[0], [2])
    assert stocked.designs.proposal(spoiled).stage is Stage.TITLE_SET
    good = [p.game for p in first.placements if p.game != spoiled]
    assert {stocked.designs.proposal(game).stage for game in good} == {Stage.PRINTED}
    with pytest.raises(InputError, match="has no placement 99"):
        stocked.sheets.settle(numbers[0], [99])
    with pytest.raises(RefusedError, match="is settled"):
        stocked.sheets.withdraw(numbers[0])
    with pytest.raises(RefusedError, match="not printed"):
        stocked.sheets.fit([spoiled])
    stocked.sheets.fit(good)
    assert {stocked.designs.proposal(game).stage for game in good} == {Stage.FITTED}


def test_a_change_after_pressing_is_caught_on_settling(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    game = stocked.sheets.report().pressed[0].placements[0].game
    stocked.designs.change_colour(game, "#112233")
    notes = stocked.sheets.settle(number)
    assert any("was changed after" in note for note in notes)
    assert stocked.designs.proposal(game).stage is Stage.TITLE_SET


def test_a_change_after_printing_waits_again(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    game = stocked.sheets.report().pressed[0].placements[0].game
    stocked.sheets.settle(number)
    stocked.designs.change_colour(game, "#112233")
    assert stocked.progress().reprints == 1
    assert next(g for g in stocked.games.lines() if g.id == game).reprint


def test_withdrawing_puts_everything_back_and_the_page_away(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    page = stocked.folder / "sheets" / f"sheet-{number:04d}.pdf"
    whole = page.read_bytes()
    stocked.sheets.withdraw(number)
    assert not page.exists()
    with pytest.raises(InputError, match="was withdrawn"):
        stocked.sheets.settle(number)
    stocked.undo()
    assert page.read_bytes() == whole
    stocked.sheets.withdraw(number)
    assert number not in [s.number for s in stocked.sheets.press(part_full=True).sheets]


def test_undo_takes_back_each_deed_in_turn(stocked: Workshop) -> None:
    start = stages(stocked)
    stocked.batch.bring_next()
    stocked.designs.accept(ids(stocked))
    number = stocked.sheets.press(part_full=True).sheets[0].number or 0
    stocked.sheets.settle(number)
    assert stocked.undo() == f"settled sheet {number}"
    assert stocked.undo().startswith("pressed sheet 1")
    assert stages(stocked) == {"title set": 12}
    assert stocked.undo().startswith("accepted Lantern Bay 1 and 11 more")
    assert stages(stocked) == start
    assert stocked.undo() == "changed the batch"
    assert stocked.undo() == "took in games.csv"
    assert stocked.games.lines() == ()
    with pytest.raises(RefusedError, match="nothing to take back"):
        stocked.undo()


def test_batches_bring_the_next_unfinished_games(stocked: Workshop) -> None:
    first = stocked.batch.bring_next()
    assert first == tuple(ids(stocked)[:6])
    stocked.designs.accept(first[:4])
    second = stocked.batch.bring_next()
    assert second == (*first[4:], *ids(stocked)[6:10])
    assert stocked.batch.drop(first[4:]) == tuple(ids(stocked)[6:10])
    assert stocked.batch.add([first[0]])[-1] == first[0]


def test_what_was_done_is_there_when_opened_again(
    stocked: Workshop, tmp_path: Path, clock: Clock
) -> None:
    stocked.designs.accept(ids(stocked)[:3])
    before = stocked.games.lines()
    stocked.close()
    again = open_workshop(tmp_path / "shelf", clock)
    try:
        assert again.games.lines() == before
        assert again.check().ok
    finally:
        again.close()


def test_the_second_to_open_reads_only(stocked: Workshop, tmp_path: Path, clock: Clock) -> None:
    second = open_workshop(tmp_path / "shelf", clock)
    try:
        assert second.read_only
        assert second.games.lines() == stocked.games.lines()
        with pytest.raises(ReadOnlyError, match="reading only"):
            second.designs.accept(ids(second))
    finally:
        second.close()


def test_setup_changes_paper_and_rule(stocked: Workshop) -> None:
    settings = stocked.setup.change(stock="letter-card", rule="knife", margins=(5, 5, 5, 10))
    assert (settings.stock.width, settings.stock.height) == (215.9, 279.4)
    assert settings.forme.stock.margins.bottom == 10
    with pytest.raises(InputError, match="no such stock"):
        stocked.setup.change(stock="papyrus")
    with pytest.raises(InputError, match="margins"):
        stocked.setup.change(margins=(100, 100, 5, 5))
    with pytest.raises(InputError, match="batch size: it is 1 or more"):
        stocked.setup.change(batch_size=0)
    assert stocked.setup.settings() == settings


def test_a_measured_caliper_changes_the_dieline(stocked: Workshop) -> None:
    before = stocked.kinds.net("snap-shell").size
    stocked.setup.change(caliper=0.45)
    after = stocked.kinds.net("snap-shell").size
    # Fitting into an opening, all of a fold takes one caliper (docs/cases/caliper.md).
    assert before.width - after.width == pytest.approx(0.2)
    for slip in (0, 3, -1, "thick"):
        with pytest.raises(InputError, match=r"caliper: it is from 0\.03 to 1 mm"):
            stocked.setup.change(caliper=slip)


def test_proof_is_a_png(stocked: Workshop, tmp_path: Path) -> None:
    stocked.proofs.write(ids(stocked)[0], tmp_path / "proof.png")
    assert (tmp_path / "proof.png").read_bytes().startswith(b"\x89PNG")
    with pytest.raises(InputError, match=r"end in \.png"):
        stocked.proofs.write(ids(stocked)[0], tmp_path / "proof.jpg")
    with pytest.raises(InputError, match="cannot be written"):
        stocked.proofs.write(ids(stocked)[0], tmp_path / "nowhere" / "proof.png")


def test_the_same_collection_gives_the_same_pages(stocked: Workshop) -> None:
    number = press_all(stocked)[0]
    page = stocked.folder / "sheets" / f"sheet-{number:04d}.pdf"
    first = page.read_bytes()
    stocked.undo()
    stocked.sheets.press(part_full=True)
    assert page.read_bytes() == first


def test_a_last_sheet_says_how_much_paper_it_leaves(stocked: Workshop) -> None:
    games = ids(stocked)
    stocked.designs.accept(games)
    notes = stocked.sheets.press().notes
    assert not any("part-full" in note for note in notes), "twelve fill two sheets of six"
    stocked.undo()
    stocked.designs.reopen(games[1:])
    assert any("part-full" in note for note in stocked.sheets.press(part_full=True).notes)


def test_a_panel_left_out_changes_the_net_and_opens_the_title(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    stocked.designs.accept([one])
    (proposal,) = stocked.designs.leave_out([one], {"short"})
    assert proposal.design.left_out == ("short",)
    assert [edge.panel for edge in proposal.edges] == ["long"]
    assert proposal.stage is Stage.ART_CHOSEN
    stocked.designs.accept([one])
    placed = stocked.sheets.report().open[0].placements[0]
    whole, less = stocked.kinds.net("snap-shell").size, 0.02
    assert {round(placed.width, 2), round(placed.height, 2)} != {whole.width, whole.height}
    assert max(placed.width, placed.height) < max(whole) - less
    with pytest.raises(CaseError, match="no panel"):
        stocked.designs.leave_out([one], {"spine"})
    with pytest.raises(CaseError):
        stocked.designs.leave_out([one], {"back", "long", "short"})


def test_setup_leaves_a_panel_out_of_every_case(stocked: Workshop) -> None:
    stocked.setup.change(left_out={"": ["short"]})
    assert [edge.panel for edge in stocked.designs.proposal(ids(stocked)[0]).edges] == ["long"]


def test_a_label_has_no_panel_for_art_and_needs_none(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    (proposal,) = stocked.designs.change_cases([one], "edge-label")
    assert proposal.art.words == "no panel for art"
    assert proposal.sure
    assert stocked.games.arts(one)[-1].picture is None


@pytest.mark.parametrize("suffix", [".svg", ".dxf", ".pdf", ".png"])
def test_nets_are_drawn(stocked: Workshop, tmp_path: Path, suffix: str) -> None:
    out = tmp_path / f"net{suffix}"
    stocked.kinds.write_net("soft-cassette", out)
    assert out.stat().st_size > 500
    with pytest.raises(InputError, match="net"):
        stocked.kinds.write_net("soft-cassette", tmp_path / "net.doc")


def test_many_games_change_their_case_as_one_deed(stocked: Workshop) -> None:
    before = stocked.games.lines()
    stocked.designs.change_cases(ids(stocked)[:5], "soft-cassette")
    assert [game.case for game in stocked.games.lines()].count("soft-cassette") == 5
    stocked.undo()
    assert stocked.games.lines() == before


def test_another_picture_is_fitted_as_it_loses_least(stocked: Workshop) -> None:
    one = ids(stocked)[0]
    other = stocked.choosing.pictures("lantern bay 7")[0]
    assert other.source == "Lantern_Bay_7 (Rev 1).png"
    proposal = stocked.designs.swap_picture(one, other.name)
    assert proposal.art.source == other.source
    assert proposal.design.art.fit is stocked.games.arts(one)[0].fit


def test_an_edge_label_has_its_pictures_colour_like_every_other_insert(stocked: Workshop) -> None:
    game = stocked.games.lines()[0].id
    with_art = stocked.designs.proposal(game)
    stocked.designs.change_cases([game], "edge-label")
    label = stocked.designs.proposal(game)
    assert label.design.art.picture is None
    assert label.design.colours == with_art.design.colours != Colours("#3d4f5c", "#ffffff")


def test_what_is_proposed_otherwise_than_it_was_seen_is_left_to_be_looked_at(
    stocked: Workshop,
) -> None:
    first, second = (line.id for line in stocked.games.lines()[:2])
    seen = {game: stocked.designs.proposal(game).design for game in (first, second)}
    stocked.designs.change_colour(second, "#123456")
    report = stocked.designs.accept([first, second], seen=seen)
    assert report.accepted == (first,)
    assert [(left.game, left.doubts) for left in report.left] == [
        (second, ("It is proposed otherwise now: look again.",))
    ]
    assert stocked.designs.accept([second]).accepted == (second,)
