"""The corpus itself: what a test expects of a picture is what is in its file.

Pillow reads the files here, with its own turning (ImageOps) and LittleCMS for the colours.
"""

from __future__ import annotations

import io
import warnings
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageCms, ImageOps, ImageStat

from tests.corpus import BAD_PICTURES, ENCODINGS, Corpus, Shot, build
from tests.corpus.bad import BOMB_SIDE
from tests.corpus.encodings import ORIENTATION, chunk
from tests.corpus.photographs import photograph

pytestmark = pytest.mark.xdist_group("corpus")  # built once


@pytest.fixture(scope="module")
def corpus(tmp_path_factory: pytest.TempPathFactory) -> Corpus:
    return build(tmp_path_factory.mktemp("corpus"), games=len(ENCODINGS))


def as_seen(path: Path) -> Image.Image:
    """Return a file's picture upright and in sRGB."""
    with Image.open(path) as file:
        if file.mode.startswith("I;16"):
            file = file.convert("I").point(lambda level: level / 257).convert("L")  # noqa: PLW2901
        picture = ImageOps.exif_transpose(file)
        if profile := picture.info.get("icc_profile"):
            return ImageCms.profileToProfile(
                picture, io.BytesIO(profile), ImageCms.createProfile("sRGB"), outputMode="RGB"
            )
        if picture.mode in {"RGBA", "LA"}:
            white = Image.new("RGBA", picture.size, "white")
            return Image.alpha_composite(white, picture.convert("RGBA")).convert("RGB")
        return picture.convert("RGB")


def shots(corpus: Corpus) -> dict[str, Shot]:
    return {shot.encoding: shot for shot in corpus.shots}


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_a_file_shows_its_picture(encoding: str, corpus: Corpus) -> None:
    shot = shots(corpus)[encoding]
    seen = as_seen(corpus.pictures / shot.file)
    assert seen.size == shot.size
    small = seen.resize((48, 48), Image.Resampling.BOX)
    wanted = shot.expected.resize((48, 48), Image.Resampling.BOX)
    assert max(ImageStat.Stat(ImageChops.difference(small, wanted)).mean) < 5


def test_files_are_what_they_claim(corpus: Corpus) -> None:
    by = {encoding: corpus.pictures / shot.file for encoding, shot in shots(corpus).items()}
    assert b"Adobe" in by["cmyk"].read_bytes()[:400]
    assert by["png16"].read_bytes()[24:26] == b"\x10\x02"  # depth 16, colour type 2
    assert by["grey16"].read_bytes()[24:26] == b"\x10\x00"
    with Image.open(by["progressive"]) as file:
        assert file.info["progressive"]
    with Image.open(by["palette"]) as file:
        assert file.mode == "P"
    with Image.open(by["webp alpha"]) as file:
        assert file.mode == "RGBA"
    for turn in range(1, 9):
        with Image.open(by[f"turned {turn}"]) as file:
            assert file.getexif()[ORIENTATION] == turn


def test_no_two_pictures_are_alike() -> None:
    small = [photograph(number).resize((16, 16)).tobytes() for number in range(60)]
    for one in range(60):
        for other in range(one):
            gap = sum(abs(a - b) for a, b in zip(small[one], small[other], strict=True))
            assert gap / len(small[one]) > 6, (one, other)


def test_the_bomb_is_a_whole_png_of_nine_hundred_megapixels(tmp_path: Path) -> None:
    path = tmp_path / "bomb.png"
    BAD_PICTURES["bomb"](path)
    assert path.stat().st_size < 1_000_000
    assert path.read_bytes().endswith(chunk(b"IEND", b""))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with pytest.raises(Image.DecompressionBombError, match=str(BOMB_SIDE**2)):
            Image.open(path)
