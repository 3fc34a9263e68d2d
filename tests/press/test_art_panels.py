"""Every field of the art, the colours and the ink mode has its effect on what is drawn."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from msgspec.structs import replace
from PIL import Image as Pillow

from engine.artwork import coverage
from engine.cases import Role
from engine.colours.colour import shade
from engine.lettering import default_font, set_large
from engine.model import Art, Colours, Fit, InkMode, Matte, Pattern, Sign, Size, Trim
from engine.press import Insert, proof
from engine.press.pens.recorder import FillStroke, ImageStroke, Recorder, TextStroke
from tests.press.making import insert, photo

BASE = "#2f6f73"


def drawn(one: Insert) -> list:
    pen = Recorder()
    one.draw(pen, 1.0)
    return pen.strokes


def fills(one: Insert) -> list[FillStroke]:
    return [stroke for stroke in drawn(one) if isinstance(stroke, FillStroke)]


def redesigned(one: Insert, **changes) -> Insert:
    return one._replace(design=replace(one.design, **changes))


@pytest.fixture(scope="module")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return photo(tmp_path_factory.mktemp("art"), size=(400, 480))


ART = Art(picture="cover.png", fit=Fit.FILL)


@pytest.mark.parametrize(
    "other",
    [
        replace(ART, fit=Fit.STRETCH),
        replace(ART, fit=Fit.MATTE),
        replace(ART, fit=Fit.PIXELS),
        replace(ART, focus=(0.5, 0.1)),
        replace(ART, trim=Trim(left=0.1)),
        replace(ART, turn=3.0),
        replace(ART, split=(0.4, 0.6)),
    ],
    ids=["stretch", "matte", "pixels", "focus", "trim", "turn", "split"],
)
def test_each_choice_of_the_fit_changes_the_art(picture: Path, other: Art) -> None:
    images = [
        [stroke.data for stroke in drawn(insert("snap-shell", "Kite", picture, art=art))
         if isinstance(stroke, ImageStroke)]
        for art in (ART, other)
    ]  # fmt: skip
    assert images[0] != images[1]


def test_each_matte_looks_different(picture: Path) -> None:
    looks = {
        proof(insert("keep-case", "Kite", picture, art=replace(ART, fit=Fit.MATTE, matte=matte)))
        for matte in Matte
    }
    assert len(looks) == len(Matte)


def test_a_plain_matte_and_the_spine_are_one_kind_of_object(picture: Path) -> None:
    wide = replace(ART, fit=Fit.MATTE, matte=Matte.BASE)
    one = insert("keep-case", "Kite", picture, art=wide, base=BASE)
    art = next(panel for panel in one.net.panels if panel.role is Role.ART)
    images = [stroke for stroke in drawn(one) if isinstance(stroke, ImageStroke)]
    corners = [images[0].at.transformPoint(corner) for corner in ((0, 0), (1, 1))]
    tall = abs(corners[1][1] - corners[0][1])
    assert tall < art.rect.height - 1, "the picture does not reach into the matte"
    assert {stroke.colour for stroke in fills(one)} == {BASE}


@pytest.mark.parametrize("pattern", [p for p in Pattern if p not in {"plain", "title"}])
def test_a_pattern_covers_every_art_panel_in_two_tones(pattern: Pattern) -> None:
    one = insert("soft-cassette", "Kite", None, art=Art(pattern=pattern), base=BASE)
    tones = [fill.colour for fill in fills(one)]
    art = [panel for panel in one.net.panels if panel.role is Role.ART]
    assert tones.count(shade(BASE, 8.0)) == len(art)
    assert set(tones) == {BASE, shade(BASE, 8.0)}


def test_the_title_is_set_large_on_the_first_art_panel_alone() -> None:
    art = Art(pattern=Pattern.TITLE, words="The Lantern Bay Express")
    one = insert("soft-cassette", "Lantern Bay", None, art=art)
    texts = [stroke for stroke in drawn(one) if isinstance(stroke, TextStroke)]
    large = max(text.run.size for text in texts)
    titled = [text for text in texts if text.run.size == large]
    assert " ".join(text.run.text for text in titled) == art.words
    front = one.net.panel("front").rect
    for text in titled:
        for point in ((0.0, 0.0), (text.run.width, 0.0)):
            x, y = text.at.transformPoint(point)
            assert front.x < x < front.x + front.width
            assert front.y < y < front.y + front.height


@pytest.mark.parametrize(
    ("words", "panel"),
    [
        ("Kite", Size(64, 56)),
        ("A very long name of a game that goes on and on", Size(64, 56)),
        ("Tin", Size(20, 100)),
        ("Extraordinary", Size(100, 20)),
    ],
)
def test_a_large_title_stays_on_its_panel_and_loses_no_word(words: str, panel: Size) -> None:
    lines = set_large(words, panel, default_font())
    assert " ".join(line.run.text for line in lines) == words
    for line in lines:
        assert line.x >= 0
        assert line.x + line.run.width <= panel.width
        assert 0 <= line.y <= panel.height


def test_nothing_is_set_large_of_no_words() -> None:
    assert set_large("  ", Size(60, 60), default_font()) == ()


def test_greys_and_drafts_change_every_colour(picture: Path) -> None:
    one = insert("snap-shell", "Kite", picture, base=BASE)
    for mode in (InkMode.GREY, InkMode.DRAFT):
        changed = redesigned(one, ink=mode)
        assert BASE not in {fill.colour for fill in fills(changed)}
        picture_drawn = next(s.data for s in drawn(changed) if isinstance(s, ImageStroke))
        assert picture_drawn != next(s.data for s in drawn(one) if isinstance(s, ImageStroke))
    grey = {fill.colour for fill in fills(redesigned(one, ink=InkMode.GREY))}
    assert all(colour[1:3] == colour[3:5] == colour[5:7] for colour in grey)


def test_edges_only_leaves_the_art_white(picture: Path) -> None:
    one = redesigned(insert("snap-shell", "Kite", picture, base=BASE), ink=InkMode.EDGES)
    assert not [stroke for stroke in drawn(one) if isinstance(stroke, ImageStroke)]
    assert {fill.colour for fill in fills(one)} == {BASE}
    page = Pillow.open(BytesIO(proof(one, 50))).convert("RGB")
    art = one.net.panel("back").rect
    # The proof shows paper around the insert; its middle is the middle of the net.
    middle = (
        (art.x + art.width / 2) / one.net.size.width,
        (art.y + art.height / 2) / one.net.size.height,
    )
    assert page.getpixel((round(middle[0] * page.width), round((1 - middle[1]) * page.height))) == (
        255,
        255,
        255,
    )


def test_letters_are_black_on_white(picture: Path) -> None:
    one = redesigned(insert("snap-shell", "Kite", picture, base=BASE), ink=InkMode.LETTERS)
    assert {fill.colour for fill in fills(one)} == {"#ffffff"}
    texts = [stroke for stroke in drawn(one) if isinstance(stroke, TextStroke)]
    assert {text.colour for text in texts} == {"#000000"}


def test_each_mode_takes_less_ink_than_full_colour(picture: Path) -> None:
    one = insert("snap-shell", "Kite", picture, base=BASE)

    def ink(mode: InkMode) -> float:
        page = Pillow.open(BytesIO(proof(redesigned(one, ink=mode), 50)))
        return coverage(page).total

    full = ink(InkMode.FULL)
    assert ink(InkMode.DRAFT) == pytest.approx(full / 2, rel=0.1)
    assert ink(InkMode.LETTERS) < ink(InkMode.EDGES) < ink(InkMode.DRAFT)
    assert ink(InkMode.GREY) < full


@pytest.mark.parametrize("sign", [sign for sign in Sign if sign is not Sign.NONE])
def test_a_sign_is_drawn_on_every_edge_in_the_colour_of_the_title(sign: Sign) -> None:
    one = insert("snap-shell", "Kite", None, base=BASE)
    signed = redesigned(one, colours=Colours(BASE, "#ffffff", sign))
    more = [fill for fill in fills(signed) if fill not in fills(one)]
    edges = [panel for panel in one.net.panels if panel.role is Role.EDGE]
    assert len(more) == len(edges)
    for fill, panel in zip(more, edges, strict=True):
        assert fill.colour == "#ffffff"
        rect = panel.rect
        for ring in fill.rings:
            for x, y in ring:
                assert rect.x - 1e-6 <= x <= rect.x + rect.width + 1e-6
                assert rect.y - 1e-6 <= y <= rect.y + rect.height + 1e-6
