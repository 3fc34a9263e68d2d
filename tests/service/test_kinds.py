"""Case kinds in the workshop: drafted, tried, corrected, kept, folded with a game's art."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest
from PIL import Image

from engine import (
    CaseError,
    CaseShape,
    CollectionError,
    InputError,
    Measured,
    Pose,
    ReadOnlyError,
    RefusedError,
    Stage,
    Workshop,
    open_workshop,
)

MM_PER_POINT = 25.4 / 72
"""ISO 32000-1, 8.3.2.3."""

TIN = Measured(
    CaseShape.WRAP, "Tin for two", {"height": 100.0, "front": 64.0, "spine": 14.0, "back": 60.0}
)


def first(shop: Workshop) -> str:
    return shop.games.lines()[0].id


def test_a_draft_tells_its_sizes_and_shows_itself(workshop: Workshop) -> None:
    draft = workshop.kinds.draft(TIN)
    # Inside measures less a clearance of 0.5 mm, and of 0.25 mm card half a caliper for each
    # score: 63.375 + 13.25 + 59.375 (docs/cases/caliper.md, derived from the neutral line).
    assert draft.flat == pytest.approx((136.0, 99.5))
    # Over all it is what was measured less the clearance.
    assert draft.folded == pytest.approx((63.5, 99.5, 13.5))
    assert draft.doubts == ()
    for png in (draft.net, draft.view):
        with Image.open(BytesIO(png)) as picture:
            assert picture.format == "PNG"
            assert len(picture.convert("RGB").getcolors(1 << 24) or ()) > 3
    assert not (workshop.folder / "cases" / "tin-for-two.toml").exists()


def test_a_doubtful_draft_is_told_and_one_that_lacks_something_refused(workshop: Workshop) -> None:
    odd = TIN._replace(measures={**TIN.measures, "spine": 140.0})
    assert any("Is it 14?" in doubt for doubt in workshop.kinds.draft(odd).doubts)
    with pytest.raises(CaseError, match="spine: is not given"):
        workshop.kinds.draft(TIN._replace(measures={"height": 100.0, "front": 64.0}))


def test_a_case_of_ones_own_is_of_use_at_once_and_after_opening_again(stocked: Workshop) -> None:
    kind = stocked.kinds.add(TIN)
    assert kind.id == "tin-for-two"
    one = first(stocked)
    assert stocked.designs.change_cases([one], "Tin for two")[0].case == kind.id
    stocked.designs.accept([one])
    assert stocked.designs.proposal(one).stage is Stage.TITLE_SET
    assert {placed.case for placed in stocked.sheets.report().open[0].placements} == {kind.id}
    assert stocked.proofs.proof(one).startswith(b"\x89PNG")
    line = next(line for line in stocked.kinds.lines() if line.id == kind.id)
    assert (line.own, line.games) == (True, 1)
    stocked.close()
    again = open_workshop(stocked.folder)
    assert again.kinds.kind(kind.id) == kind
    again.close()


def test_undo_takes_back_deeds_and_leaves_a_case_of_ones_own(stocked: Workshop) -> None:
    one = first(stocked)
    stocked.designs.accept([one])
    stocked.kinds.add(TIN)
    assert "accepted" in stocked.undo()
    assert stocked.kinds.kind("tin-for-two").name == "Tin for two"


@pytest.mark.parametrize("name", ["Tin for two", "TIN for  two.", "snap shell", "New"])
def test_a_name_that_is_taken_is_refused(workshop: Workshop, name: str) -> None:
    workshop.kinds.add(TIN)
    with pytest.raises(RefusedError, match="another name"):
        workshop.kinds.add(TIN._replace(name=name))


def test_nothing_is_kept_in_a_collection_that_is_open_elsewhere(stocked: Workshop) -> None:
    second = open_workshop(stocked.folder)
    assert second.read_only
    for change in (
        lambda: second.kinds.add(TIN),
        lambda: second.kinds.correct("snap-shell", [("long", "width", 0.5)]),
        lambda: second.kinds.trial("snap-shell"),
    ):
        with pytest.raises(ReadOnlyError):
            change()
    assert list((stocked.folder / "cases").iterdir()) == []
    second.close()


def test_a_case_that_cannot_be_written_is_told(workshop: Workshop) -> None:
    (workshop.folder / "cases").rmdir()
    (workshop.folder / "cases").write_text("in the way", encoding="utf-8")
    with pytest.raises(CollectionError, match="tin-for-two"):
        workshop.kinds.add(TIN)
    assert all(line.id != "tin-for-two" for line in workshop.kinds.lines())


# --- The trial cut ----------------------------------------------------------------------


def test_a_trial_cut_lies_among_the_sheets_and_is_no_stray(workshop: Workshop) -> None:
    report = workshop.kinds.trial("soft-cassette")
    assert Path(report.file) == workshop.folder / "sheets" / "trial-soft-cassette.pdf"
    with pdfplumber.open(report.file) as pdf:
        (page,) = pdf.pages
        # ISO 216: A4 is 210 × 297 mm.
        assert page.width * MM_PER_POINT == pytest.approx(210, abs=0.05)
        assert page.height * MM_PER_POINT == pytest.approx(297, abs=0.05)
        assert "spine" in page.extract_text()
    assert any("blade" in note for note in report.notes)
    assert any("eye protection" in note for note in report.notes)
    assert workshop.check().ok


def test_a_trial_cut_goes_where_it_is_asked_to(workshop: Workshop, tmp_path: Path) -> None:
    workshop.kinds.trial("snap-shell", tmp_path / "trial.pdf")
    assert (tmp_path / "trial.pdf").read_bytes().startswith(b"%PDF")
    with pytest.raises(InputError, match=r"\.pdf"):
        workshop.kinds.trial("snap-shell", tmp_path / "trial.png")


def test_the_sides_to_measure_are_those_that_are_cut(workshop: Workshop) -> None:
    sides = {(s.panel, s.dimension): s.length for s in workshop.kinds.trial_sides("soft-cassette")}
    assert set(sides) == {
        ("front", "width"),
        ("front", "height"),
        ("spine", "width"),
        ("back", "width"),
        ("back", "height"),
    }
    net = workshop.kinds.net("soft-cassette")
    assert sides["spine", "width"] == pytest.approx(net.panel("spine").rect.width)


def test_a_correction_moves_the_net_by_what_was_measured(stocked: Workshop) -> None:
    before = stocked.kinds.net("snap-shell")
    shorter = {("back", "width"): 0.5, ("long", "width"): -0.25}
    stocked.kinds.correct("snap-shell", [(*side, by) for side, by in shorter.items()])
    after = stocked.kinds.net("snap-shell")
    for (panel, _), by in shorter.items():
        got = before.panel(panel).rect.width - after.panel(panel).rect.width
        assert got == pytest.approx(by, abs=1e-6)
    assert before.panel("back").rect.height == pytest.approx(after.panel("back").rect.height)
    line = next(line for line in stocked.kinds.lines() if line.id == "snap-shell")
    assert (line.own, line.games) == (True, 12)
    assert "trial cut" in stocked.kinds.kind("snap-shell").sources[-1]


def test_a_correction_that_cannot_be_is_refused_and_nothing_written(workshop: Workshop) -> None:
    before = workshop.kinds.net("snap-shell")
    wrong = {
        "no panel": [("lid", "width", 0.5)],
        "has no depth": [("back", "depth", 0.5)],
        "leaves nothing": [("back", "width", 500.0)],
    }
    for said, misfits in wrong.items():
        with pytest.raises(CaseError, match=said):
            workshop.kinds.correct("snap-shell", misfits)
    with pytest.raises(RefusedError, match="nothing was too long"):
        workshop.kinds.correct("snap-shell", [("back", "width", 0.0)])
    assert workshop.kinds.net("snap-shell") == before
    assert list((workshop.folder / "cases").iterdir()) == []


def test_correcting_one_kind_leaves_what_is_printed_as_it_is(stocked: Workshop) -> None:
    stocked.designs.accept([game.id for game in stocked.games.lines()])
    for sheet in stocked.sheets.press().sheets:
        stocked.sheets.settle(sheet.number or 0)
    stocked.kinds.correct("snap-shell", [("back", "width", 0.5)])
    progress = stocked.progress()
    assert (progress.stages[Stage.PRINTED], progress.reprints) == (12, 0)


# --- Folded -----------------------------------------------------------------------------


def test_a_games_folded_insert_carries_its_art_and_its_colour(stocked: Workshop) -> None:
    one = first(stocked)
    stocked.designs.change_colour(one, "#c01060")
    with Image.open(BytesIO(stocked.proofs.folded(one))) as picture:
        colours = picture.convert("RGB").getcolors(1 << 24) or ()
    found = {colour: count for count, colour in colours}
    assert found.get((0xC0, 0x10, 0x60), 0) > 300, "the flaps"
    cover = (0, 60, 120)  # the first cover of the delivery, but for its compression
    near = sum(
        n
        for rgb, n in found.items()
        if max(abs(a - b) for a, b in zip(rgb, cover, strict=True)) < 9
    )
    assert near > 5000, "the art"


def test_a_panel_left_out_is_not_in_the_folded_view(stocked: Workshop) -> None:
    one = first(stocked)
    whole = stocked.proofs.folded(one)
    stocked.designs.leave_out([one], {"short", "long"})
    assert stocked.proofs.folded(one) != whole


def test_pictures_of_a_kind_are_written(workshop: Workshop, tmp_path: Path) -> None:
    workshop.kinds.write_folded("keep-case", tmp_path / "folded.png")
    assert (tmp_path / "folded.png").read_bytes() == workshop.kinds.folded_picture("keep-case")
    assert workshop.kinds.net_picture("keep-case").startswith(b"\x89PNG")
    with pytest.raises(InputError, match=r"\.png"):
        workshop.kinds.write_folded("keep-case", tmp_path / "folded.svg")


# --- How they are kept, what is left out ------------------------------------------------


def test_poses_go_by_kind_before_the_collection(workshop: Workshop) -> None:
    def poses() -> tuple[str, str]:
        lines = {line.id: line.pose for line in workshop.kinds.lines()}
        return lines["snap-shell"], lines["jewel-tray"]

    assert poses() == ("shelf", "shelf")
    workshop.setup.change(pose="stack")
    workshop.setup.change(poses={"snap-shell": "drawer"})
    assert poses() == ("drawer", "stack")
    workshop.setup.change(poses={"CD jewel case, tray card with two spines": "shelf"})
    assert workshop.setup.settings().poses == {"snap-shell": "drawer", "jewel-tray": "shelf"}
    workshop.setup.change(poses={"snap-shell": None})
    assert poses() == ("stack", "shelf")
    with pytest.raises(InputError):
        workshop.setup.change(poses={"snap-shell": "floating"})
    workshop.undo()
    assert poses() == ("drawer", "shelf")


def test_the_pose_decides_which_edge_faces_the_person(workshop: Workshop) -> None:
    on_shelf = workshop.kinds.folded("snap-shell").facing
    workshop.setup.change(poses={"snap-shell": Pose.DRAWER})
    in_drawer = workshop.kinds.folded("snap-shell").facing
    assert on_shelf
    assert in_drawer
    assert on_shelf != in_drawer


def test_the_spine_habit_turns_upright_titles(workshop: Workshop) -> None:
    """ISO 6357: descending titles are read with the head to the right, ascending to the left."""
    down = workshop.kinds.net("keep-case").panel("spine").turn
    workshop.setup.change(spine="ascending")
    up = workshop.kinds.net("keep-case").panel("spine").turn
    assert (down, up) == (270, 90)


def test_panels_are_left_out_of_a_kind_or_of_all(workshop: Workshop) -> None:
    def panels(kind: str) -> list[str]:
        return [panel.name for panel in workshop.kinds.net(kind).panels]

    workshop.setup.change(left_out={"keep-case": ["back"]})
    workshop.setup.change(left_out={"": ["short"]})
    assert panels("keep-case") == ["front", "spine"]
    assert panels("soft-cassette") == ["front", "spine", "back"]
    assert panels("snap-shell") == ["back", "long"]
    lines = {line.id: line.left_out for line in workshop.kinds.lines()}
    assert (lines["keep-case"], lines["snap-shell"]) == (("back",), ("short",))
    workshop.setup.change(left_out={"": [], "keep-case": []})
    assert panels("keep-case") == ["front", "spine", "back"]
    assert panels("snap-shell") == ["back", "long", "short"]


def test_panels_that_are_not_there_cannot_be_left_out(workshop: Workshop) -> None:
    with pytest.raises(CaseError, match='no panel "lid"'):
        workshop.setup.change(left_out={"keep-case": ["lid"]})
    with pytest.raises(CaseError, match='no case kind has a panel "lid"'):
        workshop.setup.change(left_out={"": ["lid"]})
    with pytest.raises(CaseError, match="every panel"):
        workshop.setup.change(left_out={"jewel-front": ["front"]})
    with pytest.raises(CaseError, match="no such case kind"):
        workshop.setup.change(left_out={"biscuit-tin": ["front"]})
    assert workshop.setup.settings().left_out == {}
