"""The kinds that ship, against the published and customary figures."""

from __future__ import annotations

import pytest

from engine.cases import Role, flatten, fold, load_kinds, parse_kind
from engine.cases.library import BUILT_IN

KINDS = load_kinds()
CARD = 0.25


def test_every_kind_asked_of_the_program_ships() -> None:
    assert set(KINDS) == {
        "snap-shell",
        "snap-shell-low",
        "snap-shell-card",
        "soft-cassette",
        "soft-cassette-clips",
        "soft-cassette-pieces",
        "hard-cassette",
        "hard-cassette-full",
        "jewel-tray",
        "jewel-front",
        "jewel-slim",
        "keep-case",
        "keep-case-short",
        "keep-case-slim",
        "edge-label",
        "cartridge-label",
        "divider",
        "shelf-label",
    }


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_lies_flat_folds_and_says_where_its_figures_come_from(name: str) -> None:
    text = (BUILT_IN / f"{name}.toml").read_text(encoding="utf-8")
    kind = parse_kind(text, f"{name}.toml")  # lays the net out, which loading does not
    assert kind == KINDS[name]
    words = ("memory", "no published source", "IEC", "computed")
    assert any(word in source for source in kind.sources for word in words)
    assert any(source.startswith(kind.fits) for source in kind.sources)


# CD jewel case: front card 120 x 120, tray card 151 x 118 (common practice), split
# 6.5 + 138 + 6.5 (from memory). DVD keep case wrap 273 x 184 = 129.5 + 14 + 129.5 (common
# practice). Hard cassette case: insert 101.5 long, front 65, spine 12.7, back flap 16 (common
# practice). All of them as finished inserts of card.
@pytest.mark.parametrize(
    ("name", "size", "widths"),
    [
        ("jewel-tray", (151.0, 118.0), (6.5, 138.0, 6.5)),
        ("jewel-front", (120.0, 120.0), (120.0,)),
        ("jewel-slim", (120.0, 120.0), (120.0,)),
        ("keep-case", (273.0, 184.0), (129.5, 14.0, 129.5)),
        ("keep-case-slim", (266.0, 184.0), (129.5, 7.0, 129.5)),
        ("hard-cassette", (93.7, 101.5), (16.0, 12.7, 65.0)),
        ("hard-cassette-full", (142.7, 101.5), (65.0, 12.7, 65.0)),
    ],
)
def test_finished_inserts_have_the_customary_sizes(
    name: str, size: tuple[float, float], widths: tuple[float, ...]
) -> None:
    net = flatten(KINDS[name], CARD)
    assert net.size == pytest.approx(size)
    across = sorted(net.panels, key=lambda panel: panel.rect.x)
    assert [panel.rect.width for panel in across] == pytest.approx(widths)


# Cartridges (from memory): standard 65 x 57 x 8, low 57 x 34 x 8, card type 35 x 33 x 3.8.
@pytest.mark.parametrize(
    ("name", "cartridge"),
    [
        ("snap-shell", (57.0, 65.0, 8.0)),
        ("snap-shell-low", (57.0, 34.0, 8.0)),
        ("snap-shell-card", (33.0, 35.0, 3.8)),
    ],
)
def test_a_cartridge_goes_into_the_folded_insert_of_its_shell(
    name: str, cartridge: tuple[float, float, float]
) -> None:
    room = fold(KINDS[name], CARD).inside
    assert all(space > 1.0 + side for space, side in zip(room, cartridge, strict=True))


# Keep cases outside (common practice): 190 x 135 x 14 and, short, 171.5 x 135 x 13.
@pytest.mark.parametrize(
    ("name", "case"),
    [("keep-case", (135.0, 190.0, 14.0)), ("keep-case-short", (135.0, 171.5, 13.0))],
)
def test_a_wrap_is_a_little_smaller_than_its_keep_case(
    name: str, case: tuple[float, float, float]
) -> None:
    wrap = fold(KINDS[name], CARD).inside
    assert 0 < case[0] - wrap.width < 7
    assert 0 < case[1] - wrap.height < 7
    assert wrap.depth == pytest.approx(case[2] - CARD)  # the figure is of a finished wrap


def test_the_two_flaps_of_a_snap_shell_share_a_corner() -> None:
    net = flatten(KINDS["snap-shell"], CARD)
    back, long, short = (net.panel(n).rect for n in ("back", "long", "short"))
    (outline,) = net.dieline
    assert len(outline) == 6  # an L
    assert net.size == pytest.approx((back.width + long.width, back.height + short.height))
    assert net.panels[0].role is Role.ART
    corner = (back.x + back.width, back.y + back.height)
    assert corner in [pytest.approx(spot) for spot in outline]


def test_a_wrap_in_three_pieces_is_cut_apart_and_not_scored() -> None:
    whole = flatten(KINDS["soft-cassette"], CARD)
    pieces = flatten(KINDS["soft-cassette-pieces"], CARD)
    assert (len(whole.dieline), len(whole.scores)) == (1, 2)
    assert (len(pieces.dieline), len(pieces.scores)) == (3, 0)
    # Stuck outside they take what was measured: no fold, no part of the paper in it.
    assert [p.rect.width for p in pieces.panels] == [67.5, 14.0, 67.5]
    assert all(len(pieces.cut_sides(p.name)) == 4 for p in pieces.panels)


def test_clip_notches_are_cut_from_the_free_sides() -> None:
    plain, clipped = (flatten(KINDS[n], CARD) for n in ("soft-cassette", "soft-cassette-clips"))
    assert plain.size == clipped.size
    assert area(plain.dieline) - area(clipped.dieline) == pytest.approx(2 * 20.0 * 4.0)
    assert len(clipped.notches) == 2


def test_what_can_hurt_comes_with_its_caution() -> None:
    assert any("EN 166" in words for words in KINDS["soft-cassette"].cautions)
    assert any("safety data sheet" in words for words in KINDS["soft-cassette-pieces"].cautions)


def area(rings: tuple[tuple[tuple[float, float], ...], ...]) -> float:
    """The shoelace formula; holes run clockwise and count against."""
    return sum(
        (x1 * y2 - x2 * y1) / 2
        for ring in rings
        for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
