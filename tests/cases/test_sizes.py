"""The caliper rule, against the neutral line of bent paper.

Caliper of 80 g/m2 copy paper 0.10 to 0.11 mm, of 200 to 220 g/m2 card 0.22 to 0.30 mm
(common practice). A sharp right-angled fold of paper t thick with its neutral line at t/2:
from crease to crease, round a body X the panel is X + t, in an opening Y it is Y - t; over
the rounded bend the flat length is the sum of the inside lengths + 0.785 t a fold, or the
sum of the outside lengths - 1.215 t a fold (derived).
"""

from __future__ import annotations

import msgspec
import pytest

from engine.cases import CaseKind, Fits, Measure, Panel, Role, Side, flatten, fold, load_kinds
from engine.cases.model import Length
from engine.model.errors import CaseError

COPY, CARD = 0.10, 0.28
KINDS = load_kinds()


def wrap(fits: Fits, *, clearance: float = 0.0) -> CaseKind:
    return CaseKind(
        "wrap",
        "Wrap",
        (Measure("height", 100.0), Measure("front", 60.0), Measure("spine", 12.0)),
        (
            Panel("front", Role.ART, "front", width="front", height="height"),
            Panel("spine", Role.EDGE, "spine", on="front", side=Side.LEFT, width="spine"),
            Panel("back", Role.ART, "back", on="spine", side=Side.LEFT, width="front"),
        ),
        fits=fits,
        clearance=clearance,
    )


def widths(kind: CaseKind, caliper: float) -> list[float]:
    net = flatten(kind, caliper)
    return [net.panel(n).rect.width for n in ("front", "spine", "back")]


def test_a_wrap_grows_by_half_a_caliper_at_every_score() -> None:
    thin, thick = widths(wrap(Fits.AROUND), COPY), widths(wrap(Fits.AROUND), CARD)
    assert thin == pytest.approx([60.05, 12.10, 60.05])
    assert thick == pytest.approx([60.14, 12.28, 60.14])
    more = CARD - COPY
    assert [b - a for a, b in zip(thin, thick, strict=True)] == pytest.approx(
        [more / 2, more, more / 2]
    )


def test_what_goes_inside_shrinks_by_half_a_caliper_at_every_score() -> None:
    assert widths(wrap(Fits.INSIDE), COPY) == pytest.approx([59.95, 11.90, 59.95])
    assert widths(wrap(Fits.INSIDE), CARD) == pytest.approx([59.86, 11.72, 59.86])


@pytest.mark.parametrize("caliper", [COPY, CARD])
def test_the_flat_length_agrees_with_the_bend_to_a_fifth_of_the_paper_a_fold(
    caliper: float,
) -> None:
    inside_lengths = 60.0 + 12.0 + 60.0
    folds = 2
    around = flatten(wrap(Fits.AROUND), caliper).size.width
    assert around == pytest.approx(inside_lengths + 0.785 * caliper * folds, abs=0.22 * caliper * 2)
    outside = flatten(wrap(Fits.INSIDE), caliper).size.width
    assert outside == pytest.approx(
        inside_lengths - 1.215 * caliper * folds, abs=0.22 * caliper * 2
    )


@pytest.mark.parametrize("name", ["snap-shell", "keep-case", "jewel-tray", "soft-cassette"])
def test_the_dieline_of_a_kind_changes_with_its_stock_as_the_rule_says(name: str) -> None:
    kind = KINDS[name]
    thin, thick = flatten(kind, COPY), flatten(kind, CARD)
    sign = 1 if kind.fits is Fits.AROUND else -1
    for panel in thin.panels:
        for sides, grown in ((("left", "right"), 0), (("bottom", "top"), 1)):
            own = kind.panel(panel.name)
            assert own is not None
            if (own.width, own.height)[grown] is None:
                continue  # as long as the side it hangs on
            scored = sum(1 for side in sides if side not in thin.cut_sides(panel.name))
            change = thick.panel(panel.name).rect[2 + grown] - panel.rect[2 + grown]
            assert change == pytest.approx(sign * scored * (CARD - COPY) / 2)
    (thin_cut,), (thick_cut,) = thin.dieline, thick.dieline
    reach = max(x for x, _ in thick_cut) - max(x for x, _ in thin_cut)
    assert reach == pytest.approx(thick.size.width - thin.size.width, abs=1e-6)
    assert reach != 0


