"""A printer that errs is measured on its check page, and what it does is undone.

Two readers that had no hand in writing the pages: PDFium, whose pixels a simulated printer puts
on paper, and pdfplumber, whose lines are put there by the same arithmetic.
"""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from io import BytesIO
from itertools import cycle
from math import dist, hypot

import numpy as np
import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.model import Forme, Margins, Size, Stock
from engine.model.calibration import Calibration
from engine.model.errors import InputError
from engine.press import (
    CheckFigures,
    Insert,
    calibrated,
    check_lines,
    check_page,
    doubts,
    sheet_page,
)
from engine.press.netdrawing import trial_page
from tests.press.making import insert, kinds, net, place, sheet
from tests.press.printing import TRUE, Paper, Printer, measured, points_of, printed_on

pytestmark = pytest.mark.xdist_group("check page")  # a calibration is measured once

MM = 25.4 / 72  # the inch of 1959; ISO 32000-1, 8.3.2.3
WITHIN = 0.1
NOW = datetime(2026, 3, 1, tzinfo=UTC)
# ISO 216:2007; ASME Y14.1. Margins as printers that print almost to the edge have them.
A4 = Stock("a4", "A4 card", 210.0, 297.0, margins=Margins(4, 4, 4, 4))
LETTER = Stock("letter", "Letter card", 215.9, 279.4, margins=Margins(3, 3, 3, 3))
LEGAL = Stock("legal", "Legal card", 215.9, 355.6)
PHOTO = Stock("photo", "Photo paper", 101.6, 152.4)
PAPERS = {"a4": A4, "legal": LEGAL}
PRINTERS = {
    "short and shifted": Printer(0.993, 1.006, 0.0, 0.0, (1.3, -0.9), (0.4, 1.1)),
    "askew": Printer(1.004, 0.997, 0.35, 0.0, (1.6, -0.5), (-0.6, 0.3)),
    "leaning": Printer(0.999, 1.011, -0.2, 0.12, (-0.7, 1.0), (0.9, -0.8)),
}


@cache
def calibration(printer: str, paper: str) -> Calibration:
    """Print the check page, measure it, and return what is kept."""
    stock = PAPERS[paper]
    lines = check_lines(Forme(stock))
    size = Size(stock.width, stock.height)
    printed = printed_on(check_page(Forme(stock)), size, PRINTERS[printer])
    return calibrated(measured(printed, lines), lines, stock.width, (printer, stock.id, NOW))


@cache
def trial_points(kind: str, paper: str) -> list[tuple[float, float]]:
    """Return the points of a trial cut as it is drawn for a printer that is true."""
    return Drawn(trial_page(net(kind), PAPERS[paper])).points()


# --- what is measured is what the printer does ------------------------------------------


@given(
    st.tuples(st.floats(0.95, 1.05), st.floats(0.95, 1.05)),
    st.tuples(st.floats(-2, 2), st.floats(-1, 1)),
    st.tuples(st.floats(-6, 6), st.floats(-6, 6)),
    st.sampled_from([A4, LETTER, PHOTO]),
)
def test_seven_lengths_tell_all_that_a_printer_does_evenly(
    scales: tuple[float, float],
    angles: tuple[float, float],
    shift: tuple[float, float],
    stock: Stock,
) -> None:
    printer = Printer(*scales, *angles, shift)
    lines = check_lines(Forme(stock))
    at = {name: printer.lands(point) for name, point in lines.points.items()}
    figures = CheckFigures(
        dist(at["A"], at["B"]), dist(at["A"], at["C"]), dist(at["A"], at["D"]),
        dist(at["E"], at["F"]), at["A"][0], at["C"][0], at["A"][1],
    )  # fmt: skip
    found = calibrated(figures, lines, stock.width, ("", stock.id, NOW))
    assert (found.across, found.up) == pytest.approx(scales, abs=1e-9)
    assert (found.turn, found.lean) == pytest.approx(angles, abs=1e-6)
    assert tuple(found.shift) == pytest.approx(shift, abs=1e-6)


