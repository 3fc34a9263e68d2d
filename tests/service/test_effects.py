"""What settings do: against arithmetic on standard paper sizes, and against what happens."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO
from math import floor
from typing import Any

import pytest
from PIL import Image

from engine import (
    SETTINGS,
    CaseError,
    InputError,
    Measure,
    Shows,
    Workshop,
)
from engine.model.waiting import Cancelled
from engine.service.effects import SHOWN

ROOM = (320, 200)
"""In pixels."""


def figures(workshop: Workshop, setting: str, **what_if: Any) -> dict[Measure, tuple[float, float]]:
    """Return the figures of a setting, as they are and as they would be."""
    effect = workshop.effects.effect(setting, what_if)
    return {one.measure: (one.before, one.after) for one in effect.figures}


def after(workshop: Workshop, setting: str, **what_if: Any) -> dict[Measure, float]:
    return {one: pair[1] for one, pair in figures(workshop, setting, **what_if).items()}


def test_what_shows_a_setting_is_declared_for_each(stocked: Workshop) -> None:
    assert SHOWN.keys() == SETTINGS.keys()
    for name, (by, _) in SHOWN.items():
        effect = stocked.effects.effect(name, pixels=ROOM)
        assert bool(effect.sheet) is (by is Shows.SHEET), name
        assert bool(effect.picture) is (by in {Shows.EDGES, Shows.TITLE, Shows.INSERT}), name


# --- sheets, against ISO 216 ------------------------------------------------------------


def iso_216(number: int) -> tuple[int, int]:
    """Return the size of A0, A1, … upright, in mm.

    ISO 216: A0 is 841 × 1189 mm; each next size halves the long side, rounded down.
    """
    width, height = 841, 1189
    for _ in range(number):
        width, height = height // 2, width
    return width, height


def bounds(paper: tuple[int, int], insert: tuple[float, float]) -> tuple[int, int]:
    """Return how many inserts a grid of one way round lays on a sheet, and what areas allow.

    The printer leaves 6 mm white at three sides and 12 at the foot, names take 8 mm above that;
    2 mm lie between two inserts, so that an insert and the field each take 2 mm more.
    """
    wide, high = paper[0] - 12 + 2, paper[1] - 18 - 8 + 2
    across, up = (side + 2 for side in insert)
    grids = [floor(wide / a) * floor(high / b) for a, b in ((across, up), (up, across))]
    return max(grids), floor(wide * high / (across * up))


@pytest.mark.parametrize(
    ("kind", "size", "before", "after"),
    [
        # The flat sizes of docs/cases: a tray card with two spines, and a slim wrap.
        ("jewel-tray", (151.0, 118.0), 4, 5),
        ("keep-case-slim", (266.0, 184.0), 4, 3),
        ("keep-case-slim", (266.0, 184.0), 4, 5),
    ],
)
def test_so_many_inserts_lie_on_another_paper(
    workshop: Workshop, kind: str, size: tuple[float, float], before: int, after: int
) -> None:
    workshop.setup.change(case=kind)
    counts = []
    for number in (before, after):
        least, most = bounds(iso_216(number), size)
        assert least == most, "arithmetic leaves no doubt"
        counts.append(least)
    found = figures(workshop, "stock", stock=f"a{after}-card")
    assert found[Measure.ON_SHEET] == tuple(counts)
    areas = [iso_216(number) for number in (before, after)]
    assert found[Measure.USED] == pytest.approx(
        [n * size[0] * size[1] / (w * h) for n, (w, h) in zip(counts, areas, strict=True)]
    )


def test_a_sheet_is_shown_with_the_games_that_are_to_be_printed(stocked: Workshop) -> None:
    effect = stocked.effects.effect("gutter", {"gutter": 20}, pixels=ROOM)
    assert effect.sheet is not None
    assert len(effect.sheet.placements) == after(stocked, "gutter", gutter=20)[Measure.ON_SHEET]
    left = {line.title for line in stocked.games.lines()}
    assert set(effect.titles) <= left
    assert len(set(effect.titles)) == len(effect.titles)
    boxes = [(one.x, one.y, one.width, one.height) for one in effect.sheet.placements]
    for n, (x, y, width, height) in enumerate(boxes):
        for left_of, below, w, h in boxes[:n]:
            apart = max(x - left_of - w, left_of - x - width, y - below - h, below - y - height)
            assert apart >= 20 - 0.1, "a tenth is what placements are rounded to"
    assert effect.picture == b""


def test_without_games_a_sheet_of_the_usual_kind_shows_it(workshop: Workshop) -> None:
    effect = workshop.effects.effect("bleed", pixels=ROOM)
    assert effect.sheet is not None
    assert set(effect.titles) == {""}
    assert workshop.effects.effect("pose", {"pose": "stack"}, pixels=ROOM).picture == b""
    assert workshop.effects.effect("ink", pixels=ROOM).figures[0].after == 0


def test_a_kind_on_a_paper_of_its_own_is_passed_over(stocked: Workshop) -> None:
    """The usual paper makes no difference to it: another kind shows what it does."""
    first, *_ = stocked.games.lines()
    stocked.designs.change_cases([first.id], "keep-case")
    stocked.setup.change(stocks={"snap-shell": "a5-card"})
    effect = stocked.effects.effect("stock", {"stock": "a3-card"})
    assert effect.kind == "Keep case, wrap"
    assert (
        stocked.effects.effect("stocks", {"stocks": {"snap-shell": "a4-card"}}).kind != effect.kind
    )


# --- what is foretold is what happens ---------------------------------------------------

TRIED: dict[str, Any] = {
    "stock": "a3-card",
    "margins": (20, 20, 20, 20),
    "caliper": 0.4,
    "rule": "knife",
    "free_bleed": 1.0,
    "least_edge": 100.0,
    "threshold": 1.0,
    "case": "keep-case",
    "left_out": {"snap-shell": ("long",)},
    "ink": "draft",
    "pose": "stack",
    "spine": "ascending",
    "order": "year",
    "mode": "free",
    "lines": 1,
    "largest": 6.0,
    "distance": 2000.0,
    "dictionary": {"Lantern": "Ln."},
    "mark": "=★",
}


def test_what_is_foretold_is_what_happens(stocked: Workshop) -> None:
    saved = (stocked.folder / "collection.json").read_bytes()
    told = {name: stocked.effects.effect(name, {name: value}) for name, value in TRIED.items()}
    assert (stocked.folder / "collection.json").read_bytes() == saved, "nothing is kept"
    for name, effect in told.items():
        stocked.setup.change(**{name: TRIED[name]})
        now = stocked.effects.effect(name)
        assert [one.after for one in effect.figures] == [one.before for one in now.figures], name
        assert effect.sheet == now.sheet, name
        assert effect.stands[1:] == now.stands[1:], name
        stocked.undo()


def test_titles_that_fall_short_are_those_of_the_report(stocked: Workshop) -> None:
    far = after(stocked, "distance", distance=4000)[Measure.FAR]
    stocked.setup.change(distance=4000)
    short = {one.game for one in stocked.titles.report(helps=False).short}
    assert far == len(short) == 12


def test_accepted_titles_stay_as_they_are(stocked: Workshop) -> None:
    games = [line.id for line in stocked.games.lines()]
    stocked.designs.accept(games[:1])
    assert figures(stocked, "largest", largest=6)[Measure.SMALLEST][1] == 6
    stocked.designs.accept(games)
    before, later = figures(stocked, "largest", largest=6)[Measure.SMALLEST]
    assert before == later > 6


def test_pictures_to_confirm_are_those_less_sure(stocked: Workshop) -> None:
    asked = figures(stocked, "threshold", threshold=1)[Measure.TO_CONFIRM]
    matches = [
        game.match
        for game in stocked._session.snapshot.games.values()
        if game.match and game.match.confidence < 1
    ]
    assert asked == (stocked.starting.report().doubtful, len(matches))


# --- edges, titles, inserts -------------------------------------------------------------


def drawn(workshop: Workshop, setting: str, what_if: Mapping[str, Any]) -> Image.Image:
    picture = workshop.effects.effect(setting, what_if, pixels=ROOM).picture
    return Image.open(BytesIO(picture)).convert("RGB")


def test_an_edge_stands_as_it_would(stocked: Workshop) -> None:
    """ISO 6357:1985: 'descending' titles read from top to bottom, 'ascending' the other way."""
    effect = stocked.effects.effect("spine", {"spine": "ascending", "pose": "shelf"})
    assert [one.runs for one in effect.stands][1] == "ascending"
    stacked = stocked.effects.effect("pose", {"pose": "stack"}).stands[1]
    assert stacked.runs == ""
    stocked.setup.change(pose="stack")
    (kind,) = stocked.kinds.reports("snap-shell")
    assert stacked.panel in kind.folded.facing


@pytest.mark.parametrize(
    ("setting", "shows", "what_if"),
    [
        ("pose", Shows.EDGES, {"pose": "stack"}),
        ("spine", Shows.EDGES, {"spine": "ascending"}),
        ("largest", Shows.TITLE, {"largest": 6}),
        ("ink", Shows.INSERT, {"ink": "draft"}),
    ],
)
def test_a_picture_shows_the_change_and_fills_the_room(
    stocked: Workshop, setting: str, shows: Shows, what_if: Mapping[str, Any]
) -> None:
    effect = stocked.effects.effect(setting, what_if, pixels=ROOM)
    assert effect.shows is shows
    assert effect.game in {line.title for line in stocked.games.lines()}
    before, later = drawn(stocked, setting, {}), drawn(stocked, setting, what_if)
    assert before.tobytes() != later.tobytes()
    for one in (before, later):
        # The white around an insert and its ticks is not part of what fills the room.
        assert one.width <= ROOM[0] + 40
        assert one.height <= ROOM[1] + 40


def test_draft_lays_down_less_ink(stocked: Workshop) -> None:
    before, later = figures(stocked, "ink", ink="draft")[Measure.INK]
    assert 0 < later < before <= 4


def test_a_picture_that_is_gone_is_told(stocked: Workshop) -> None:
    for picture in (stocked.folder / "pictures").iterdir():
        picture.unlink()
    effect = stocked.effects.effect("ink", {"ink": "grey"}, pixels=ROOM)
    assert "the picture is gone" in effect.undrawn
    assert effect.picture == b""


def test_dividers_stand_nowhere_on_the_shelf_that_shows_a_setting(stocked: Workshop) -> None:
    stocked.dividers.add()
    effect = stocked.effects.effect("poses", {"poses": {"divider": "drawer"}}, pixels=ROOM)
    assert (effect.shows, effect.game, effect.stands, effect.picture) == (Shows.EDGES, "", (), b"")


# --- what cannot be ---------------------------------------------------------------------


def test_what_cannot_be_set_is_refused(stocked: Workshop) -> None:
    with pytest.raises(InputError, match="no such setting"):
        stocked.effects.effect("colour")
    with pytest.raises(InputError, match="twice the bleed"):
        stocked.effects.effect("bleed", {"bleed": 3})
    with pytest.raises(CaseError):
        stocked.effects.effect("left_out", {"left_out": {"snap-shell": ("back", "long", "short")}})


@pytest.mark.parametrize("setting", ["lines", "order", "ink"])
def test_it_is_given_up_when_the_person_walks_on(stocked: Workshop, setting: str) -> None:
    with pytest.raises(Cancelled):
        stocked.effects.effect(setting, pixels=ROOM, cancel=lambda: True)
