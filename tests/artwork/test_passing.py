"""JPEGs that are printed as they came: the same pixels, and nothing that tells of their owner."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from PIL import Image, ImageCms

from engine.artwork import ArtRequest, Bleed
from engine.artwork.passing import bare
from engine.artwork.rendering import lay
from engine.model import Art, Fit, InkMode, Size, Trim
from tests.artwork.photos import levels, photo

PANEL = Size(50.0, 60.0)
SIZE = (600, 720)  # 305 to the inch on that panel
ART = Art("a.jpg", Fit.STRETCH)


def jpeg(path: Path, size: tuple[int, int] = SIZE, **more: object) -> Path:
    photo("coffee").resize(size).save(path, "JPEG", quality=90, **more)
    return path


NONE = Bleed()


def wanted(path: Path, art: Art = ART, bleed: Bleed = NONE, **more: object) -> ArtRequest:
    return ArtRequest(str(path), art, PANEL, bleed, "#204080", **more)


def test_a_small_srgb_jpeg_goes_through_as_it_is(tmp_path: Path) -> None:
    path = jpeg(tmp_path / "a.jpg")
    laid = lay(wanted(path))
    assert laid.data == path.read_bytes()
    assert laid.place == pytest.approx((0, 0, 50, 60))
    assert not laid.ground


def test_what_it_says_of_its_owner_stays_behind_and_no_pixel_changes(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x013B] = "Owner of the camera"  # CIPA DC-008: Artist
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    path = jpeg(tmp_path / "a.jpg", exif=exif, icc_profile=srgb, comment="/home/owner/scans")
    laid = lay(wanted(path))
    for word in (b"Owner", b"/home", b"Exif", b"ICC_PROFILE"):
        assert word in path.read_bytes()
        assert word not in laid.data
    assert (levels(Image.open(BytesIO(laid.data))) == levels(Image.open(path))).all()


def test_a_crop_that_shows_most_of_it_is_the_file_behind_its_panel(tmp_path: Path) -> None:
    path = jpeg(tmp_path / "a.jpg", (600, 800))
    art = replace(ART, fit=Fit.FILL, trim=Trim(top=0.02, bottom=0.02))
    laid = lay(wanted(path, art))
    assert laid.data == path.read_bytes()
    x, y, width, height = laid.place
    assert (x, width) == pytest.approx((0, 50))
    assert height == pytest.approx(50 * 800 / 600)
    assert y == pytest.approx((60 - height) / 2)


def drawn_anew(path: Path, **more: object) -> bool:
    return lay(wanted(path, **more)).data != path.read_bytes()


def test_what_would_print_otherwise_is_drawn(tmp_path: Path) -> None:
    plain = jpeg(tmp_path / "a.jpg")
    assert drawn_anew(plain, bleed=Bleed(1, 1, 1, 1)), "the bleed shows more than there is"
    assert drawn_anew(plain, art=replace(ART, turn=2.0))
    assert drawn_anew(plain, mode=InkMode.GREY)
    assert drawn_anew(jpeg(tmp_path / "fine.jpg", (1500, 1800))), "762 to the inch"
    upside = Image.Exif()
    upside[0x0112] = 3  # CIPA DC-008: Orientation
    assert drawn_anew(jpeg(tmp_path / "turned.jpg", exif=upside))
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("XYZ")).tobytes()
    assert drawn_anew(jpeg(tmp_path / "other.jpg", icc_profile=lab))


def test_half_a_file_does_not_pass(tmp_path: Path) -> None:
    path = jpeg(tmp_path / "a.jpg")
    path.write_bytes(path.read_bytes()[:-4000])
    with pytest.raises(Exception, match="ends too early"):
        lay(wanted(path))


def test_a_large_jpeg_is_decoded_no_larger_than_it_prints(tmp_path: Path) -> None:
    """As from all its pixels, to 2 levels in the mean: what draft decoding may cost."""
    large = Image.open(jpeg(tmp_path / "a.jpg", (2400, 2880)))
    laid = lay(wanted(tmp_path / "a.jpg"))
    image = Image.open(BytesIO(laid.data))
    assert image.size == (round(50 * 300 / 25.4), round(60 * 300 / 25.4))
    whole = large.resize(image.size, Image.Resampling.LANCZOS)
    assert np.abs(levels(image).astype(int) - levels(whole)).mean() < 2


def test_bare_takes_no_other_file() -> None:
    with pytest.raises(ValueError, match="segment"):
        bare(b"\x89PNG\r\n\x1a\n and so on")
