from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest
from PIL import Image

from engine.cases import FlatNet, Folded, fold, grown, isometric
from engine.lettering import default_font
from engine.press import Recorder
from engine.press.foldedview import draw_folded, folded_page, folded_picture
from engine.press.pens.recorder import CutStroke, FillStroke, ImageStroke, TextStroke
from tests.press.making import CALIPER, insert, kinds, net


def folded(kind: str) -> tuple[Folded, FlatNet]:
    return fold(kinds()[kind], CALIPER), net(kind)


@pytest.mark.parametrize("kind", kinds())
def test_every_panel_is_drawn_far_ones_first(kind: str) -> None:
    body, flat = folded(kind)
    pen = Recorder()
    view = isometric(body)
    draw_folded(pen, view, flat, default_font())
    fills = [stroke.rings for stroke in pen.strokes if isinstance(stroke, FillStroke)]
    assert fills[0::2] == [facet.outline for facet in view.facets]
    assert not any(isinstance(stroke, CutStroke) for stroke in pen.strokes)
    named = {stroke.run.text for stroke in pen.strokes if isinstance(stroke, TextStroke)}
    assert named == {facet.panel for facet in view.facets if facet.printed}


def test_the_art_and_the_titles_lie_on_their_panels(picture: Path) -> None:
    body, flat = folded("snap-shell")
    pen = Recorder()
    view = isometric(body)
    draw_folded(pen, view, flat, default_font(), insert("snap-shell", "Low Tide", picture))
    facets = {facet.panel: facet for facet in view.facets}
    # Everything is drawn on every facet, clipped to it: the picture shows on the back only.
    shown = [
        (stroke, clips)
        for stroke, clips in zip(pen.strokes, pen.clips, strict=True)
        if isinstance(stroke, ImageStroke)
    ]
    assert len(shown) == 3
    faces = [grown(facet.outline, -0.15) for facet in view.facets]
    assert [clips[0] for _, clips in shown] == faces
    ((stroke, _),) = (s for s in shown if s[1][0] == grown(facets["back"].outline, -0.15))
    placed = [stroke.at.transformPoint(spot) for spot in ((0, 0), (1, 0), (1, 1), (0, 1))]
    for spot in facets["back"].outline[0]:
        assert min(abs(spot[0] - x) + abs(spot[1] - y) for x, y in placed) < 1e-3
    titles = {stroke.run.text for stroke in pen.strokes if isinstance(stroke, TextStroke)}
    assert titles == {"Low Tide"}


def test_the_plain_side_of_the_paper_shows_no_print(picture: Path) -> None:
    body, flat = folded("hard-cassette")
    view = isometric(body)
    hidden = [facet for facet in view.facets if not facet.printed]
    assert [facet.panel for facet in hidden] == ["flap"]
    pen = Recorder()
    draw_folded(pen, view, flat, default_font(), insert("hard-cassette", "Low Tide", picture))
    face = grown(hidden[0].outline, -0.15)
    assert not any(face in clips for clips in pen.clips)
    (plain,) = (s for s in pen.strokes if isinstance(s, FillStroke) and s.rings == face)
    assert plain.colour == "#d8d8d8"


def test_the_page_says_how_large_it_is_folded() -> None:
    with pdfplumber.open(BytesIO(folded_page(*folded("snap-shell")))) as document:
        words = document.pages[0].extract_text()
    # The inside of 64 x 72 x 10 mm less 0.5 mm of clearance.
    assert "63.5 × 71.5 × 9.5 mm over all" in words


def test_the_picture_shows_the_art(picture: Path) -> None:
    body, flat = folded("soft-cassette")
    shown = Image.open(
        BytesIO(folded_picture(body, flat, insert("soft-cassette", "Low Tide", picture), ppi=50))
    )
    colours = shown.convert("RGB").getcolors(1 << 20)
    assert colours is not None
    assert len(colours) > 200  # the picture has its own colour everywhere
