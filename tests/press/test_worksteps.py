"""The work on a printed sheet, step by step: what is in hand, and where it is cut."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.cases import FlatNet
from engine.ganging import sheetwork
from engine.model import Forme, Placement, Rect, Rule, Stock
from engine.press import WorkKind, work_steps
from engine.press.worksteps import BY_TICKS
from tests.press.making import net

A4 = Stock(id="a4", name="A4", width=210.0, height=297.0)
"""ISO 216:2007."""


def report(placements: list[Placement], rule: Rule = Rule.TRIMMER):
    made = sheetwork.Sheet(1, Forme(A4, rule=rule), tuple(placements), None)
    return sheetwork.pressed(made, None)


def place(x: float, y: float, width: float, height: float, **more: object) -> Placement:
    return Placement(game="g", case="c", design="d", x=x, y=y, width=width, height=height, **more)


def lies_in(inner: Rect, outer: Rect) -> bool:
    return (
        outer.x - 0.01 <= inner.x
        and outer.y - 0.01 <= inner.y
        and inner.x + inner.width <= outer.x + outer.width + 0.01
        and inner.y + inner.height <= outer.y + outer.height + 0.01
    )


def boxes(placements: list[Placement]) -> list[Rect]:
    return [Rect(one.x, one.y, one.width, one.height) for one in placements]


def of_snap_shell(x: float, y: float, *, rotated: bool = False) -> tuple[Placement, FlatNet]:
    flat = net("snap-shell")
    width, height = reversed(flat.size) if rotated else flat.size
    return place(x, y, width, height, rotated=rotated), flat


@settings(max_examples=6)
@given(
    st.integers(1, 2),
    st.integers(1, 3),
    st.integers(50, 80),
    st.integers(50, 80),
    st.integers(0, 8),
)
def test_cutting_as_told_frees_every_insert_and_cuts_through_none(
    columns: int, rows: int, width: int, height: int, gap: int
) -> None:
    """The pieces are cut apart here, by the lines alone, and looked at."""
    lain = [
        place(20 + x * (width + gap), 20 + y * (height + gap), width, height)
        for x in range(columns)
        for y in range(rows)
    ]
    table = {Rect(0.0, 0.0, A4.width, A4.height)}
    freed: list[int] = []
    for step in work_steps(report(lain), {}):
        assert step.kind is WorkKind.CUT
        assert len(step.pieces) == len(step.lines)
        for piece, line in zip(step.pieces, step.lines, strict=True):
            whole = next(one for one in table if lies_in(one, piece) and lies_in(piece, one))
            table.remove(whole)
            if line.width == 0:
                parts = [
                    Rect(piece.x, piece.y, line.x - piece.x, piece.height),
                    Rect(line.x, piece.y, piece.x + piece.width - line.x, piece.height),
                ]
            else:
                parts = [
                    Rect(piece.x, piece.y, piece.width, line.y - piece.y),
                    Rect(piece.x, line.y, piece.width, piece.y + piece.height - line.y),
                ]
            assert all(part.width > 0 and part.height > 0 for part in parts)
            table.update(parts)
        freed += step.frees
    assert sorted(freed) == list(range(len(lain)))
    assert all(any(lies_in(a, b) and lies_in(b, a) for b in table) for a in boxes(lain))


def test_scores_come_before_cuts_and_lie_on_their_inserts() -> None:
    upright, flat = of_snap_shell(20, 30)
    turned, _ = of_snap_shell(110, 30, rotated=True)
    lain = [upright, turned]
    steps = work_steps(report(lain), {("g", "c"): flat})
    kinds = [step.kind for step in steps]
    assert kinds == sorted(kinds, key=[WorkKind.SCORE, WorkKind.CUT].index)
    scores = [step for step in steps if step.kind is WorkKind.SCORE]
    assert [step.name for step in scores] == ["a", "b", "c", "d"], "two on each, none in line"
    for line in (line for step in scores for line in step.lines):
        assert any(lies_in(line, box) for box in boxes(lain))
    upright_at = {round(line.x, 2) for s in scores for line in s.lines if line.width == 0}
    level_at = {round(line.y, 2) for s in scores for line in s.lines if line.height == 0}
    (long,) = (score.x1 for score in flat.scores if score.x1 == score.x2)
    (short,) = (score.y1 for score in flat.scores if score.y1 == score.y2)
    # Turned a quarter counter-clockwise, (x, y) of the net comes to lie at (height - y, x).
    assert upright_at == {round(20 + long, 2), round(110 + flat.size.height - short, 2)}
    assert level_at == {round(30 + short, 2), round(30 + long, 2)}


def test_what_has_no_order_of_cuts_is_one_step_along_the_ticks() -> None:
    """The pinwheel: no cut from edge to edge frees four rectangles that lie round a fifth."""
    pinwheel = [
        place(20, 20, 100, 50),
        place(120, 20, 50, 100),
        place(70, 120, 100, 50),
        place(20, 70, 50, 100),
        place(70, 70, 50, 50),
    ]
    (step,) = work_steps(report(pinwheel, Rule.KNIFE), {})
    assert step.words == BY_TICKS
    assert step.frees == (0, 1, 2, 3, 4)


def test_what_is_cut_by_hand_comes_last_with_its_inserts_in_hand() -> None:
    lain = [place(20, 30, 60, 60), place(90, 30, 60, 60)]
    work = sheetwork.HandWork((1,), "Case, 2: notch.")
    *_, last = work_steps(report(lain), {}, [work])
    assert (last.kind, last.words) == (WorkKind.BY_HAND, "Case, 2: notch.")
    assert last.pieces == (boxes(lain)[1],)
