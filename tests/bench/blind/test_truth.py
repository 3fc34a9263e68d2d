"""The bench's own geometry: Pillow turns and measures the pictures that it is held against."""

from __future__ import annotations

import msgspec
import pytest
from PIL import Image, ImageDraw

from engine.artwork.straightening import straightened
from engine.artwork.windows import PixelRect
from engine.cases import FlatNet, load_kinds
from engine.cases.casing import Casing
from engine.model import Art, Fit, Trim
from engine.model.settings import Settings
from tests.bench.blind import better, covers, fronts, printed, screens, words, wraps
from tests.bench.blind.judging import Sight, Standing, faults, standing
from tests.bench.blind.photographs import album
from tests.bench.blind.placing import Kit
from tests.bench.blind.truth import (
    Bar,
    Cover,
    Edges,
    Line,
    Role,
    Subject,
    around,
    corners,
    straight,
)
from tests.bench.blind.typefaces import typefaces

pytestmark = pytest.mark.xdist_group("truth")  # a cover of each sort is drawn once

SIZE = (1000, 1000)

Drawn = dict[str, tuple[Cover, Image.Image, Image.Image]]
"""By sort: the truth, the picture, and the ink of its title."""


@pytest.fixture(scope="module")
def casing() -> Casing:
    return Casing(load_kinds(None), Settings())


@pytest.fixture(scope="module")
def jewel(casing: Casing) -> FlatNet:
    """A single panel of 120 × 120 mm, no edge."""
    return casing.net("jewel-front")


@pytest.fixture(scope="module")
def kit() -> Kit:
    return Kit(album(), typefaces())


@pytest.fixture(scope="module")
def drawn(kit: Kit) -> Drawn:
    """A cover of each sort, at a quarter of its size for the sake of time."""
    names = words.names("test", len(covers.SORTS))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(fronts, "SHORT", (240, 260))
        patch.setattr(wraps, "TALL", (260, 280))
        return {
            sort: covers.draw(kit, "test", number, names[number])
            for number, sort in enumerate(covers.SORTS)
        }


# --- What is drawn -----------------------------------------------------------------------


@pytest.mark.parametrize("sort", covers.SORTS)
def test_the_truth_about_a_title_is_where_its_ink_is(sort: str, drawn: Drawn) -> None:
    cover, image, ink = drawn[sort]
    assert cover.size == image.size == ink.size
    upright = straightened(ink.convert("RGB"), cover.turn).getchannel(0)
    found = upright.point(lambda level: 255 * (level > 127)).getbbox()
    if not cover.title_lines:
        assert found is None
        return
    quads = [straight(line.quad, cover.turn, cover.size) for line in cover.title_lines]
    said = around(point for quad in quads for point in quad)
    assert said == pytest.approx(found, abs=1.5 if cover.turn else 0.01)


@pytest.mark.parametrize("kind", ["snap-shell", "soft-cassette", "jewel-front"])
def test_a_cover_cut_rightly_and_shown_whole_has_no_fault(
    kind: str, casing: Casing, drawn: Drawn
) -> None:
    net = casing.net(kind)
    found = {sort: faults(better.whole(cover, net, ())) for sort, (cover, _, _) in drawn.items()}
    assert {sort: wrong for sort, wrong in found.items() if wrong} == {}


def test_the_same_seed_draws_the_same_cover(kit: Kit, drawn: Drawn) -> None:
    number = list(covers.SORTS).index("screenshot")
    name = words.names("test", len(covers.SORTS))[number]
    cover, picture, _ = covers.draw(kit, "test", number, name)
    assert cover == drawn["screenshot"][0]
    assert picture == drawn["screenshot"][1]