@pytest.mark.parametrize("stock", [A4, LETTER, PHOTO, Stock("a5", "A5 card", 148.0, 210.0)])
def test_the_check_page_prints_its_own_figures_where_the_printer_is_true(stock: Stock) -> None:
    lines = check_lines(Forme(stock))
    printed = printed_on(check_page(Forme(stock)), Size(stock.width, stock.height), TRUE)
    found, wanted = measured(printed, lines), lines.figures
    for name in ("level", "upright", "rising", "falling", "left_below", "left_above", "bottom"):
        assert getattr(found, name) == pytest.approx(getattr(wanted, name), abs=0.05), name
    assert not dict(doubts(found, lines))


@pytest.mark.parametrize("stock", [A4, LETTER, PHOTO])
def test_bars_are_as_long_as_the_paper_allows(stock: Stock) -> None:
    lines, area = check_lines(Forme(stock)), Forme(stock).printable
    assert area.width - 13 <= lines.across <= area.width
    assert area.height - 13 <= lines.up <= area.height
    with pdfplumber.open(BytesIO(check_page(Forme(stock)))) as opened:
        drawn = [[one[k] * MM for k in ("x0", "y0", "x1", "y1")] for one in opened.pages[0].lines]
    wide = [x1 - x0 for x0, y0, x1, y1 in drawn if abs(y1 - y0) < 1e-3]
    tall = [y1 - y0 for x0, y0, x1, y1 in drawn if abs(x1 - x0) < 1e-3]
    assert max(wide) == pytest.approx(lines.across, abs=0.01)
    assert max(tall) == pytest.approx(lines.up, abs=0.01)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("printer", PRINTERS)
def test_a_printer_is_measured_from_its_check_page(printer: str, paper: str) -> None:
    found, true = calibration(printer, paper), PRINTERS[printer]
    assert (found.across, found.up) == pytest.approx(true[:2], abs=3e-4)
    assert (found.turn, found.lean) == pytest.approx(true[2:4], abs=0.02)
    assert tuple(found.shift) == pytest.approx(true.shift, abs=0.1)


# --- what it does is undone -------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("printer", PRINTERS)
def test_the_corrected_check_page_measures_as_it_says(printer: str, paper: str) -> None:
    stock = PAPERS[paper]
    lines, size = check_lines(Forme(stock)), Size(stock.width, stock.height)
    page = check_page(Forme(stock), printer, calibration(printer, paper))
    at = points_of(printed_on(page, size, PRINTERS[printer]), lines)
    for name, point in lines.points.items():
        assert dist(at[name], point) <= WITHIN, name


ON_ONE = list(zip(cycle(PRINTERS), kinds(), cycle(PAPERS), strict=False))
"""Every kind on one printer and one paper: what printers do does not hang on the kind."""


@pytest.mark.parametrize(("printer", "kind", "paper"), ON_ONE)
def test_every_cut_and_score_of_a_trial_lies_where_it_should(
    printer: str, kind: str, paper: str
) -> None:
    """Read by pdfplumber: each point of the page, put where the printer puts it."""
    stock, true = PAPERS[paper], trial_points(kind, paper)
    corrected = Drawn(trial_page(net(kind), stock, calibration(printer, paper))).points()
    found = [PRINTERS[printer].lands(point) for point in corrected]
    assert len(true) > 10
    assert farthest(true, found) <= WITHIN
    assert farthest(found, true) <= WITHIN


def farthest(points: list[tuple[float, float]], others: list[tuple[float, float]]) -> float:
    """Return how far the worst of some points lies from the nearest of others."""
    one, other = (np.unique(np.round(some, 4), axis=0) for some in (points, others))
    return float(np.hypot(*(one[:, None] - other[None]).transpose(2, 0, 1)).min(1).max())


