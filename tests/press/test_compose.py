from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image as Pillow

from engine.cases import Role
from engine.lettering import default_font
from engine.model import Art, Colours, Design, EdgeTitle, Fit, Rect
from engine.model.errors import CaseError, PictureError
from engine.press import Insert, Recorder, box, compose
from engine.press.compose import reading_sides
from engine.press.pens.recorder import FillStroke, ImageStroke, TextStroke
from tests.press.making import insert, kinds, net
from tests.press.reach import reach


def recorded(one: Insert, bleed: float = 1.0) -> Recorder:
    pen = Recorder()
    one.draw(pen, bleed)
    return pen


def images(pen: Recorder) -> list[tuple[Rect, Pillow.Image]]:
    found = []
    for stroke in pen.strokes:
        if isinstance(stroke, ImageStroke):
            (x1, y1), (x2, y2) = (stroke.at.transformPoint(p) for p in ((0, 0), (1, 1)))
            rect = Rect(min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1))
            found.append((rect, Pillow.open(BytesIO(stroke.data))))
    return found


@pytest.mark.parametrize("kind", sorted(kinds()))
def test_everything_is_clipped_to_the_dieline_and_bleed(kind: str, picture: Path) -> None:
    one = insert(kind, "Tovarby Nights", picture)
    pen = recorded(one, 1.5)
    assert all(clips == (one.net.bleed(1.5),) for clips in pen.clips)
    width, height = one.net.size
    assert reach(pen) == pytest.approx(Rect(-1.5, -1.5, width + 3, height + 3))


@pytest.mark.parametrize("kind", sorted(kinds()))
def test_the_picture_covers_the_main_art_panel_and_bleeds_only_over_cuts(
    kind: str, picture: Path
) -> None:
    one = insert(kind, "Tovarby Nights", picture)
    main = [panel for panel in one.net.panels if panel.role is Role.ART][:1]
    found = images(recorded(one, 1.0))
    assert len(found) == len(main)
    for panel, (rect, drawn) in zip(main, found, strict=True):
        cut = one.net.cut_sides(panel.name)
        x, y, width, height = panel.rect
        left, bottom = ("left" in cut) * 1.0, ("bottom" in cut) * 1.0
        right, top = ("right" in cut) * 1.0, ("top" in cut) * 1.0
        assert rect == pytest.approx(
            Rect(x - left, y - bottom, width + left + right, height + bottom + top)
        )
        # Rounding up to a whole pixel is all that may exceed 300 pixels to the inch.
        assert drawn.width - 1 <= rect.width / 25.4 * 300
        assert drawn.height - 1 <= rect.height / 25.4 * 300
        assert min(drawn.width / rect.width, drawn.height / rect.height) * 25.4 > 295


def test_no_art_bleeds_onto_an_edge_beside_a_shorter_one(picture: Path) -> None:
    one = insert("snap-shell", "Tovarby Nights", picture)
    pen = recorded(one)
    art = next(i for i, stroke in enumerate(pen.strokes) if isinstance(stroke, ImageStroke))
    after = [stroke.rings for stroke in pen.strokes[art:] if isinstance(stroke, FillStroke)]
    edges = [panel for panel in one.net.panels if panel.role is Role.EDGE]
    assert [after[i] for i in range(2)] == [[box(panel.rect)] for panel in edges]
    assert len(after) == 2 * len(edges) == 4, "each edge, then its colour past its fold"


def test_titles_are_set_in_their_panels_and_turned_with_them(picture: Path) -> None:
    one = insert("snap-shell", "Tovarby Nights", picture)
    texts = [stroke for stroke in recorded(one).strokes if isinstance(stroke, TextStroke)]
    edges = [one.net.panel(title.panel) for title in one.design.title]
    assert [text.run.text for text in texts] == ["Tovarby Nights"] * len(edges)
    for text, panel in zip(texts, edges, strict=True):
        start = text.at.transformPoint((0, 0))
        end = text.at.transformPoint((text.run.width, 0))
        along = (round(end[0] - start[0], 6), round(end[1] - start[1], 6))
        length = round(text.run.width, 6)
        assert (
            along
            == {0: (length, 0), 90: (0, length), 180: (-length, 0), 270: (0, -length)}[panel.turn]
        )
        for x, y in (start, end):
            assert panel.rect.x < x < panel.rect.x + panel.rect.width
            assert panel.rect.y < y < panel.rect.y + panel.rect.height