def test_a_screenshot_is_made_of_whole_dots(
    drawn: Drawn,
) -> None:
    cover, picture, _ = drawn["screenshot"]
    width, height = (side // cover.dot for side in cover.size)
    small = picture.resize((width, height), Image.Resampling.NEAREST)
    assert small.size in screens.SCREENS
    assert small.resize(picture.size, Image.Resampling.NEAREST) == picture


def test_a_quad_turns_as_pillow_turns_a_picture() -> None:
    picture = Image.new("L", (400, 300))
    ImageDraw.Draw(picture).rectangle((300, 50, 349, 69), 255)
    turned = picture.rotate(12.0, Image.Resampling.BICUBIC).point(lambda n: 255 * (n > 127))
    said = around(straight(corners(PixelRect(300, 50, 350, 70)), 12.0, picture.size))
    assert said == pytest.approx(turned.getbbox(), abs=1.5)


# --- What is printed ---------------------------------------------------------------------


def test_a_wide_picture_that_fills_a_square_is_cropped_at_both_sides(jewel: FlatNet) -> None:
    (view,) = printed.views(Art(picture="x"), jewel, (1600, 1200), 0, ())
    assert view.seen == PixelRect(200, 0, 1400, 1200)
    assert view.placed(PixelRect(200, 0, 800, 600)) == pytest.approx((0, 0, 60, 60))
    assert (view.empty, view.stretch) == (0.0, 0.0)


def test_the_same_on_a_matte_leaves_a_quarter_empty(jewel: FlatNet) -> None:
    (view,) = printed.views(Art(picture="x", fit=Fit.MATTE), jewel, (1600, 1200), 0, ())
    assert view.seen == PixelRect(0, 0, 1600, 1200)
    assert view.empty == pytest.approx(0.25)
    assert view.placed(PixelRect(0, 0, 1600, 1200)) == pytest.approx((0, 15, 120, 105))


def test_a_split_picture_is_seen_on_front_and_back(casing: Casing) -> None:
    art = Art(picture="x", fit=Fit.STRETCH, split=(0.4, 0.6))
    net = casing.net("soft-cassette")
    front, back = printed.views(art, net, SIZE, 0, ("spine",))
    assert (front.part, back.part) == ("front", "back")
    assert front.seen == PixelRect(602, 0, 1000, 1000)  # 1.5 pixels of seam, then whole pixels
    assert back.seen == PixelRect(0, 0, 398, 1000)


# --- What is wrong -----------------------------------------------------------------------


def cover(*lines: Line, **known: object) -> Cover:
    plain = Cover(
        sort="made up",
        title="Amber Quay",
        file="amber.jpg",
        size=SIZE,
        lines=lines,
        subject=None,
        art=corners(PixelRect(0, 0, *SIZE)),
    )
    return msgspec.structs.replace(plain, **known)


def line(left: float, top: float, right: float, bottom: float, **known: object) -> Line:
    plain = Line("Amber Quay", Role.TITLE, corners(PixelRect(left, top, right, bottom)))
    return msgspec.structs.replace(plain, **known)


def sight(net: FlatNet, made: Cover, *, titled: bool = False, **art: object) -> Sight:
    chosen = msgspec.structs.replace(Art(picture="x"), **art)
    views = printed.views(chosen, net, made.size, made.dot, ())
    return Sight(made, made.file, chosen, views, titled)


def wrong(seen: Sight) -> set[str]:
    return {fault.aspect for fault in faults(seen)}


TALL = {"size": (1000, 1400), "art": corners(PixelRect(0, 0, 1000, 1400))}
"""Fills the square by losing 200 pixels at its top and bottom, 24 mm each."""


@pytest.mark.parametrize(
    ("top", "how"),
    [
        (300.0, Standing.WHOLE),
        (209.0, Standing.WHOLE),  # 1.08 mm below the cut
        (205.0, Standing.CUT),  # 0.6 mm
        (150.0, Standing.CUT),
        (90.0, Standing.GONE),
    ],
)
def test_a_line_is_whole_cut_or_gone(jewel: FlatNet, top: float, how: Standing) -> None:
    made = cover(line(100, top, 900, top + 100), **TALL)
    assert standing(made.lines[0], sight(jewel, made))[0] is how


def test_lettering_near_the_rim_of_the_picture_itself_is_not_cut(jewel: FlatNet) -> None:
    made = cover(line(4, 4, 900, 100))
    assert wrong(sight(jewel, made)) == set()


@pytest.mark.parametrize(
    ("on", "titled", "faults_found"),
    [("", True, {"title lost"}), ("top", False, {"title lost"}), ("top", True, set())],
)
def test_a_title_goes_only_with_its_bar_and_if_an_edge_says_it(
    jewel: FlatNet, on: str, titled: bool, faults_found: set[str]
) -> None:
    bars = (Bar("top", 0.14),) if on else ()
    made = cover(line(100, 50, 900, 150, on=on), bars=bars, **TALL)
    assert wrong(sight(jewel, made, titled=titled)) == faults_found


def test_small_print_may_go_whole_but_not_in_part(jewel: FlatNet) -> None:
    gone = cover(line(100, 50, 900, 150, role=Role.MAKER), **TALL)
    cut = cover(line(100, 150, 900, 250, role=Role.MAKER), **TALL)
    assert wrong(sight(jewel, gone)) == set()
    assert wrong(sight(jewel, cut)) == {"lettering cut"}


def test_nine_tenths_of_a_subject_have_to_be_in_sight(jewel: FlatNet) -> None:
    for top, found in ((190.0, set()), (150.0, {"subject lost"})):
        subject = Subject("cat", "animal", corners(PixelRect(0, top, 100, top + 200)))
        assert wrong(sight(jewel, cover(subject=subject, **TALL))) == found


def test_a_face_bears_less_stretch_than_a_landscape(jewel: FlatNet) -> None:
    made = cover(size=(1000, 1060), art=corners(PixelRect(0, 0, 1000, 1060)))
    face = Subject("woman", "face", corners(PixelRect(400, 400, 600, 600)))
    assert wrong(sight(jewel, made, fit=Fit.STRETCH)) == set()
    with_face = msgspec.structs.replace(made, subject=face)
    assert wrong(sight(jewel, with_face, fit=Fit.STRETCH)) == {"stretched"}


def test_borders_skews_and_trims_are_measured(jewel: FlatNet) -> None:
    bordered = cover(art=corners(PixelRect(100, 100, 900, 900)))
    right = Trim(0.1, 0.1, 0.1, 0.1)
    assert wrong(sight(jewel, bordered, trim=right)) == set()
    assert wrong(sight(jewel, bordered)) == {"border left"}
    assert wrong(sight(jewel, bordered, trim=right, turn=0.7)) == {"skew left"}
    assert wrong(sight(jewel, bordered, trim=Trim(0.2, 0.1, 0.1, 0.1))) == {"wrong trim"}
    barred = cover(bars=(Bar("left", 0.1),))
    assert wrong(sight(jewel, barred, trim=Trim(left=0.1))) == set()
    assert wrong(sight(jewel, barred, trim=Trim(left=0.085))) == {"bar left in part"}


def test_a_frame_stays_on_all_sides_or_goes_from_all(jewel: FlatNet) -> None:
    framed = cover(frame=Edges(0.05, 0.05, 0.05, 0.05))
    assert wrong(sight(jewel, framed)) == set()
    assert wrong(sight(jewel, framed, trim=Trim(0.05, 0.05, 0.05, 0.05))) == set()
    partly = sight(jewel, framed, fit=Fit.MATTE, trim=Trim(0.05, 0.0, 0.05, 0.0))
    assert wrong(partly) == {"frame cut"}


def test_a_split_runs_beside_the_spine_and_through_no_lettering(casing: Casing) -> None:
    net = casing.net("snap-shell")
    words_on_front = line(560, 400, 950, 500, part="front")
    wrap = cover(words_on_front, split=(0.45, 0.52))
    assert wrong(sight(net, wrap, fit=Fit.MATTE, split=(0.45, 0.52))) == set()
    assert "wrap not split" in wrong(sight(net, wrap, fit=Fit.MATTE))
    shown = sight(net, wrap, fit=Fit.MATTE, split=(0.45, 0.49))
    assert wrong(shown) == {"split beside the spine"}
    through = sight(net, wrap, fit=Fit.MATTE, split=(0.45, 0.6))
    assert "split through lettering" in wrong(through)
    plain = cover(line(100, 400, 900, 500))
    assert "plain picture split" in wrong(sight(net, plain, fit=Fit.MATTE, split=(0.45, 0.52)))


def test_a_matte_is_needed_where_no_crop_would_do(jewel: FlatNet) -> None:
    above, below = line(100, 50, 900, 150), line(100, 1250, 900, 1350)
    for lines, needless in (((above,), True), ((above, below), False)):
        made = cover(*lines, **TALL)
        found = better.empty_without_need(sight(jewel, made, fit=Fit.MATTE), jewel, ())
        assert bool(found) is needless
