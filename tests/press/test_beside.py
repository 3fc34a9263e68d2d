"""Pictures of their own on the panels beside the main one, measured on the page that prints.

pdfplumber reads the lengths, PDFium the pixels; the panels' figures are those of the kind's file.
"""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

import msgspec
import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from PIL import Image

from engine.artwork import page_pixels
from engine.cases import CaseKind, FlatNet, Panel, Role, Side, flatten
from engine.cases.model import Measure
from engine.lettering import default_font
from engine.model import Art, Colours, Design, Fit, InkMode, Matte, PanelArt, Pattern, Trim
from engine.model.errors import PictureError
from engine.press import Insert, compose
from engine.press.pens.recorder import ImageStroke, Recorder, TextStroke
from engine.press.proof import insert_page
from tests.measuring import MM, TRUE
from tests.press.making import CALIPER, net

RED, BLUE, GREEN = (220, 30, 30), (30, 30, 220), (30, 160, 30)
BASE = "#808080"
BLEED = 1.0
PER_MM = 20
"""Pixels to a mm at which pages are looked at."""


def over_the_top() -> CaseKind:
    """Return a card that is folded over the top of its case: flat, its back lies upside down."""
    return CaseKind(
        "over-the-top",
        "Card over the top",
        (Measure("width", 60.0), Measure("height", 80.0), Measure("top", 10.0)),
        (
            Panel("front", Role.ART, part="front", width="width", height="height"),
            Panel("ridge", Role.EDGE, on="front", side=Side.TOP, height="top"),
            Panel("back", Role.ART, part="back", on="ridge", side=Side.TOP, height="height"),
        ),
        front="front",
        measured_on=CALIPER,
    )


