"""Every format in, one kind of picture out; and one sentence for whatever is no picture."""

from __future__ import annotations

import random
import struct
import subprocess
import sys
import zlib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms, ImageOps
from PIL.PngImagePlugin import PngInfo

from engine.artwork import inspect, open_picture
from engine.artwork.opening import open_wholly
from engine.model.errors import PictureError
from tests.artwork.photos import levels, mean_difference, photo

JPEG_NOISE = 4.0
"""Mean difference in levels that JPEG at quality 90 may make."""


def saved(folder: Path, name: str, image: Image.Image, **options: object) -> Path:
    path = folder / name
    image.save(path, **options)
    return path


@pytest.mark.parametrize(
    ("name", "options", "noise"),
    [
        ("plain.png", {}, 0.0),
        ("baseline.jpg", {"quality": 90}, JPEG_NOISE),
        ("progressive.jpg", {"quality": 90, "progressive": True}, JPEG_NOISE),
        ("lossless.webp", {"lossless": True}, 0.0),
        ("photo.webp", {"quality": 90}, JPEG_NOISE),
        ("photo.avif", {"quality": 90}, JPEG_NOISE),
        ("raw.tif", {}, 0.0),
        ("lzw.tiff", {"compression": "tiff_lzw"}, 0.0),
        ("flat.bmp", {}, 0.0),
        ("flat.pcx", {}, 0.0),
    ],
)
def test_every_format_gives_the_same_picture(tmp_path, name, options, noise):
    photograph = photo("coffee")
    opened = open_picture(saved(tmp_path, name, photograph, **options))
    assert opened.mode == "RGB"
    assert opened.size == photograph.size
    assert mean_difference(opened, photograph) <= noise


def test_the_name_does_not_matter_the_content_does(tmp_path):
    path = saved(tmp_path, "photo.png", photo("coffee"))
    disguised = path.rename(tmp_path / "photo.jpg")
    assert mean_difference(open_picture(disguised), photo("coffee")) == 0.0


def test_palette_gif_is_the_photo_in_256_colours(tmp_path):
    path = saved(tmp_path, "palette.gif", photo("coffee"))
    assert mean_difference(open_picture(path), photo("coffee")) < 6.0


def test_palette_with_a_transparent_entry_shows_the_matte(tmp_path):
    image = Image.new("P", (40, 20), 1)
    image.putpalette([10, 20, 30, 200, 100, 50])
    image.paste(0, (0, 0, 20, 20))
    path = saved(tmp_path, "key.png", image, transparency=0)
    opened = open_picture(path, matte="#00ff00")
    assert opened.getpixel((5, 5)) == (0, 255, 0)
    assert opened.getpixel((30, 5)) == (200, 100, 50)


@pytest.mark.parametrize(
    ("name", "clear"), [("whole.png", False), ("holed.png", True), ("holed.gif", True)]
)
def test_only_what_the_matte_shows_through_is_clear(tmp_path: Path, name: str, clear: bool) -> None:
    image = Image.new("RGBA", (40, 20), (200, 100, 50, 255))
    if clear:
        image.paste((0, 0, 0, 0), (0, 0, 10, 10))
    assert open_wholly(saved(tmp_path, name, image)).clear is clear


@pytest.mark.parametrize("name", ["alpha.png", "alpha.webp", "alpha.tif"])
def test_alpha_is_laid_on_the_matte(tmp_path, name):
    image = Image.new("RGBA", (40, 20), (200, 100, 50, 255))
    image.paste((200, 100, 50, 0), (0, 0, 10, 20))
    image.paste((200, 100, 50, 128), (10, 0, 20, 20))
    options = {"lossless": True} if name.endswith("webp") else {}
    opened = open_picture(saved(tmp_path, name, image, **options), matte="#0000ff")
    assert opened.getpixel((5, 5)) == (0, 0, 255)
    assert opened.getpixel((30, 5)) == (200, 100, 50)
    # Half of each: 128/255 of the picture over the rest of the matte.
    assert np.abs(levels(opened)[5, 15] - (100, 50, 152)).max() <= 1


def test_grey_with_alpha_is_laid_on_the_matte(tmp_path):
    image = Image.new("LA", (20, 20), (90, 255))
    image.paste((90, 0), (0, 0, 10, 20))
    opened = open_picture(saved(tmp_path, "grey.png", image), matte="#ff0000")
    assert opened.getpixel((5, 5)) == (255, 0, 0)
    assert opened.getpixel((15, 5)) == (90, 90, 90)


