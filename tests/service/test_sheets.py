"""Sheets on several stocks, filled on purpose, cut by numbers, and their offcuts."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from threading import Event, Thread

import pytest
from pypdf import PdfReader

from engine import (
    Cancelled,
    CutsReport,
    InputError,
    PartFull,
    RefusedError,
    SheetReport,
    Stage,
    Why,
    Workshop,
)
from engine.model import Rect

SMALL = "photo-4x6"


def ids(shop: Workshop) -> list[str]:
    return [game.id for game in shop.games.lines()]


def pressed_part_full(shop: Workshop, games: int, *fillers: str) -> SheetReport:
    shop.designs.accept(ids(shop)[:games])
    (sheet,) = shop.sheets.press(part_full=True, fillers=fillers).sheets
    return sheet


# --- Several stocks ---------------------------------------------------------------------


def test_each_kind_is_ganged_on_its_own_stock(stocked: Workshop) -> None:
    stocked.designs.change_cases(ids(stocked)[8:], "soft-cassette")
    stocked.setup.change(stocks={"snap-shell": "a5-card"})
    stocked.designs.accept(ids(stocked))
    report = stocked.sheets.report()
    on = {
        sheet.forme.stock.id: {p.case for p in sheet.placements}
        for sheet in (*report.ready, *report.open)
    }
    assert on == {"a5-card": {"snap-shell"}, "a4-card": {"soft-cassette"}}
    plan = stocked.sheets.plan()
    assert {part.stock.id for part in plan.parts} == {"a5-card", "a4-card"}
    assert plan.sheets == sum(part.sheets for part in plan.parts)
    assert plan.bound == sum(part.bound for part in plan.parts)
    sheets = stocked.sheets.press(part_full=True).sheets
    for sheet in sheets:
        page = PdfReader(sheet.file or "").pages[0].mediabox
        wanted = sheet.forme.stock.width, sheet.forme.stock.height
        assert (float(page.width) * 25.4 / 72, float(page.height) * 25.4 / 72) == pytest.approx(
            wanted, abs=1e-3
        )
    placed = sorted(p.game for sheet in sheets for p in sheet.placements)
    assert placed == sorted(ids(stocked))


def test_an_insert_too_large_for_its_stock_is_told_not_counted(stocked: Workshop) -> None:
    stocked.designs.change_cases(ids(stocked)[:2], "keep-case")
    stocked.setup.change(stocks={"keep-case": SMALL})
    (too_large,) = [part for part in stocked.sheets.plan().parts if part.too_large]
    assert (too_large.stock.id, too_large.sheets) == (SMALL, 0)
    assert too_large.too_large == ("keep-case",)


def test_a_stock_that_is_not_there_is_refused(stocked: Workshop) -> None:
    with pytest.raises(InputError, match="no such stock"):
        stocked.setup.change(stocks={"snap-shell": "vellum"})
    stocked.setup.change(stocks={"snap-shell": "a5-copy"})
    assert stocked.setup.settings().stock_of("snap-shell").id == "a5-copy"
    stocked.setup.change(stocks={"snap-shell": None})
    assert stocked.setup.settings().stocks == {}


# --- What next --------------------------------------------------------------------------


def test_a_batch_ends_with_only_full_sheets_where_it_can(stocked: Workshop) -> None:
    # Twelve inserts of one size on A4 go on two sheets of six: a batch of six fills one.
    stocked.batch.bring_next()
    assert (stocked.batch.outlook().sheets, stocked.batch.outlook().waits) == (1, 0)
    stocked.setup.change(batch_size=4)
    stocked.batch.work_on(())
    stocked.batch.bring_next()
    assert (stocked.batch.outlook().sheets, stocked.batch.outlook().waits) == (0, 4)


def test_the_next_batch_keeps_what_is_begun_and_respects_a_filter(stocked: Workshop) -> None:
    begun = ids(stocked)[11]
    stocked.batch.work_on([begun])
    wanted = ids(stocked)[5:9]
    assert stocked.batch.bring_next(wanted) == (begun, *wanted)
    assert stocked.batch.bring_next(ids(stocked)[:3]) == (begun, *wanted, ids(stocked)[0])


# --- Part-full on purpose ---------------------------------------------------------------


def test_what_is_wasted_and_what_could_fill_it_is_told_before(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:3])
    (sheet,) = stocked.sheets.part_full()
    assert (sheet.stock.id, sheet.inserts) == ("a4-card", 3)
    assert sheet.filled < sheet.wasted
    assert {filler.why for filler in sheet.fillers} == set(Why)
    assert stocked.sheets.report().pressed == ()


def test_a_filled_sheet_carries_what_was_chosen(stocked: Workshop) -> None:
    own, nearest = ids(stocked)[0], ids(stocked)[5]
    sheet = pressed_part_full(
        stocked, 3, f"spare:{own}", f"game:{nearest}", f"label:{own}", "strip"
    )
    spares = [p for p in sheet.placements if p.spare]
    assert [p.game for p in spares] == [own, own]
    assert nearest in [p.game for p in sheet.placements if not p.spare]
    assert sheet.strip is not None
    assert stocked.designs.proposal(nearest).stage is Stage.TITLE_SET
    page = PdfReader(sheet.file or "").pages[0]
    assert "scale in mm" in page.extract_text()
    assert stocked.undo().startswith("pressed sheet 1")
    assert stocked.designs.proposal(nearest).stage is Stage.LISTED


def test_fillers_lie_clear_of_everything(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:3])
    every = [filler.id for filler in stocked.sheets.part_full()[0].fillers]
    (sheet,) = stocked.sheets.press(part_full=True, fillers=every).sheets
    rects = [Rect(p.x, p.y, p.width, p.height) for p in sheet.placements]
    rects += [sheet.strip] if sheet.strip else []
    gutter, field = sheet.forme.gutter, sheet.forme.field
    for place, one in enumerate(rects):
        assert one.x >= field.x - 1e-6
        assert one.y + one.height <= field.y + field.height + 1e-6
        for other in rects[place + 1 :]:
            apart = max(
                one.x - other.x - other.width,
                other.x - one.x - one.width,
                one.y - other.y - other.height,
                other.y - one.y - one.height,
            )
            assert apart >= gutter - 0.11


def test_a_spare_stands_in_for_a_spoiled_print_and_upsets_nothing(stocked: Workshop) -> None:
    own = ids(stocked)[0]
    sheet = pressed_part_full(stocked, 3, f"spare:{own}", f"label:{own}")
    first = next(n for n, p in enumerate(sheet.placements, 1) if p.game == own and not p.spare)
    assert stocked.sheets.settle(sheet.number or 0, [first]) == ()
    assert stocked.designs.proposal(own).stage is Stage.PRINTED
    spares = [n for n, p in enumerate(sheet.placements, 1) if p.game == own]
    label = next(
        n
        for n, p in enumerate(sheet.placements, 1)
        if p.spare and p.design != sheet.placements[first - 1].design
    )
    stocked.sheets.settle(sheet.number or 0, [n for n in spares if n != label])
    assert stocked.designs.proposal(own).stage is Stage.TITLE_SET, (
        "a label is no print of the insert"
    )
    assert stocked.progress().reprints == 0


def test_a_spare_of_a_printed_game_leaves_it_printed(stocked: Workshop) -> None:
    done = ids(stocked)[0]
    number = pressed_part_full(stocked, 1).number or 0
    stocked.sheets.settle(number)
    stocked.designs.accept(ids(stocked)[1:3])
    (sheet,) = stocked.sheets.press(part_full=True, fillers=[f"spare:{done}"]).sheets
    assert stocked.designs.proposal(done).stage is Stage.PRINTED
    stocked.designs.change_colour(done, "#112233")
    waiting = [p.game for s in stocked.sheets.report().open for p in s.placements]
    assert waiting == [done], "its new design waits though a spare of the old one is pressed"
    assert stocked.check().ok
    assert stocked.sheets.settle(sheet.number or 0) == ()


def test_a_filler_that_is_not_offered_is_refused(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:3])
    with pytest.raises(InputError, match="does not fill a sheet"):
        stocked.sheets.press(part_full=True, fillers=["spare:nobody"])
    assert stocked.sheets.report().pressed == ()


# --- Spoiled first, and patience --------------------------------------------------------


def test_spoiled_inserts_come_back_first_in_line(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:6])
    (sheet,) = stocked.sheets.press().sheets
    late = sheet.placements[-1].game
    stocked.sheets.settle(sheet.number or 0, [len(sheet.placements)])
    stocked.designs.accept(ids(stocked)[6:])
    first = stocked.sheets.report().ready[0]
    assert late in [p.game for p in first.placements]


def test_how_long_a_sheet_waits_is_told(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:1])
    since = stocked.sheets.report().open[0].waiting_since
    stocked.designs.accept(ids(stocked)[1:2])
    assert since is not None
    assert stocked.sheets.report().open[0].waiting_since == since


# --- Cut order --------------------------------------------------------------------------


def cut_up(sheet: SheetReport, report: CutsReport) -> list[Rect]:
    """Cut the stock by the distances alone; return the pieces that are left in the end."""
    pieces = [Rect(0.0, 0.0, sheet.forme.stock.width, sheet.forme.stock.height)]
    for cut, lying in ((one, piece) for one in report.cuts for piece in one.pieces):
        piece = min(
            pieces, key=lambda one: sum(abs(a - b) for a, b in zip(one, lying, strict=True))
        )
        assert piece == pytest.approx(lying, abs=0.002)
        pieces.remove(piece)
        x, y, width, height = piece
        if cut.fence.upright:
            at = cut.distance if cut.fence.low else width - cut.distance
            pieces += [Rect(x, y, at, height), Rect(x + at, y, width - at, height)]
        else:
            at = cut.distance if cut.fence.low else height - cut.distance
            pieces += [Rect(x, y, width, at), Rect(x, y + at, width, height - at)]
    return pieces


@pytest.mark.parametrize("games", [1, 4, 6])
def test_the_cuts_give_back_the_layout(stocked: Workshop, games: int) -> None:
    sheet = pressed_part_full(stocked, games)
    report = stocked.sheets.cuts(sheet)
    pieces = cut_up(sheet, report)
    for place in sheet.placements:
        wanted = (place.x, place.y, place.width, place.height)
        assert any(piece == pytest.approx(wanted, abs=0.01) for piece in pieces)
    assert sum(piece.width * piece.height for piece in pieces) == pytest.approx(210 * 297)
    assert sorted(n for cut in report.cuts for n in cut.frees) == list(range(games))
    assert len(report.words) == len(report.cuts)
    assert any("guard" in note for note in report.notes)


def test_a_kerf_comes_off_the_waste(stocked: Workshop) -> None:
    stocked.setup.change(kerf=1.0)
    sheet = pressed_part_full(stocked, 4)
    taken = set()
    for cut in stocked.sheets.cuts(sheet).cuts:
        x, y, width, height = cut.piece
        low, high = (x, x + width) if cut.fence.upright else (y, y + height)
        edge = cut.at - low if cut.fence.low else high - cut.at
        taken.add(round(edge - cut.distance, 2))
    assert taken == {0.0, 1.0}, "the blade's breadth lies on the far side of a kept edge, or before"


def test_the_cut_order_on_a_page_of_its_own(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:4])
    (sheet,) = stocked.sheets.press(part_full=True, cut_page=True).sheets
    page = stocked.folder / "sheets" / "sheet-0001-cuts.pdf"
    text = PdfReader(page).pages[0].extract_text()
    assert "cut order" in text
    assert "edge at the fence" in text
    assert "guard" in text, "the cautions stand with it"
    stocked.sheets.withdraw(sheet.number or 0)
    assert not page.exists()
    stocked.undo()
    assert page.exists()


def test_a_sheet_whose_numbers_find_no_room_has_its_cuts_on_a_page(stocked: Workshop) -> None:
    stocked.setup.change(free_bleed=0, free_gutter=0)
    stocked.designs.accept(ids(stocked)[:6])
    report = stocked.sheets.press()
    (sheet,) = report.sheets
    assert f"The cut order is on a page beside sheet {sheet.number}." in report.notes
    page = stocked.folder / "sheets" / f"sheet-{sheet.number:04d}-cuts.pdf"
    text = PdfReader(page).pages[0].extract_text()
    assert "on each other" in text
    assert "L corner at the upper right: cut out 9.4" in " ".join(text.split())


def test_spare_room_goes_into_bleed_and_gutter(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:6])
    (proposed,) = stocked.sheets.report().ready
    (sheet,) = stocked.sheets.press().sheets
    assert sheet.placements == proposed.placements
    assert (sheet.forme.bleed, sheet.forme.gutter) == (2.0, 6.0)
    assert len(sheet.placements) == 6, "as many as at 1 and 2 mm"


# --- Offcuts ----------------------------------------------------------------------------


def test_an_offcut_is_kept_used_up_and_given_back_by_undo(stocked: Workshop) -> None:
    number = pressed_part_full(stocked, 1).number or 0
    with pytest.raises(RefusedError, match="not settled"):
        stocked.sheets.keep_offcuts(number, [1])
    stocked.sheets.settle(number)
    (report,) = stocked.sheets.settled()
    assert report.offcuts[0].size.width >= 88.9, "3.5 in, the smallest that is usually fed"
    with pytest.raises(InputError, match="has no offcut 99"):
        stocked.sheets.keep_offcuts(number, [99])
    stocked.sheets.keep_offcuts(number, [1])
    assert stocked.sheets.settled()[0].offcuts[0].kept
    stocked.designs.accept(ids(stocked)[1:9])
    offcut = f"offcut-{number}-1"
    ready = [sheet.forme.stock.id for sheet in stocked.sheets.report().ready]
    assert ready[0] == offcut
    first = stocked.sheets.press().sheets[0]
    assert first.forme.stock.id == offcut
    assert (first.forme.stock.width, first.forme.stock.height) == tuple(report.offcuts[0].size)
    assert stocked.sheets.settled()[0].offcuts[0].used
    assert stocked.sheets.keep_offcuts(number, []).offcuts[0].kept, (
        "what is used up cannot be let go of"
    )
    stocked.undo()
    assert not stocked.sheets.settled()[0].offcuts[0].used
    stocked.undo()
    assert stocked.undo().startswith("changed what is kept of sheet")
    assert not stocked.sheets.settled()[0].offcuts[0].kept


# --- finishing ---------------------------------------------------------------------------


def test_what_is_good_goes_into_its_case_and_is_counted_until_it_does(stocked: Workshop) -> None:
    first, second = ids(stocked)[:2]
    stocked.designs.change_cases([second], "soft-cassette-clips")
    stocked.designs.accept([first, second])
    sheets = stocked.sheets.press(part_full=True).sheets
    with pytest.raises(RefusedError, match="not settled"):
        stocked.finishing.fitting(1)
    places = {p.game: (s.number or 0, n) for s in sheets for n, p in enumerate(s.placements)}
    for sheet in sheets:
        stocked.sheets.settle(sheet.number or 0)
    number, place = places[second]
    report = stocked.finishing.fitting(number)
    (one,) = (one for one in report.inserts if one.game == second)
    assert (one.place, one.fitted) == (place, False)
    assert one.steps[-1].startswith("Score between ")
    assert "eye protection (EN 166, ANSI Z87.1)" in report.cautions[0], "the kind's own"
    assert report.cautions[-1].endswith("go before these reminders.")
    before = stocked.sheets.sheet(number).to_fit
    stocked.sheets.fit([second])
    assert stocked.sheets.sheet(number).to_fit == before - 1
    assert next(
        one for one in stocked.finishing.fitting(number).inserts if one.game == second
    ).fitted


def test_what_is_spoiled_or_designed_otherwise_since_is_not_fitted(stocked: Workshop) -> None:
    games = ids(stocked)[:6]
    stocked.designs.accept(games)
    (sheet,) = stocked.sheets.press().sheets
    stocked.sheets.settle(sheet.number or 0, [2])
    assert len(stocked.finishing.fitting(1).inserts) == 5
    spoiled = sheet.placements[1].game
    changed = sheet.placements[0].game
    stocked.designs.change_cases([changed], "soft-cassette")
    assert {one.game for one in stocked.finishing.fitting(1).inserts} == set(games) - {
        spoiled,
        changed,
    }


# --- giving up --------------------------------------------------------------------------


class Impatient:
    """Waits for so many questions, then gives up."""

    def __init__(self, questions: int) -> None:
        self.left = questions

    def __call__(self) -> bool:
        self.left -= 1
        return self.left < 0


@pytest.mark.parametrize("part_full", [False, True])
def test_a_pressing_given_up_presses_nothing_and_leaves_no_page(
    stocked: Workshop, part_full: bool
) -> None:
    stocked.designs.accept(ids(stocked)[:7])
    before = stocked.sheets.report()

    def gives_up(patience: int) -> bool:
        with suppress(Cancelled):
            stocked.sheets.press(part_full=part_full, cancel=Impatient(patience))
            return False
        assert stocked.sheets.report() == before
        assert not list((stocked.folder / "sheets").glob("*.pdf"))
        return True

    assert gives_up(5), "it is asked while the art is drawn"
    stocked.sheets.press(part_full=part_full)
    stocked.undo()  # what was drawn is kept, so that no time is spent on it from here on
    patience = 0
    while gives_up(patience):
        patience += 1
    assert patience > len(stocked.sheets.report().pressed), "it is asked before each sheet"
    assert all(Path(sheet.file or "").is_file() for sheet in stocked.sheets.report().pressed)


def test_what_takes_long_can_be_given_up_and_changes_nothing(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:5])
    stocked.setup.change(patience=91)  # so that nobody has ganged these before
    batch = stocked.batch.games()
    for ask in (
        stocked.sheets.report,
        stocked.sheets.part_full,
        stocked.batch.bring_next,
        stocked.batch.outlook,
    ):
        with pytest.raises(Cancelled):
            ask(cancel=lambda: True)
    assert stocked.batch.games() == batch
    assert stocked.sheets.report() == stocked.sheets.report(cancel=lambda: False)


def test_a_game_is_accepted_while_the_sheets_are_ganged(stocked: Workshop) -> None:
    """Who waits for the sheets holds up nobody else."""
    games = ids(stocked)
    stocked.designs.accept(games[:5])
    stocked.setup.change(patience=92)  # so that nobody has ganged these before
    asked, answered = Event(), Event()

    def hold() -> bool:
        asked.set()
        return not answered.wait(20)

    ganging = Thread(target=lambda: stocked.sheets.report(cancel=hold), daemon=True)
    ganging.start()
    assert asked.wait(20)
    assert stocked.designs.accept(games[5:6]).accepted == (games[5],)
    with pytest.raises(Cancelled):
        stocked.sheets.report(cancel=lambda: True)
    assert ganging.is_alive()
    answered.set()
    ganging.join(20)
    report = stocked.sheets.report()
    waiting = [p.game for sheet in (*report.ready, *report.open) for p in sheet.placements]
    assert sorted(waiting) == sorted(games[:6])


def test_part_full_sheets_are_told_one_after_the_other(stocked: Workshop) -> None:
    stocked.designs.accept(ids(stocked)[:2])
    told: list[PartFull] = []
    assert stocked.sheets.part_full(found=told.append) == tuple(told)
    assert told


def test_what_waits_beyond_the_sheets_shown_is_counted(stocked: Workshop) -> None:
    """A keep case's insert is wider than a photo paper: no sheet of it will ever come."""
    stocked.designs.change_cases(ids(stocked)[:2], "keep-case")
    stocked.designs.change_cases(ids(stocked)[2:9], "soft-cassette")
    stocked.setup.change(stocks={"keep-case": SMALL})
    stocked.designs.accept(ids(stocked)[:-1])
    report = stocked.sheets.report()
    placed = [p.game for sheet in (*report.ready, *report.open) for p in sheet.placements]
    assert report.beyond > 0
    assert len(placed) + report.beyond == len(ids(stocked)) - 1 - 2
    pressed = [
        p.game for sheet in stocked.sheets.press(part_full=True).sheets for p in sheet.placements
    ]
    assert len(pressed) == len(placed) + report.beyond
    assert stocked.sheets.report().beyond == 0
