"""What comes out for a panel and its bleed, measured in the pixels."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from engine.artwork import ArtRequest, Bleed, base_in, inspect, propose_fit
from engine.artwork.rendering import draw, lay
from engine.colours import difference
from engine.model import Art, Fit, InkMode, Matte, Rect, Size, Trim
from tests.artwork.photos import levels, mean_difference, photo

PANEL = Size(50.0, 60.0)
BLEED = Bleed(2.0, 3.0, 1.0, 0.5)
NONE = Bleed()
BASE = "#204080"


@pytest.fixture
def flag(tmp_path) -> Path:
    """Four quarters, each of one colour: red and green above blue and yellow."""
    image = Image.new("RGB", (1000, 1000), "#d02020")
    for colour, box in (
        ("#20a040", (500, 0, 1000, 500)),
        ("#2040d0", (0, 500, 500, 1000)),
        ("#e0d020", (500, 500, 1000, 1000)),
    ):
        image.paste(colour, box)
    path = tmp_path / "flag.png"
    image.save(path)
    return path


def at(image: Image.Image, x: float, y: float, panel: Size, bleed: Bleed) -> tuple[int, ...]:
    """Return the colour x mm right of and y mm below the panel's upper left corner."""
    across = image.width / (panel.width + bleed.left + bleed.right)
    down = image.height / (panel.height + bleed.bottom + bleed.top)
    return image.getpixel((int((x + bleed.left) * across), int((y + bleed.top) * down)))


def edge(column: np.ndarray) -> float:
    """Return where a line of pixels changes most, between two of them."""
    change = np.abs(np.diff(column.astype(float), axis=0)).sum(axis=1)
    return float(np.average(np.arange(len(change)) + 1, weights=change**2))


def test_the_same_art_gives_the_same_bytes(tmp_path):
    path = tmp_path / "a.png"
    photo("coffee").save(path)
    art = Art("a.png", Fit.MATTE, matte=Matte.BLUR, turn=1.5)
    one, other = (lay(ArtRequest(str(path), art, PANEL, BLEED, BASE)) for _ in range(2))
    assert one == other
    image = Image.open(BytesIO(one.data))
    assert image.format == "JPEG"
    assert image.mode == "RGB"
    assert not image.getexif()
    assert b"Exif" not in one.data


@pytest.mark.parametrize("fit", [Fit.STRETCH, Fit.FILL, Fit.MATTE])
def test_a_large_picture_is_printed_at_300_to_the_inch(tmp_path, fit):
    path = tmp_path / "large.png"
    Image.new("RGB", (3000, 3000), "#446688").save(path)
    image = draw(path, Art("large.png", fit), PANEL, BLEED, BASE)
    assert image.width == round((50 + 3) * 300 / 25.4)
    assert image.height == round((60 + 3.5) * 300 / 25.4)


@pytest.mark.parametrize("fit", [Fit.STRETCH, Fit.FILL, Fit.MATTE])
def test_a_small_picture_is_never_drawn_larger_than_it_is(tmp_path, fit):
    path = tmp_path / "small.png"
    Image.new("RGB", (100, 120), "#446688").save(path)
    image = draw(path, Art("small.png", fit), PANEL, NONE, BASE)
    assert image.size == (100, 120)


def test_a_stretch_shows_the_whole_picture_on_the_panel(flag):
    image = draw(flag, Art("flag.png", Fit.STRETCH), PANEL, BLEED, BASE)
    per_mm = image.width / 53
    assert edge(levels(image)[10]) / per_mm - 2.0 == pytest.approx(25.0, abs=0.05)
    per_mm = image.height / 63.5
    assert edge(levels(image)[:, 10]) / per_mm - 0.5 == pytest.approx(30.0, abs=0.05)


@pytest.mark.parametrize(("focus", "where"), [(0.5, 25.0), (0.0, 30.0), (1.0, 20.0)])
def test_a_fill_keeps_the_focus_in_sight(flag, focus, where):
    """A square on 50 x 60 mm is drawn 60 mm wide: 10 mm are cut off, where the focus lets them."""
    image = draw(flag, Art("flag.png", Fit.FILL, (focus, 0.5)), PANEL, BLEED, BASE)
    per_mm = image.width / 53
    assert edge(levels(image)[10]) / per_mm - 2.0 == pytest.approx(where, abs=0.05)