def test_sixteen_bit_grey_keeps_its_tones(tmp_path):
    tones = np.linspace(0, 65535, 256).astype(np.uint16)
    ramp = np.tile(tones, (8, 1))
    path = saved(tmp_path, "deep.png", Image.fromarray(ramp))
    assert np.abs(levels(open_picture(path))[0, :, 0] - np.arange(256)).max() <= 1
    tiff = saved(tmp_path, "deep.tif", Image.fromarray(ramp))
    assert np.abs(levels(open_picture(tiff))[0, :, 0] - np.arange(256)).max() <= 1


def test_sixteen_bit_colour_keeps_its_tones(tmp_path):
    eight = np.asarray(photo("coffee"))
    path = tmp_path / "deep.png"
    path.write_bytes(png_16_bit(eight.astype(np.uint16) * 257))
    assert mean_difference(open_picture(path), photo("coffee")) == 0.0


def png_16_bit(pixels: np.ndarray) -> bytes:
    """Return a PNG of 16 bits a channel (W3C PNG, 11.2), which Pillow cannot write."""
    height, width, _ = pixels.shape
    rows = b"".join(b"\0" + row.astype(">u2").tobytes() for row in pixels)
    header = struct.pack(">IIBBBBB", width, height, 16, 2, 0, 0, 0)
    return png_of((b"IHDR", header), (b"IDAT", zlib.compress(rows)), (b"IEND", b""))


def png_of(*chunks: tuple[bytes, bytes]) -> bytes:
    out = b"\x89PNG\r\n\x1a\n"
    for kind, data in chunks:
        crc = struct.pack(">I", zlib.crc32(kind + data))
        out += struct.pack(">I", len(data)) + kind + data + crc
    return out


def test_floating_point_tiff_keeps_its_tones(tmp_path):
    ramp = np.tile(np.linspace(0, 1, 256, dtype=np.float32), (8, 1))
    path = saved(tmp_path, "float.tif", Image.fromarray(ramp))
    assert np.abs(levels(open_picture(path))[0, :, 0] - np.arange(256)).max() <= 1


def test_floating_point_holes_and_endless_lights_are_black_and_white(tmp_path):
    """NaN and infinity (IEEE 754) beside a middle grey."""
    ramp = np.array([[0.5, np.nan, np.inf, -np.inf, 1.0]], dtype=np.float32)
    opened = open_picture(saved(tmp_path, "holes.tif", Image.fromarray(ramp)))
    assert levels(opened)[0, :, 0].tolist() == [128, 0, 255, 0, 255]


def test_cmyk_jpeg_with_adobe_marker(tmp_path):
    path = saved(tmp_path, "press.jpg", photo("coffee").convert("CMYK"), quality=95)
    assert b"Adobe" in path.read_bytes()[:400]
    assert mean_difference(open_picture(path), photo("coffee")) < JPEG_NOISE


def test_cmyk_jpeg_without_adobe_marker_is_not_inverted(tmp_path):
    """Adobe's files store ink as its complement and say so by their APP14 segment; others do not
    (the note on CMYK in libjpeg's documentation)."""
    inverted = Image.eval(photo("coffee").convert("CMYK"), lambda level: 255 - level)
    data = saved(tmp_path, "press.jpg", inverted, quality=95).read_bytes()
    start = data.index(b"\xff\xee")
    length = struct.unpack(">H", data[start + 2 : start + 4])[0]
    path = tmp_path / "plain.jpg"
    path.write_bytes(data[:start] + data[start + 2 + length :])
    assert mean_difference(open_picture(path), photo("coffee")) < JPEG_NOISE


@pytest.mark.parametrize("orientation", range(1, 9))
def test_exif_orientation_is_obeyed(tmp_path, orientation):
    """CIPA DC-008 (Exif), tag 0x0112: the eight ways a camera can have been held."""
    upright = photo("coffee")
    undo = {
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }
    held = upright.transpose(undo[orientation]) if orientation in undo else upright
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = saved(tmp_path, "held.jpg", held, quality=95, exif=exif)
    assert mean_difference(open_picture(path), upright) < JPEG_NOISE
    picture = inspect(path, "held.jpg")
    assert (picture.width, picture.height) == upright.size
    independent = ImageOps.exif_transpose(Image.open(path))
    assert mean_difference(open_picture(path), independent) == 0.0