def test_condensed_type_is_drawn_condensed() -> None:
    flat, font = net("snap-shell"), default_font()

    def length(width: float) -> float:
        title = EdgeTitle("long", ("Tovarby Nights",), 10, width)
        design = Design("snap-shell", Art(), Colours("#204060", "#ffffff"), (title,))
        strokes = recorded(compose(design, flat, None, font)).strokes
        (text,) = (stroke for stroke in strokes if isinstance(stroke, TextStroke))
        start, end = (text.at.transformPoint((x, 0)) for x in (0, text.run.width))
        return abs(end[1] - start[1])

    # A font's own narrower drawing need not keep to the figure, so a tenth is all that is asked.
    assert length(0.85) < 0.92 * length(1.0)


def test_without_a_picture_it_is_the_base_colour_and_the_title() -> None:
    one = insert("soft-cassette", "Tovarby Nights", None, base="#808000")
    strokes = recorded(one).strokes
    assert [type(stroke) for stroke in strokes] == [FillStroke, TextStroke]
    assert strokes[0] == FillStroke(one.net.bleed(1.0), "#808000")


def test_a_split_scan_gives_each_panel_its_part(tmp_path: Path) -> None:
    # Back red, spine green, front blue: a flat cover scan, read from left to right.
    scan = Pillow.new("RGB", (1500, 800), "#ff0000")
    scan.paste("#00ff00", (700, 0, 800, 800))
    scan.paste("#0000ff", (800, 0, 1500, 800))
    path = tmp_path / "scan.png"
    scan.save(path)
    art = Art(picture="scan.png", fit=Fit.STRETCH, split=(700 / 1500, 800 / 1500))
    one = insert("soft-cassette", "Tovarby Nights", path, art=art)
    seen = {rect.x: drawn.resize((1, 1)).getpixel((0, 0)) for rect, drawn in images(recorded(one))}
    back, front = one.net.panel("back").rect, one.net.panel("front").rect
    assert seen[back.x - 1.0] == pytest.approx((255, 0, 0), abs=4)
    assert seen[front.x] == pytest.approx((0, 0, 255), abs=4)
    assert len(seen) == 2, "the spine carries the title instead"

    bare = compose(
        Design("soft-cassette", art, Colours("#204060", "#ffffff"), ()), one.net, path,
        default_font(),
    )  # fmt: skip
    spine = one.net.panel("spine").rect
    seen = {rect.x: drawn.resize((1, 1)).getpixel((0, 0)) for rect, drawn in images(recorded(bare))}
    assert seen[spine.x] == pytest.approx((0, 255, 0), abs=4)


@pytest.mark.parametrize(
    ("turn", "cut", "reads"),
    [
        (0, "left", "left"), (90, "left", "top"), (180, "left", "right"), (270, "left", "bottom"),
        (0, "top", "top"), (90, "top", "right"), (180, "top", "bottom"), (270, "top", "left"),
    ],
)  # fmt: skip
def test_bleed_follows_the_turn_of_a_panel(turn: int, cut: str, reads: str) -> None:
    from engine.cases import FlatPanel

    panel = FlatPanel("p", Role.ART, "", Rect(0, 0, 30, 20), turn)
    sides = reading_sides(panel, {cut}, 2.0)
    assert {name for name in sides._fields if getattr(sides, name)} == {reads}


def test_the_same_insert_draws_the_same(picture: Path) -> None:
    first, second = (recorded(insert("snap-shell", "Tovarby", picture)) for _ in range(2))
    assert first.strokes == second.strokes


def test_what_cannot_be_composed_is_named(picture: Path, tmp_path: Path) -> None:
    flat, font = net("snap-shell"), default_font()
    colours = Colours("#000000", "#ffffff")
    stray = Design("snap-shell", Art(), colours, (EdgeTitle("lid", ("A",), 9),))
    with pytest.raises(CaseError, match='no panel "lid"'):
        compose(stray, flat, None, font)
    wanted = Design("snap-shell", Art(picture="ab12.png"), colours, ())
    with pytest.raises(PictureError, match=r"ab12\.png: the picture is gone"):
        compose(wanted, flat, tmp_path / "ab12.png", font)
    with pytest.raises(PictureError, match=r"ab12\.png: the picture is gone"):
        compose(wanted, flat, None, font)
