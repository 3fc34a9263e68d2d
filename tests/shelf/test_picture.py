"""The picture of a shelf, measured: four hundred edges, each of a colour of its own."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from itertools import pairwise

import numpy as np
import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from engine import cases
from engine.artwork import page_pixels
from engine.cases import FlatNet, Pose
from engine.cases.library import load_kinds
from engine.lettering import default_font
from engine.model import Art, Colours, Design, EdgeTitle, InkMode, Rect, Size
from engine.press import PdfDocument, compose, moved
from engine.shelf import laying
from engine.shelf.drawing import ROOM, Look, Part, Stood, picture, shelf_page, size_of
from engine.shelf.facing import Faced, faced
from engine.shelf.laying import Item, Laid, Section
from tests.shelf.edges import measured

KINDS = load_kinds()
NAMES = ("snap-shell", "soft-cassette", "keep-case")
PPI = 101.6
PER_MM = PPI / 25.4
"""Four pixels to the millimetre."""


@cache
def edge(kind: str, pose: Pose) -> tuple[FlatNet, Faced]:
    net = cases.flatten(KINDS[kind], 0.25, pose=pose)
    return net, faced(net, cases.fold(KINDS[kind], 0.25, pose=pose), pose)


def stand(kind: str, colour: str, pose: Pose, *, printed: bool = True, title: str = "") -> Stood:
    net, one = edge(kind, pose)
    titles = (EdgeTitle(one.panel.name, (title,), 12.0),) if title else ()
    design = Design(kind, Art(), Colours(colour, "#000000"), titles)
    return Stood(compose(design, net, None, default_font()), one, printed)


def colour_of(number: int) -> str:
    """Return a colour that no other number has, far from those of the furniture."""
    return f"#{number % 20 * 12:02x}{number // 20 * 12:02x}ff"


def shelf(pose: Pose, count: int) -> tuple[Part, dict[str, Stood]]:
    stood = {f"{n:03}": stand(NAMES[n % 3], colour_of(n), pose) for n in range(count)}
    section = Section(pose, tuple(Item(key, one.faced.size) for key, one in stood.items()))
    laid = laying.lay_out([section], lambda one: laying.best_length(one, 1.6))
    return Part(laid, stood.__getitem__, {0: pose}, Look()), stood


@pytest.mark.parametrize(("pose", "count"), [("shelf", 400), ("drawer", 30), ("stack", 30)])
def test_four_hundred_edges_stand_in_order_and_true_to_size(pose: Pose, count: int) -> None:
    pose = Pose(pose)
    part, stood = shelf(pose, count)
    pixels = np.asarray(page_pixels(shelf_page([part]), 0, PPI))
    colours = {key: colour_of(int(key)) for key in stood}
    places = []
    for one in measured(pixels, part.laid, colours, PER_MM):
        seen = stood[one.spot.item.game].faced.size
        assert one.size == pytest.approx(seen, abs=0.51), "two pixels, one at each side"
        places.append((one.spot.line, one.left if pose is Pose.SHELF else one.top))
    games = [spot.item.game for spot in part.laid.spots]
    if pose is Pose.SHELF:
        assert [game for _, game in sorted(zip(places, games, strict=True))] == sorted(games)
    else:  # in a drawer the first is the lowest, before the person, in a stack the highest
        sign = -1 if pose is Pose.DRAWER else 1
        order = sorted(
            (line, sign * at, game) for (line, at), game in zip(places, games, strict=True)
        )
        assert [game for *_, game in order] == sorted(games)


def test_the_page_is_true_to_size_and_the_png_says_its_scale() -> None:
    part, _ = shelf(Pose.SHELF, 9)
    page = shelf_page([part, part])
    size = size_of([part, part])
    assert size == pytest.approx((part.laid.size.width, 2 * part.laid.size.height))
    with pdfplumber.open(BytesIO(page)) as read:
        found = [float(side) / 72 * 25.4 for side in (read.pages[0].width, read.pages[0].height)]
    assert found == pytest.approx(size, abs=0.01)
    with Image.open(BytesIO(picture(page, size, 100.0))) as png:
        assert png.info["dpi"] == pytest.approx((100, 100), abs=0.1)
        assert png.size == pytest.approx([side * 100 / 25.4 for side in size], abs=1.5)


@pytest.mark.parametrize("kind", NAMES)
@pytest.mark.parametrize("pose", Pose)
def test_an_edge_is_that_of_the_insert_pixel_for_pixel(kind: str, pose: Pose) -> None:
    """The panel cut from the page of the whole insert, turned as it is seen: one renderer."""
    one = stand(kind, "#3366cc", pose, title="Tide")
    net, rect = one.insert.net, one.faced.panel.rect
    document = PdfDocument("insert")
    one.insert.draw(document.page(Size(*net.size)), 0.0)
    whole = page_pixels(document.finish(), 0, 254.0)
    left, top = rect.x * 10, (net.size.height - rect.y - rect.height) * 10
    box = (left, top, left + rect.width * 10, top + rect.height * 10)
    turn = (one.faced.turn - one.faced.panel.turn) % 360
    expected = whole.crop(tuple(round(side) for side in box)).rotate(turn, expand=True)
    size = one.faced.size
    document = PdfDocument("edge")
    pen = document.page(size)
    at = one.faced.at(Rect(0.0, 0.0, *size))
    one.drawn.draw_panel(moved(pen, at), one.faced.panel.name)
    found = page_pixels(document.finish(), 0, 254.0).resize(expected.size)
    apart = abs(np.asarray(found).astype(int) - np.asarray(expected).astype(int))
    assert apart.mean() < 6, "but for the grey of an outline that falls between pixels"
    assert (np.asarray(found) < 60).all(axis=2).sum() > 50, "the title is there"


def test_what_is_planned_is_lighter_and_has_no_pin() -> None:
    printed, planned = (
        stand("snap-shell", "#204080", Pose.SHELF, printed=printed) for printed in (True, False)
    )
    assert printed.drawn is printed.insert
    assert planned.drawn.design.ink is InkMode.DRAFT
    assert planned.insert.design.ink is InkMode.FULL


@given(
    st.lists(st.tuples(st.floats(2, 30), st.floats(20, 190)), min_size=1, max_size=30),
    st.sampled_from(Pose),
    st.floats(40, 400),
    st.booleans(),
)
@settings(max_examples=40)
def test_nothing_overlaps_and_all_stand_in_their_lines(
    sizes: list[tuple[float, float]], pose: Pose, length: float, parted: bool
) -> None:
    items: list[Item] = []
    for n, (thick, long) in enumerate(sizes):
        if parted and n % 4 == 0:
            items.append(Item("", Size(laying.DIVIDER, laying.DIVIDER), f"{n}"))
        size = Size(thick, long) if pose is Pose.SHELF else Size(long, thick)
        items.append(Item(f"{n}", size, f"{n}"))
    laid = laying.lay_out([Section(pose, tuple(items))], lambda _: length)
    assert sorted(s.item.game for s in laid.spots) == sorted(item.game for item in items)
    page = Rect(0.0, 0.0, *laid.size)
    for spot in laid.spots:
        inside = laid.lines[spot.line].inside
        assert inside.x <= spot.rect.x
        assert spot.rect.x + spot.rect.width <= inside.x + inside.width + 1e-6
        assert inside.y <= spot.rect.y
        assert spot.rect.y + spot.rect.height <= inside.y + inside.height + 1e-6
        assert spot.rect.overlaps(page)
    for one, other in pairwise(sorted(laid.spots, key=lambda s: (s.line, s.rect))):
        assert not one.rect.overlaps(other.rect)


def test_a_row_ends_in_no_divider() -> None:
    items = [Item(f"{n}", Size(10.0, 50.0)) for n in range(9)]
    items.insert(4, Item("", Size(laying.DIVIDER, laying.DIVIDER), "M"))
    laid = laying.lay_out([Section(Pose.SHELF, tuple(items))], lambda _: 51.0)
    ends = {spot.line: spot.item.game for spot in laid.spots}
    assert all(ends.values())


def test_steps_lead_through_all_games_in_order_and_to_the_lines_beside() -> None:
    section = Section(Pose.SHELF, tuple(Item(f"{n}", Size(10.0, 50.0)) for n in range(9)))
    laid: Laid = laying.lay_out([section], lambda _: 51.0)
    steps = laying.steps(laid, {0: Pose.SHELF})
    assert [steps["3"].left, steps["3"].right, steps["4"].up, steps["0"].down] == [
        "2",
        "4",
        "0",
        "4",
    ]
    assert (steps["0"].left, steps["8"].right, steps["8"].down) == ("0", "8", "8")
    pile = laying.lay_out([section._replace(pose=Pose.STACK)], lambda _: 210.0)
    steps = laying.steps(pile, {0: Pose.STACK})
    assert (steps["1"].up, steps["1"].down) == ("0", "2")


def test_furniture_has_no_colour_of_a_game() -> None:
    assert ROOM not in {colour_of(n) for n in range(400)}