def test_embedded_profile_is_converted_to_srgb(tmp_path):
    """A profile whose red and blue are swapped: what it calls red is sRGB's blue."""
    swapped = swapped_profile()
    red = Image.new("RGB", (8, 8), (255, 0, 0))
    opened = open_picture(saved(tmp_path, "odd.png", red, icc_profile=swapped))
    assert np.abs(levels(opened)[4, 4] - (0, 0, 255)).max() <= 2
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    same = open_picture(saved(tmp_path, "same.png", photo("coffee"), icc_profile=srgb))
    assert mean_difference(same, photo("coffee")) < 0.5


def swapped_profile() -> bytes:
    """Return littleCMS's own sRGB profile with the tags of red and blue exchanged (ICC.1, 7.3)."""
    data = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    return (
        data.replace(b"rXYZ", b"....", 1).replace(b"bXYZ", b"rXYZ", 1).replace(b"....", b"bXYZ", 1)
    )


def test_profile_that_does_not_suit_is_passed_over_and_said(tmp_path):
    path = saved(tmp_path, "broken.png", photo("coffee"), icc_profile=b"no profile at all")
    picture = inspect(path, "broken.png")
    assert any("colour profile" in note for note in picture.notes)
    assert mean_difference(open_picture(path), photo("coffee")) == 0.0


def test_animation_gives_its_first_frame_and_says_so(tmp_path):
    frames = [
        photo("coffee").quantize(64),
        photo("rocket").resize(photo("coffee").size).quantize(64),
    ]
    path = saved(tmp_path, "moving.gif", frames[0], save_all=True, append_images=frames[1:])
    assert mean_difference(open_picture(path), frames[0]) < 1.0
    assert inspect(path, "moving.gif").notes == ("first of 2 frames",)


def test_tiff_of_several_pages_gives_its_first_and_says_so(tmp_path):
    pages = [photo("coffee"), photo("rocket"), photo("chelsea")]
    path = saved(tmp_path, "pages.tif", pages[0], save_all=True, append_images=pages[1:])
    assert mean_difference(open_picture(path), pages[0]) == 0.0
    assert inspect(path, "pages.tif").notes == ("first of 3 pages",)


def test_pdf_gives_its_first_page(tmp_path):
    pages = [photo("coffee"), photo("rocket")]
    path = saved(
        tmp_path,
        "art.pdf",
        pages[0],
        save_all=True,
        append_images=pages[1:],
        resolution=300,
        quality=95,
    )
    opened = open_picture(path)
    assert opened.size == pages[0].size  # its page is the picture at 300 to the inch
    assert mean_difference(opened, pages[0]) < JPEG_NOISE
    assert inspect(path, "art.pdf").notes == ("first of 2 pages",)


SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100">{}'
    '<rect width="100" height="100" fill="#c83264"/></svg>'
)


@pytest.mark.parametrize("inside", ["", '<a href="https://example.org"><g/></a>', "<!-- é -->"])
def test_svg_is_drawn_on_the_matte_at_print_resolution(tmp_path, inside):
    path = tmp_path / "art.svg"
    path.write_text(SVG.format(inside), encoding="utf-8")
    opened = open_picture(path, matte="#00ff00")
    assert opened.size == (2400, 1200)
    assert opened.getpixel((600, 600)) == (0xC8, 0x32, 0x64)
    assert opened.getpixel((1800, 600)) == (0, 255, 0)


@pytest.mark.parametrize("size", ["100mm", "4in", "283.46pt", "10cm", "100", "100px"])
def test_a_drawing_may_say_its_size_in_any_unit(tmp_path, size):
    """SVG 2, 8.2, and CSS Values 4, 6.2: absolute units."""
    path = tmp_path / "art.svg"
    path.write_text(SVG.format("").replace("<svg ", f'<svg width="{size}" '), encoding="utf-8")
    assert max(open_picture(path).size) == 2400


HOSTILE_SVG = {
    "huge pattern": '<pattern id="p" width="1e6" height="1e6" patternUnits="userSpaceOnUse">'
    '<rect width="5" height="5"/></pattern><rect width="9" height="9" fill="url(#p)"/>',
    "deep nest": "<g>" * 100_000 + "</g>" * 100_000,
    "unclosed": "<g>",
    "outside file": '<image href="/etc/hostname" width="9" height="9"/>',
}


