"""What stands on an edge: stripes run into the bleed, marks stand at their end, upright lines."""

from __future__ import annotations

from math import atan2, degrees
from pathlib import Path

import pytest

from engine.cases import Pose, flatten, load_kinds
from engine.lettering import default_font, safe_area
from engine.model import Art, Colours, Design, EdgeTitle, End, FontRef, Furniture, Logo
from engine.model.errors import FontError, PictureError
from engine.press import Recorder, compose
from engine.press.pens.recorder import FillStroke, ImageStroke, TextStroke
from tests.lettering.typefaces import JAPANESE

KIND = load_kinds()["soft-cassette"]
NET = flatten(KIND, 0.25)
SPINE = NET.panel("spine")
COLOURS = Colours("#102030", "#ffffff")
BLEED = 1.0


def drawn(title: EdgeTitle, net=NET, **kept: object) -> Recorder:
    design = Design(KIND.id, Art(), COLOURS, (title,))
    pen = Recorder()
    compose(design, net, None, default_font(), **kept).draw(pen, BLEED)  # type: ignore[arg-type]
    return pen


def texts(pen: Recorder) -> list[TextStroke]:
    return [stroke for stroke in pen.strokes if isinstance(stroke, TextStroke)]


def turn(text: TextStroke) -> float:
    return round(degrees(atan2(text.at[1], text.at[0]))) % 360


def test_the_spine_of_a_standing_case_runs_down_and_that_of_a_stack_reads_level() -> None:
    assert SPINE.runs == "descending"
    assert flatten(KIND, 0.25, pose=Pose.STACK).panel("spine").runs is None


@pytest.mark.parametrize("end", End)
def test_a_stripe_takes_the_end_of_its_edge_and_the_bleed_beyond(end: End) -> None:
    furniture = Furniture(stripe=3.0, stripe_end=end)
    title = EdgeTitle("spine", ("Tide",), 12, furniture=furniture, stripe="#d02020")
    (stripe,) = [
        s for s in drawn(title).strokes if isinstance(s, FillStroke) and s.colour == "#d02020"
    ]
    xs = [x for ring in stripe.rings for x, _ in ring]
    ys = [y for ring in stripe.rings for _, y in ring]
    right = SPINE.rect.x + SPINE.rect.width
    assert (min(xs), max(xs)) == pytest.approx((SPINE.rect.x - 0.5, right + 0.5)), "past its folds"
    # The title runs down the net: its head is at the top.
    top, bottom = SPINE.rect.y + SPINE.rect.height, SPINE.rect.y
    wanted = (top - 3.0, top + BLEED) if end is End.HEAD else (bottom - BLEED, bottom + 3.0)
    assert (min(ys), max(ys)) == pytest.approx(wanted)


@pytest.mark.parametrize(("across", "turned"), [(False, 270), (True, 0)])
def test_a_mark_stands_at_the_foot_along_or_across(across: bool, turned: int) -> None:
    furniture = Furniture(mark=8.0, mark_across=across)
    mark, title = texts(drawn(EdgeTitle("spine", ("Tide",), 12, furniture=furniture, mark="037")))
    assert (mark.run.text, title.run.text) == ("037", "Tide")
    assert turn(mark) == turned, "a mark across stands upright on the shelf"
    assert turn(title) == 270
    room = safe_area(SPINE.reading, furniture)
    y = mark.at[5]
    assert SPINE.rect.y < y < SPINE.rect.y + SPINE.reading.width - room.x - room.width


def test_marks_of_one_length_stand_at_one_place_whatever_the_title() -> None:
    furniture = Furniture(mark=8.0)
    places = {
        texts(drawn(EdgeTitle("spine", (words,), 12, furniture=furniture, mark="111")))[0].at
        for words in ("Tide", "A Much Longer Title")
    }
    assert len(places) == 1


def test_ideographs_stand_upright_where_the_design_says_so() -> None:
    fonts = Path(JAPANESE.path).parent
    font = FontRef(Path(JAPANESE.path).name)
    title = EdgeTitle("spine", ("月の港",), 18, font=font, upright=True)
    (upright,) = texts(drawn(title, fonts=fonts))
    assert turn(upright) == 0, "it stands while Latin titles lie"
    down = [glyph.y for glyph in upright.run.glyphs]
    assert down == sorted(down, reverse=True)
    assert len(set(down)) == 3
    (level,) = texts(drawn(title, flatten(KIND, 0.25, pose=Pose.STACK), fonts=fonts))
    assert len({glyph.y for glyph in level.run.glyphs}) == 1


def test_a_font_or_a_logo_that_is_gone_is_named(tmp_path: Path) -> None:
    with pytest.raises(FontError, match=r"gone\.ttf"):
        drawn(EdgeTitle("spine", ("A",), 12, font=FontRef("gone.ttf")), fonts=tmp_path)
    with pytest.raises(PictureError, match="logo is gone"):
        drawn(EdgeTitle("spine", (), 12, logo=Logo("ab.png", 4.0)))


@pytest.mark.parametrize("beside", [False, True])
def test_a_logo_keeps_its_shape_within_its_room(tmp_path: Path, beside: bool) -> None:
    from PIL import Image as Pillow

    Pillow.new("RGB", (300, 100), "#ff0000").save(tmp_path / "logo.png")
    furniture = Furniture(mark=20.0, mark_end=End.HEAD) if beside else Furniture()
    lines = ("Tide",) if beside else ()
    logo = Logo("logo.png", 3.0, beside=beside)
    pen = drawn(
        EdgeTitle("spine", lines, 12, furniture=furniture, logo=logo),
        logos={"logo.png": tmp_path / "logo.png"},
    )
    (image,) = [stroke for stroke in pen.strokes if isinstance(stroke, ImageStroke)]
    along = abs(image.at[1])
    across = abs(image.at[2])
    assert along / across == pytest.approx(3.0)
    assert across <= SPINE.reading.height
    if beside:
        assert along <= 20.0 + 1e-6
    assert len(texts(pen)) == len(lines)