@pytest.fixture(scope="module")
def inserts() -> dict[str, Insert]:
    return {kind: insert(kind, "Tovarby Nights", None) for kind in kinds()}


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", list(kinds()))
def test_every_edge_and_score_of_a_sheet_lies_where_it_should(
    kind: str, paper: str, inserts: dict[str, Insert]
) -> None:
    """Read by PDFium, printed, and its ticks found with a ruler; and by pdfplumber."""
    stock, printer = PAPERS[paper], "leaning"
    one = inserts[kind]
    field = Forme(stock).field
    rotated = one.net.size.width > field.width
    wide, high = one.net.size[::-1] if rotated else one.net.size
    x, y = field.x + (field.width - wide) / 2, field.y + (field.height - high) / 2
    plain = sheet(stock, [place("tovarby", one, x, y, rotated=rotated)])
    made = replace(plain, calibration=calibration(printer, paper))
    named = {"tovarby": one}, {"tovarby": "Tovarby Nights"}
    page, drawn_true = sheet_page(made, *named), Drawn(sheet_page(plain, *named))
    ticks = drawn_true.segments()
    found = printed_on(page, Size(stock.width, stock.height), PRINTERS[printer])
    seen = 0
    for spot, across in marks(one, x, y, rotated=rotated):
        if any(lies_on(spot, tick) for tick in ticks):
            assert dist(found.line(spot, across, 0.5), spot) <= WITHIN, spot
            seen += 1
    assert seen >= 4
    corrected = [PRINTERS[printer].lands(point) for point in Drawn(page).points()]
    assert farthest(drawn_true.points(filled=True), corrected) <= WITHIN