@pytest.mark.parametrize("kind", HOSTILE_SVG)
def test_a_hostile_svg_ends_in_a_sentence(tmp_path, kind):
    """The first two end the renderer's own process."""
    path = tmp_path / "bad.svg"
    path.write_text(SVG.format(HOSTILE_SVG[kind]))
    with pytest.raises(PictureError, match=r"^bad\.svg: (is a drawing that|cannot be opened: it)"):
        inspect(path, "bad.svg")


# --- What is no picture -----------------------------------------------------------------


def refusal(path: Path, source: str = "") -> str:
    with pytest.raises(PictureError) as caught:
        open_picture(path, source=source)
    sentence = str(caught.value)
    assert "\n" not in sentence
    return sentence


def test_the_sentence_names_the_file_as_the_person_knows_it(tmp_path):
    path = tmp_path / "0f3a.png"
    path.write_bytes(b"junk" * 100)
    assert refusal(path).startswith("0f3a.png: is no picture")
    assert refusal(path, "Harbour.png").startswith("Harbour.png: is no picture")


def test_missing_empty_and_folder(tmp_path):
    (tmp_path / "empty.png").touch()
    assert "is not there" in refusal(tmp_path / "gone.png")
    assert "is empty" in refusal(tmp_path / "empty.png")
    assert "is a folder" in refusal(tmp_path)


@pytest.mark.parametrize(
    "name", ["cut.png", "cut.jpg", "cut.gif", "cut.webp", "cut.avif", "cut.tif", "cut.bmp"]
)
@pytest.mark.parametrize("share", [0.3, 0.6, 0.95])
def test_truncated_files_are_refused_by_name(tmp_path, name, share):
    path = saved(tmp_path, name, photo("coffee"))
    data = path.read_bytes()
    path.write_bytes(data[: int(len(data) * share)])
    assert refusal(path).startswith(f"{name}: ")
    with pytest.raises(PictureError):
        inspect(path, name)


def test_a_truncated_png_is_called_incomplete(tmp_path):
    path = saved(tmp_path, "half.png", photo("coffee"))
    path.write_bytes(path.read_bytes()[:20000])
    assert "part of the picture is missing" in refusal(path)


def test_a_locked_or_damaged_pdf_is_refused(tmp_path):
    path = tmp_path / "bad.pdf"
    path.write_bytes(b"%PDF-1.7\nnothing here")
    assert "damaged or needs a password" in refusal(path)


HUGE = 30_000


def bombs(folder: Path) -> list[Path]:
    """Write files of a few hundred bytes whose headers promise 900 million pixels."""
    ihdr = struct.pack(">IIBBBBB", HUGE, HUGE, 8, 2, 0, 0, 0)
    zeros = zlib.compress(bytes(1_000_000))
    bmp = b"BM" + struct.pack("<IHHI", 54, 0, 0, 54)
    bmp += struct.pack("<IiiHHIIiiII", 40, HUGE, HUGE, 1, 24, 0, 0, 2835, 2835, 0, 0)
    start_of_frame = struct.pack(">HHBHHB", 0xFFC0, 17, 8, HUGE, HUGE, 3)
    jpeg = b"\xff\xd8" + start_of_frame + bytes([1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1])
    jpeg += b"\xff\xda\x00\x0c\x03\x01\x00\x02\x11\x03\x11\x00\x3f\x00" + bytes(100) + b"\xff\xd9"
    gif = b"GIF89a" + struct.pack("<HHBBB", HUGE, HUGE, 0x80, 0, 0) + bytes(6)
    gif += b"," + struct.pack("<HHHHB", 0, 0, HUGE, HUGE, 0) + b"\x02\x02\x4c\x01\x00;"
    made = {
        "bomb.png": png_of((b"IHDR", ihdr), (b"IDAT", zeros), (b"IEND", b"")),
        "bomb.bmp": bmp + bytes(100),
        "bomb.jpg": jpeg,
        "bomb.gif": gif,
    }
    for name, data in made.items():
        (folder / name).write_bytes(data)
    tags = [(256, 4, HUGE), (257, 4, HUGE), (258, 3, 8), (259, 3, 1), (262, 3, 1), (273, 4, 8)]
    tags += [(277, 3, 1), (278, 4, HUGE), (279, 4, 100)]
    entries = b"".join(struct.pack("<HHII", tag, kind, 1, value) for tag, kind, value in tags)
    tiff = b"II*\0" + struct.pack("<IH", 8, len(tags)) + entries + struct.pack("<I", 0)
    (folder / "bomb.tif").write_bytes(tiff + bytes(200))
    return [folder / name for name in [*made, "bomb.tif"]]