def halves(path: Path, size: tuple[int, int]) -> Path:
    """Draw a picture whose upper half is red and whose lower half is blue."""
    picture = Image.new("RGB", size, BLUE)
    picture.paste(RED, (0, 0, size[0], size[1] // 2))
    picture.save(path)
    return path


def whole(path: Path, colour: tuple[int, int, int] = GREEN) -> Path:
    Image.new("RGB", (600, 800), colour).save(path)
    return path


def with_art(flat: FlatNet, art: Art, files: Mapping[str, Path]) -> Insert:
    design = Design(flat.kind, art, Colours(BASE, "#ffffff"), ())
    return compose(design, flat, files.get(art.picture or ""), default_font(), others=files)


NETS = {
    "keep-case": lambda: net("keep-case"),
    "over the top": lambda: flatten(over_the_top(), CALIPER),
}
LIES = {
    "keep-case": ((0.0, 0.0, 129.5, 184.0), RED, "left bottom top"),
    "over the top": ((0.0, 90.0, 60.0, 170.0), BLUE, "left right top"),
}
"""Where the back lies on the net (left, bottom, right, top, in mm), what the half of it that is
the upper one there shows, and which of its sides are cut."""


@pytest.mark.parametrize("name", LIES)
def test_a_back_cover_lies_on_the_back_the_right_way_up_and_bleeds(
    name: str, tmp_path: Path
) -> None:
    (left, bottom, right, top), above, cut = LIES[name]
    flat = NETS[name]()
    files = {
        "front.png": whole(tmp_path / "front.png"),
        "back.png": halves(tmp_path / "back.png", (round(10 * right), round(10 * (top - bottom)))),
    }
    art = Art("front.png", others=(PanelArt("back", Art("back.png")),))
    file = BytesIO(insert_page(with_art(flat, art, files)))
    with pdfplumber.open(file) as pdf:
        (page,) = pdf.pages
        trim = [side * MM for side in page.trimbox]
        boxes = [[image[side] * MM for side in ("x0", "y0", "x1", "y1")] for image in page.images]
    wanted = (
        left - ("left" in cut) * BLEED,
        bottom - ("bottom" in cut) * BLEED,
        right + ("right" in cut) * BLEED,
        top + ("top" in cut) * BLEED,
    )
    on_net = [[box[n] - trim[n % 2] for n in range(4)] for box in boxes]
    assert len(on_net) == 2
    assert min(max(map(abs, map(float.__sub__, box, wanted))) for box in on_net) < TRUE

    picture = page_pixels(file.getvalue(), 0, PER_MM * 25.4)
    below = BLUE if above == RED else RED

    def at(x: float, y: float) -> tuple[int, ...]:
        place = (x + trim[0]) * PER_MM, picture.height - (y + trim[1]) * PER_MM
        return picture.getpixel((round(place[0]), round(place[1])))

    middle, seam = (left + right) / 2, (bottom + top) / 2
    near = 1.5 * TRUE  # what JPEG smears over one of its blocks of 8 pixels is not measured
    assert at(middle, seam + near) == pytest.approx(above, abs=60)
    assert at(middle, seam - near) == pytest.approx(below, abs=60)
    assert at(left - BLEED / 2, seam + 10) == pytest.approx(above, abs=12)
    assert at(middle, top + BLEED / 2) == pytest.approx(above, abs=12)


def strokes(one: Insert) -> list[object]:
    pen = Recorder()
    one.draw(pen, BLEED)
    return pen.strokes


def words(one: Insert) -> str:
    return " ".join(stroke.run.text for stroke in strokes(one) if isinstance(stroke, TextStroke))


def middles(one: Insert) -> list[tuple[int, ...]]:
    """Return the colours of the pictures that are drawn, each in its middle."""
    images = [
        Image.open(BytesIO(stroke.data))
        for stroke in strokes(one)
        if isinstance(stroke, ImageStroke)
    ]
    return [image.getpixel((image.width // 2, image.height // 2)) for image in images]


def about(*colours: tuple[int, int, int]) -> list[object]:
    return [pytest.approx(colour, abs=4) for colour in colours]


def test_a_back_without_a_picture_says_words_and_one_with_a_picture_does_not(
    tmp_path: Path,
) -> None:
    files = {n: whole(tmp_path / n) for n in ("front.png", "back.png")}
    said = Art("front.png", back=("Tin Gate", "Orchard"), pattern=Pattern.WAVES)
    own = replace(said, others=(PanelArt("back", Art("back.png")),))
    bare, shown = (with_art(net("keep-case"), art, files) for art in (said, own))
    assert (words(bare), len(middles(bare))) == ("Tin Gate Orchard", 1)
    assert (words(shown), len(middles(shown))) == ("", 2)
    asked = {Path(one.path).name for one in shown.requests(BLEED)}
    assert asked == {"front.png", "back.png"}, "drawn ahead"


def test_a_part_of_a_scan_gives_way_to_a_picture_or_to_words(tmp_path: Path) -> None:
    files = {"scan.png": whole(tmp_path / "scan.png"), "back.png": whole(tmp_path / "b.png", RED)}
    scan = Art("scan.png", split=(0.45, 0.55), back=("Tin Gate",))
    pictured, worded = (
        with_art(net("keep-case"), replace(scan, others=(PanelArt("back", own),)), files)
        for own in (Art("back.png"), Art())
    )
    assert (words(pictured), middles(pictured)) == ("", about(GREEN, GREEN, RED))
    assert (words(worded), middles(worded)) == ("Tin Gate", about(GREEN, GREEN))


def test_a_plain_front_leaves_the_back_its_picture(tmp_path: Path) -> None:
    files = {"back.png": whole(tmp_path / "back.png")}
    art = Art(others=(PanelArt("back", Art("back.png")),))
    for pattern in (Pattern.PLAIN, Pattern.WAVES):
        one = with_art(net("keep-case"), replace(art, pattern=pattern), files)
        (image,) = (stroke for stroke in strokes(one) if isinstance(stroke, ImageStroke))
        assert image.at.transformPoint((0, 0)) == pytest.approx((-BLEED, -BLEED))


def test_a_picture_that_is_gone_is_named(tmp_path: Path) -> None:
    art = Art(others=(PanelArt("back", Art("ab12.png")),))
    for files in ({}, {"ab12.png": tmp_path / "ab12.png"}):
        with pytest.raises(PictureError, match=r"ab12\.png: the picture is gone"):
            with_art(net("keep-case"), art, files)


# --- designs of before ------------------------------------------------------------------


def _before(record: type[msgspec.Struct], *gone: str, **types: Any) -> type[msgspec.Struct]:
    """Return a kind of record as it was before it had the fields of ``gone``."""
    fields = [
        (field.name, types.get(field.name, field.type))
        + (() if field.required else (field.default,))
        for field in msgspec.structs.fields(record)
        if field.name not in gone
    ]
    return msgspec.defstruct(record.__name__, fields, frozen=True, omit_defaults=True)


OLD_ART = _before(Art, "others")
OLD_DESIGN = _before(Design, art=OLD_ART)

SHARE = st.floats(0.0, 0.5)
ARTS = st.builds(
    Art,
    picture=st.none() | st.just("ab12.png"),
    fit=st.sampled_from(Fit),
    focus=st.just((0.5, 0.5)) | st.tuples(SHARE, SHARE),
    trim=st.builds(Trim, SHARE, SHARE, SHARE, SHARE),
    split=st.none() | st.just((0.45, 0.55)),
    turn=SHARE,
    matte=st.sampled_from(Matte),
    pattern=st.sampled_from(Pattern),
    band=SHARE,
    words=st.text(max_size=5),
    back=st.lists(st.text(max_size=5), max_size=2).map(tuple),
)


@given(art=ARTS, ink=st.sampled_from(InkMode))
def test_designs_of_before_keep_their_fingerprint(art: Art, ink: InkMode) -> None:
    design = Design("keep-case", art, Colours(BASE, "#ffffff"), (), ink=ink)
    of_art = {field.name: getattr(art, field.name) for field in msgspec.structs.fields(OLD_ART)}
    fields = {
        field.name: getattr(design, field.name) for field in msgspec.structs.fields(OLD_DESIGN)
    }
    old = OLD_DESIGN(**{**fields, "art": OLD_ART(**of_art)})
    written = msgspec.json.encode(old, order="deterministic")
    assert design.fingerprint == sha256(written).hexdigest()[:16]
    again = msgspec.json.decode(written, type=Design)
    assert again.fingerprint == design.fingerprint
    shown = replace(design, art=replace(art, others=(PanelArt("back", Art("cd34.png")),)))
    assert shown.fingerprint != design.fingerprint