def marks(
    one: Insert, x: float, y: float, *, rotated: bool
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Return where ticks are looked for: beyond each corner and score, on its line.

    Worked out anew: ticks run from 0.5 to 3.5 mm off a corner, so 2.8 mm off each is one.
    """
    size = one.net.size

    def on(point: tuple[float, float]) -> tuple[float, float]:
        if rotated:
            return x + size.height - point[1], y + point[0]
        return x + point[0], y + point[1]

    segments = [((s.x1, s.y1), (s.x2, s.y2)) for s in one.net.scores]
    for ring in one.net.dieline:
        segments += [
            (a, b) for a, b in zip(ring, [*ring[1:], ring[0]], strict=True) if dist(a, b) > 5
        ]
    found = []
    for start, end in segments:
        for one_end, other in ((start, end), (end, start)):
            (x0, y0), (x1, y1) = on(one_end), on(other)
            long = hypot(x1 - x0, y1 - y0)
            dx, dy = (x0 - x1) / long, (y0 - y1) / long
            found.append(((x0 + 2.8 * dx, y0 + 2.8 * dy), (-dy, dx)))
    return found


class Drawn:
    """What pdfplumber finds on the first page of a file."""

    def __init__(self, pdf: bytes) -> None:
        with pdfplumber.open(BytesIO(pdf)) as opened:
            page = opened.pages[0]
            self.lines, self.filled = page.lines, [*page.rects, *page.curves]
            self.height = float(page.height)

    def segments(self) -> list[tuple[tuple[float, float], ...]]:
        """Return the lines, in mm."""
        return [
            ((one["x0"] * MM, one["y0"] * MM), (one["x1"] * MM, one["y1"] * MM))
            for one in self.lines
        ]

    def points(self, *, filled: bool = False) -> list[tuple[float, float]]:
        """Return the points of every line and outline, or only of outlines, in mm, in order."""
        drawn = self.filled if filled else [*self.lines, *self.filled]
        return [(x * MM, (self.height - y) * MM) for one in drawn for x, y in one["pts"]]


def lies_on(spot: tuple[float, float], line: tuple[tuple[float, float], ...]) -> bool:
    start, end = line
    return dist(start, spot) + dist(spot, end) - dist(start, end) < 0.01


# --- front and back ---------------------------------------------------------------------


@pytest.mark.parametrize("printer", PRINTERS)
def test_the_back_comes_to_lie_on_the_front(printer: str) -> None:
    """Where the front's cross shows on the back's scale, and where it does once corrected."""
    lines, size = check_lines(Forme(A4)), Size(A4.width, A4.height)
    off = _back_is_off(check_page(Forme(A4), duplex=True), printer)
    assert max(map(abs, off)) > 0.3
    front = calibration(printer, "a4")
    figures = figures_of(printer)
    told = replace(figures, back_right=off[0], back_up=off[1])
    found = calibrated(told, lines, size.width, (printer, "a4", NOW))
    assert found.shift == front.shift
    page = check_page(Forme(A4), printer, found, duplex=True)
    assert _back_is_off(page, printer) == pytest.approx((0, 0), abs=WITHIN)


def figures_of(printer: str) -> CheckFigures:
    lines = check_lines(Forme(A4))
    printed = printed_on(check_page(Forme(A4)), Size(A4.width, A4.height), PRINTERS[printer])
    return measured(printed, lines)


def _back_is_off(pdf: bytes, printer: str) -> tuple[float, float]:
    """Return where the front's cross shows on the back's scale, held against the light."""
    size, (x, y) = Size(A4.width, A4.height), check_lines(Forme(A4)).cross
    front = printed_on(pdf, size, PRINTERS[printer])
    back = printed_on(pdf, size, PRINTERS[printer], 1, back=True)
    at = front.line((x, y + 6.2), (1, 0), 2.9)[0], front.line((x + 6.2, y), (0, 1), 2.9)[1]
    own = arm(back, (x, y), (1, 0)), arm(back, (x, y), (0, 1))
    return size.width - at[0] - own[0], at[1] - own[1]


def arm(paper: Paper, at: tuple[float, float], across: tuple[int, int]) -> float:
    """Return where an arm of the scale lies: the darkest line along it."""
    along = across[::-1]
    spots = [(at[0] + n / 4 * along[0], at[1] + n / 4 * along[1]) for n in range(4, 27)]
    profiles = [paper.profile(spot, across, 2.9) for spot in spots]
    darkest = profiles[0][0][sum(dark for _, dark in profiles).argmax()]
    found = at[0] * across[0] + at[1] * across[1] + darkest
    return float(found)


# --- doubts ------------------------------------------------------------------------------


def test_a_page_fitted_to_the_paper_is_doubted() -> None:
    lines = check_lines(Forme(A4))
    wanted = lines.figures
    fitted = CheckFigures(*(0.94 * getattr(wanted, name) for name in ("level", "upright", "rising",
        "falling")), 14.4, 14.4, 13.0)  # fmt: skip
    found = dict(doubts(fitted, lines))
    assert {"level", "upright", "rising", "falling"} <= found.keys()
    assert "94.0 % of 190.0 mm. Is the viewer scaling?" in found["level"]


def test_two_percent_is_believed_and_more_is_not() -> None:
    lines = check_lines(Forme(A4))
    wanted = lines.figures
    for part, count in ((1.0195, 0), (1.0205, 4)):
        figures = CheckFigures(
            wanted.level * part, wanted.upright * part, wanted.rising * part,
            wanted.falling * part, wanted.left_below, wanted.left_above, wanted.bottom,
        )  # fmt: skip
        assert len(dict(doubts(figures, lines))) == count


def test_diagonals_that_do_not_go_with_the_bars_are_doubted() -> None:
    lines = check_lines(Forme(A4))
    wrong = replace(lines.figures, falling=lines.figures.falling + 2.0)
    assert list(dict(doubts(wrong, lines))) == ["falling"]
    right = replace(lines.figures, falling=lines.figures.falling + 0.5)
    assert not dict(doubts(right, lines))


def test_lengths_that_no_page_has_are_refused() -> None:
    lines = check_lines(Forme(A4))
    with pytest.raises(InputError, match="no page has these lengths"):
        calibrated(replace(lines.figures, falling=1.0), lines, 210.0, ("", "a4", NOW))


def test_paper_too_small_for_the_lines_says_so() -> None:
    with pytest.raises(InputError, match="too small for a check page"):
        check_page(Forme(Stock("card", "Card", 54.0, 86.0)))


# --- what is looked at ------------------------------------------------------------------


def test_the_page_has_type_of_every_size_in_black_and_in_white() -> None:
    with pdfplumber.open(BytesIO(check_page(Forme(A4)))) as opened:
        chars = opened.pages[0].chars
    for colour in ({0}, {1}):  # black is grey, white what all three colours give
        sizes = {round(c["size"]) for c in chars if set(c["non_stroking_color"]) == colour}
        assert sizes >= set(range(3, 13))


def test_the_same_check_page_gives_the_same_bytes() -> None:
    assert check_page(Forme(A4), duplex=True) == check_page(Forme(A4), duplex=True)