def test_a_piece_cut_free_of_a_dropped_panel_owes_nothing_to_its_fold() -> None:
    net = flatten(wrap(Fits.AROUND), CARD, left_out=frozenset({"back"}))
    assert net.panel("spine").rect.width == pytest.approx(12.14)  # one score, not two


def test_figures_of_a_finished_insert_hold_on_its_own_paper() -> None:
    kind = msgspec.structs.replace(wrap(Fits.INSIDE), measured_on=CARD)
    assert widths(kind, CARD) == pytest.approx([60.0, 12.0, 60.0])
    assert widths(kind, COPY) == pytest.approx([60.09, 12.18, 60.09])


# Kind by kind, what the folded body measures: the figures of its file less the clearance.
@pytest.mark.parametrize("caliper", [COPY, CARD])
@pytest.mark.parametrize("fits", Fits)
@pytest.mark.parametrize("clearance", [0.0, 0.5])
def test_folding_gives_back_what_was_measured_less_the_clearance(
    caliper: float, fits: Fits, clearance: float
) -> None:
    body = fold(wrap(fits, clearance=clearance), caliper)
    if fits is Fits.INSIDE:
        assert body.outside == pytest.approx((60.0 - clearance, 100.0 - clearance, 12 - clearance))
    else:
        assert body.inside == pytest.approx((60.0 + clearance, 100.0 + clearance, 12 + clearance))


@pytest.mark.parametrize("caliper", [COPY, CARD])
@pytest.mark.parametrize("name", ["snap-shell", "snap-shell-low", "snap-shell-card"])
def test_a_folded_snap_shell_insert_is_its_inside_less_the_clearance(
    name: str, caliper: float
) -> None:
    inside = {m.name: m.value for m in KINDS[name].measures}
    body = fold(KINDS[name], caliper).outside
    assert body == pytest.approx(tuple(inside[side] - 0.5 for side in ("width", "height", "depth")))


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_folds_back_to_its_figures(name: str) -> None:
    """Panel by panel, from skin to skin: a side in space is its measure less the clearance."""
    kind = KINDS[name]
    inwards = -1 if kind.fits is Fits.INSIDE else 1
    body = fold(kind, CARD)
    for panel in kind.panels:
        own = body.panel(panel.name)
        lower_left, lower_right, upper_right, _ = own.corners
        reached = (distance(lower_left, lower_right), distance(lower_right, upper_right))
        cut = flatten(kind, CARD).cut_sides(panel.name)
        for length, reach, sides in (
            (panel.width, reached[0], ("left", "right")),
            (panel.height, reached[1], ("bottom", "top")),
        ):
            if length is None:
                continue
            scored = sum(1 for side in sides if side not in cut)
            skins = reach - inwards * scored * (CARD - kind.measured_on) / 2
            assert skins == pytest.approx(measured(kind, length) + inwards * kind.clearance)


def measured(kind: CaseKind, length: Length) -> float:
    return next(m.value for m in kind.measures if m.name == length)


def distance(one: tuple[float, ...], other: tuple[float, ...]) -> float:
    return float(sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) ** 0.5)


def test_a_panel_of_which_nothing_is_left_is_refused_by_name() -> None:
    with pytest.raises(CaseError, match='nothing is left of panel "spine"'):
        flatten(wrap(Fits.INSIDE, clearance=12.0), CARD)


@pytest.mark.parametrize("caliper", [0.0, -0.1, 25.0, float("nan"), float("inf")])
def test_what_is_not_the_thickness_of_paper_is_refused(caliper: float) -> None:
    with pytest.raises(CaseError, match="not the thickness of paper"):
        flatten(wrap(Fits.INSIDE), caliper)