def test_the_bleed_shows_more_of_the_picture_where_there_is_more(tmp_path):
    """A ramp from black to white, 60 mm wide on a panel of 50: it goes on into the bleed."""
    ramp = np.tile(np.linspace(0, 255, 1200).astype(np.uint8), (1200, 1))
    path = tmp_path / "ramp.png"
    Image.fromarray(ramp).save(path)
    image = draw(path, Art("ramp.png", Fit.FILL), PANEL, Bleed(2, 2, 2, 2), BASE)
    row = levels(image)[300, :, 0]
    expected = np.interp((np.arange(image.width) + 0.5) / image.width * 54 + 3, [0, 60], [0, 255])
    assert np.abs(row - expected).max() < 2.5


def test_the_bleed_draws_out_the_last_pixels_where_there_is_no_more(flag):
    image = draw(flag, Art("flag.png", Fit.STRETCH), PANEL, BLEED, BASE)
    assert image.getpixel((0, 0)) == (0xD0, 0x20, 0x20)
    assert image.getpixel((image.width - 1, image.height - 1)) == (0xE0, 0xD0, 0x20)


@pytest.mark.parametrize("pixels", [60, 150, 1000])
def test_a_matte_begins_where_the_picture_ends(tmp_path, pixels):
    """A square on 50 x 60 mm: 5 mm of matte above and below, to a tenth of a millimetre, whatever
    the picture's resolution."""
    path = tmp_path / "white.png"
    Image.new("RGB", (pixels, pixels), "white").save(path)
    image = draw(path, Art("white.png", Fit.MATTE), PANEL, BLEED, "#000000")
    column = levels(image)[:, image.width // 2, 0] / 255
    per_mm = image.height / 63.5
    # How much white there is in all tells where its edges lie, between pixels too.
    assert column.sum() / per_mm == pytest.approx(50.0, abs=0.1)
    above = column[: image.height // 2]
    assert (len(above) - above.sum()) / per_mm - 0.5 == pytest.approx(5.0, abs=0.1)


def test_a_matte_leaves_no_gap_at_the_sides_that_the_picture_meets(flag):
    image = draw(flag, Art("flag.png", Fit.MATTE), PANEL, BLEED, BASE)
    middle = image.height // 3
    assert image.getpixel((0, middle)) == (0xD0, 0x20, 0x20)
    assert image.getpixel((image.width - 1, middle)) == (0x20, 0xA0, 0x40)
    assert image.getpixel((5, 5)) == (0x20, 0x40, 0x80)


@pytest.mark.parametrize("mode", [InkMode.FULL, InkMode.GREY, InkMode.DRAFT])
def test_a_plain_matte_is_no_part_of_the_picture(flag, mode):
    """A square on 50 x 60 mm: 5 mm of matte above and below, which no pixel of the JPEG covers."""
    art = Art("flag.png", Fit.MATTE)
    laid = lay(ArtRequest(str(flag), art, PANEL, BLEED, BASE, mode=mode))
    assert laid.ground == base_in(BASE, mode)
    assert laid.place == pytest.approx((-2.0, 5.0, 53.0, 50.0))
    if mode is InkMode.FULL:
        image = levels(Image.open(BytesIO(laid.data)))
        assert np.abs(image[2, 2] - (0xD0, 0x20, 0x20)).max() <= 2
        assert np.abs(image[-3, 2] - (0x20, 0x40, 0xD0)).max() <= 2


@pytest.mark.parametrize("matte", [Matte.EXTEND, Matte.BLUR])
def test_a_matte_made_of_the_picture_is_part_of_it(flag, matte):
    laid = lay(ArtRequest(str(flag), Art("flag.png", Fit.MATTE, matte=matte), PANEL, BLEED, BASE))
    assert laid.ground == ""
    assert laid.place == pytest.approx((-2.0, -3.0, 53.0, 63.5))


def test_the_other_mattes(flag):
    def corner(matte: Matte) -> tuple[int, ...]:
        art = Art("flag.png", Fit.MATTE, matte=matte)
        image = draw(flag, art, PANEL, NONE, BASE)
        return at(image, 5, 1, PANEL, NONE)

    assert corner(Matte.EXTEND) == (0xD0, 0x20, 0x20)
    red, green, blue = corner(Matte.BLUR)
    assert red > 150 > max(green, blue)
    for matte in (Matte.COMPLEMENT, Matte.ANALOGOUS):
        turned = "#{:02x}{:02x}{:02x}".format(*corner(matte))
        assert difference(turned, BASE) > 10


def test_trimmed_parts_do_not_show_even_in_the_bleed(tmp_path):
    image = Image.new("RGB", (1000, 1200), "white")
    image.paste("#d02020", (100, 120, 900, 1080))
    path = tmp_path / "framed.png"
    image.save(path)
    art = Art("framed.png", Fit.FILL, trim=Trim(0.1, 0.1, 0.1, 0.1))
    drawn = draw(path, art, PANEL, BLEED, BASE)
    assert np.abs(levels(drawn) - (0xD0, 0x20, 0x20)).max() <= 1


@pytest.mark.parametrize(
    ("part", "colour"),
    [("back", (255, 0, 0)), ("spine", (0, 255, 0)), ("front", (0, 0, 255)), ("", (0, 0, 255))],
)
def test_each_panel_shows_its_part_of_a_flat_cover(tmp_path, part, colour):
    image = Image.new("RGB", (1000, 500), "#ff0000")
    image.paste("#00ff00", (450, 0, 550, 500))
    image.paste("#0000ff", (550, 0, 1000, 500))
    path = tmp_path / "flat.png"
    image.save(path)
    art = Art("flat.png", Fit.FILL, split=(0.45, 0.55))
    drawn = draw(path, art, Size(40, 50), BLEED, BASE, part)
    assert np.abs(levels(drawn) - colour).max() <= 1


def test_a_skewed_scan_comes_out_straight_and_clean(tmp_path):
    cover = photo("astronaut", 500)
    glass = Image.new("RGB", (700, 700), "#f4f2ee")
    glass.paste(cover, (100, 100))
    path = tmp_path / "askew.png"
    glass.rotate(-3, Image.Resampling.BICUBIC, fillcolor="#f4f2ee").save(path)
    picture = inspect(path, "askew.png")
    art = propose_fit(picture, Size(50, 50)).art
    drawn = draw(path, art, Size(50, 50), NONE, BASE)
    assert mean_difference(drawn, cover.resize(drawn.size)) < 12
    for side in (levels(drawn)[:, 0], levels(drawn)[0], levels(drawn)[:, -1], levels(drawn)[-1]):
        # None of the glass is left along a side, but where the photo itself is as pale.
        assert (np.abs(side - (0xF4, 0xF2, 0xEE)).max(axis=1) < 6).mean() < 0.1


def test_alpha_shows_the_base_colour(tmp_path):
    image = Image.new("RGBA", (400, 480), (0, 0, 0, 0))
    path = tmp_path / "clear.png"
    image.save(path)
    drawn = draw(path, Art("clear.png", Fit.FILL), PANEL, NONE, BASE)
    assert drawn.getpixel((10, 10)) == (0x20, 0x40, 0x80)


@pytest.fixture(scope="module")
def shapes(tmp_path_factory) -> dict[tuple[int, int], Path]:
    folder = tmp_path_factory.mktemp("shapes")
    paths = {}
    for size in ((1, 1), (1, 50), (50, 1), (37, 53), (300, 200)):
        paths[size] = folder / f"{size[0]}x{size[1]}.png"
        photo("coffee").resize(size).save(paths[size])
    return paths


bleeds = st.builds(Bleed, *[st.floats(0, 5)] * 4)
trims = st.builds(Trim, *[st.floats(0, 0.45)] * 4)
splits = st.none() | st.tuples(st.floats(0.01, 0.49), st.floats(0.5, 0.99))


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    size=st.sampled_from([(1, 1), (1, 50), (50, 1), (37, 53), (300, 200)]),
    panel=st.builds(Size, st.floats(2, 120), st.floats(2, 120)),
    bleed=bleeds,
    art=st.builds(
        Art,
        picture=st.just("0.png"),
        fit=st.sampled_from(Fit),
        focus=st.tuples(st.floats(0, 1), st.floats(0, 1)),
        trim=trims,
        split=splits,
        turn=st.sampled_from([0.0, 2.5, -45.0]),
        matte=st.sampled_from(Matte),
    ),
    part=st.sampled_from(["", "front", "spine", "back"]),
)
def test_whatever_is_asked_for_comes_out_in_the_panel_s_shape(
    shapes, size, panel, bleed, art, part
):
    laid = lay(ArtRequest(str(shapes[size]), art, panel, bleed, BASE, part))
    image = Image.open(BytesIO(laid.data))
    place, whole = laid.place, Rect(-bleed.left, -bleed.bottom, 0, 0)
    width = panel.width + bleed.left + bleed.right
    height = panel.height + bleed.bottom + bleed.top
    assert image.width <= max(1, round(place.width * 300 / 25.4))
    assert image.height <= max(1, round(place.height * 300 / 25.4))
    assert image.mode == "RGB"
    within = (
        place.x - whole.x,
        place.y - whole.y,
        whole.x + width - place.x - place.width,
        whole.y + height - place.y - place.height,
    )
    assert min(within) > -0.01, "nothing lies beyond the bleed"
    assert laid.ground or max(within) < 0.01, "panel and bleed are covered"


# --- Screenshots ------------------------------------------------------------------------


@pytest.fixture
def screenshot() -> Image.Image:
    """A screen of 160 x 144 dots in four greens."""
    image = Image.new("RGB", (160, 144), "#0f380f")
    pen = ImageDraw.Draw(image)
    for number in range(40):
        x, y = number * 37 % 150, number * 53 % 134
        pen.rectangle(
            (x, y, x + number % 9, y + number % 7), fill=("#306230", "#8bac0f")[number % 2]
        )
        pen.point((y, x % 144), fill="#9bbc0f")
    return image


@pytest.mark.parametrize("enlarged", [1, 3])
def test_each_dot_of_a_screenshot_is_a_square_of_whole_dots(tmp_path, screenshot, enlarged):
    path = tmp_path / "screen.png"
    size = (160 * enlarged, 144 * enlarged)
    screenshot.resize(size, Image.Resampling.NEAREST).save(path)
    picture = inspect(path, "screen.png")
    assert picture.dot == enlarged
    panel = Size(65, 57)
    art = propose_fit(picture, panel).art
    assert art.fit is Fit.PIXELS
    drawn = draw(path, art, panel, Bleed(1, 1, 1, 1), "#ff0000")
    assert drawn.size == (round(67 * 300 / 25.4), round(59 * 300 / 25.4))
    shown = np.argwhere((levels(drawn) != (255, 0, 0)).any(axis=2))
    (top, left), (bottom, right) = shown.min(axis=0), shown.max(axis=0) + 1
    assert (right - left, bottom - top) == (160 * 4, 144 * 4)
    squares = levels(drawn)[top:bottom, left:right].reshape(144, 4, 160, 4, 3)
    assert (squares == squares[:, :1, :, :1]).all()
    assert (squares[:, 0, :, 0] == levels(screenshot)).all()
    assert abs((left + right) / 2 - drawn.width / 2) <= 1
    assert abs((top + bottom) / 2 - drawn.height / 2) <= 1


def test_a_photograph_is_no_screenshot(tmp_path):
    for name in ("coffee", "camera", "brick"):
        path = tmp_path / f"{name}.png"
        photo(name).save(path)
        assert inspect(path, name).dot == 0


# --- The base colour --------------------------------------------------------------------


def test_the_base_colour_is_that_of_the_left_edge_strip(tmp_path):
    image = photo("coffee").copy()
    image.paste("#2c7a3c", (0, 0, 30, image.height))
    path = tmp_path / "strip.png"
    image.save(path)
    assert difference(inspect(path, "strip.png").side, "#2c7a3c") < 1.0


def test_the_base_colour_of_a_framed_picture_is_not_the_frame_s(tmp_path):
    cover = Image.new("RGB", (500, 600), "#2c7a3c")
    cover.paste(photo("coffee", 300), (150, 100))
    framed = Image.new("RGB", (560, 660), "white")
    framed.paste(cover, (30, 30))
    path = tmp_path / "framed.png"
    framed.save(path)
    assert difference(inspect(path, "framed.png").side, "#2c7a3c") < 1.0


def test_the_base_colour_of_a_flat_cover_is_its_spine_s(tmp_path):
    flat = Image.new("RGB", (850, 560))
    flat.paste(photo("coffee", 400).resize((395, 560)), (0, 0))
    flat.paste("#7a2c6c", (395, 0, 455, 560))
    flat.paste(photo("astronaut", 400).resize((395, 560)), (455, 0))
    path = tmp_path / "flat.png"
    flat.save(path)
    picture = inspect(path, "flat.png")
    assert picture.split == pytest.approx((395 / 850, 455 / 850), abs=0.005)
    assert difference(picture.side, "#7a2c6c") < 1.0


def test_a_stretched_picture_on_a_plain_matte_lies_where_its_window_says(tmp_path) -> None:
    Image.new("RGB", (700, 900), "#20a050").save(tmp_path / "flat.png")
    art = Art("flat.png", Fit.MATTE, stretch=0.03)
    laid = lay(ArtRequest(str(tmp_path / "flat.png"), art, Size(37, 65), Bleed(), BASE))
    x, y, width, height = laid.place
    assert (x, width) == pytest.approx((0.0, 37.0), abs=0.01)
    assert height == pytest.approx(37.0 * 900 / 700 * 1.03, rel=1e-3)
    assert y == pytest.approx((65.0 - height) / 2, abs=0.01)
    drawn = np.asarray(Image.open(BytesIO(laid.data)).convert("RGB")).astype(int)
    assert np.abs(drawn - (0x20, 0xA0, 0x50)).max() < 8, "no matte within the picture's place"