def test_a_picture_of_30_000_pixels_square_is_refused_by_its_header(tmp_path):
    for path in bombs(tmp_path):
        sentence = refusal(path)
        assert "too large to open safely" in sentence, sentence


def test_a_real_bomb_of_30_000_pixels_square_costs_no_memory(tmp_path):
    """One bit a pixel: a file of 110 kB that would take 900 MB as bytes."""
    row = b"\0" + bytes(HUGE // 8)
    packer = zlib.compressobj(9)
    body = b"".join(packer.compress(row * 100) for _ in range(HUGE // 100)) + packer.flush()
    ihdr = struct.pack(">IIBBBBB", HUGE, HUGE, 1, 0, 0, 0, 0)
    path = tmp_path / "bomb.png"
    path.write_bytes(png_of((b"IHDR", ihdr), (b"IDAT", body), (b"IEND", b"")))
    assert peak_megabytes(path) < 200


def test_the_largest_picture_that_is_let_in_stays_under_500_megabytes(tmp_path):
    path = saved(tmp_path, "large.bmp", Image.new("RGBA", (8000, 4990), (9, 99, 200, 128)))
    assert peak_megabytes(path) < 500


PEAK = """
import sys
from pathlib import Path
from engine.artwork.inspecting import look
from engine.model.errors import PictureError
try:
    look(sys.argv[1].encode())
except PictureError:
    pass
lines = Path("/proc/self/status").read_text().splitlines()
print(next(int(line.split()[1]) / 1024 for line in lines if line.startswith("VmHWM")))
"""


def peak_megabytes(path: Path) -> float:
    """Return the most memory that a process of its own held while inspecting ``path``."""
    if not Path("/proc/self/status").exists():
        pytest.skip("this system does not tell a process's peak of memory")
    ran = subprocess.run(
        [sys.executable, "-c", PEAK, str(path)], capture_output=True, text=True, check=True
    )
    return float(ran.stdout)


SEEDS = {
    "png": {},
    "jpg": {"quality": 70},
    "gif": {},
    "webp": {},
    "avif": {"speed": 10},
    "tif": {"compression": "tiff_lzw"},
    "bmp": {},
    "pcx": {},
}


@pytest.fixture(scope="module")
def seeds(tmp_path_factory) -> dict[str, bytes]:
    folder = tmp_path_factory.mktemp("seeds")
    small = photo("chelsea", 60)
    made = {
        suffix: saved(folder, f"a.{suffix}", small, **options).read_bytes()
        for suffix, options in SEEDS.items()
    }
    made["pdf"] = saved(folder, "a.pdf", small).read_bytes()
    return made


@settings(max_examples=250, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(suffix=st.sampled_from([*SEEDS, "pdf"]), seed=st.integers(0, 2**32))
def test_fuzzed_files_give_a_picture_or_a_sentence(seeds, tmp_path, suffix, seed):
    data = bytearray(seeds[suffix])
    dice = random.Random(seed)
    for _ in range(dice.choice([1, 4, 16, 64])):
        match dice.randrange(4):
            case 0:
                data[dice.randrange(len(data))] = dice.randrange(256)
            case 1:
                data[dice.randrange(min(64, len(data)))] = dice.choice([0, 1, 127, 128, 255])
            case 2 if len(data) > 40:
                start = dice.randrange(len(data) - 8)
                del data[start : start + dice.randrange(1, 8)]
            case _:
                start = dice.randrange(len(data))
                data[start:start] = dice.randbytes(4)
    path = tmp_path / f"fuzzed.{suffix}"
    path.write_bytes(bytes(data))
    said = outcome(path)
    assert said.startswith("fuzzed: ")
    assert "\n" not in said


def outcome(path: Path) -> str:
    """Return what a person sees: the sentence of a refusal, or the picture's size."""
    try:
        picture = inspect(path, "fuzzed")
    except PictureError as fault:
        return str(fault)
    return f"fuzzed: {picture.width} × {picture.height}"


def test_a_text_chunk_that_unpacks_for_ever_is_refused(tmp_path):
    info = PngInfo()
    info.add_text("Comment", "a" * 80_000_000, zip=True)
    path = saved(tmp_path, "talk.png", photo("chelsea", 60), pnginfo=info)
    assert path.stat().st_size < 200_000
    assert peak_megabytes(path) < 500
