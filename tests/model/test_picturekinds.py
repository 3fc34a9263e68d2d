"""One list of picture kinds: what it says is what is opened, taken in and written in the docs."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path, PurePath

import pytest
from PIL import Image

from engine.artwork import open_picture
from engine.intake import find_pictures
from engine.model.errors import PictureError
from engine.model.picturekinds import KINDS_IN_WORDS, PICTURE_KINDS, PictureKind, promises_picture

DOCS = Path(__file__).resolve().parents[2] / "docs"

SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"><rect width="2" height="1"/></svg>'
)


def content(kind: PictureKind) -> bytes:
    if kind.name == "SVG":
        return SVG
    file = BytesIO()
    Image.new("RGB", (30, 20), "#204080").save(file, kind.pillow or kind.name)
    return file.getvalue()


@pytest.mark.parametrize("kind", PICTURE_KINDS, ids=lambda kind: kind.name)
def test_what_is_taken_in_is_opened_whatever_it_is_called(
    tmp_path: Path, kind: PictureKind
) -> None:
    for other in PICTURE_KINDS:
        for suffix in other.suffixes:
            (tmp_path / f"as{suffix.upper()}").write_bytes(content(kind))
    found = find_pictures(tmp_path)
    assert len(found) == sum(len(other.suffixes) for other in PICTURE_KINDS)
    assert len({open_picture(path).size for path in found}) == 1


@pytest.mark.parametrize("suffix", [".jp2", ".tga", ".ppm", ".pnm", ".psd", ".txt", ""])
def test_what_is_not_opened_is_not_taken_in(suffix: str) -> None:
    assert not promises_picture(PurePath(f"tide{suffix}"))


@pytest.mark.parametrize("pillow", ["JPEG2000", "TGA", "PPM", "ICO"])
def test_what_is_of_no_kind_is_refused_by_its_content(tmp_path: Path, pillow: str) -> None:
    """Pillow could open these: their decoders are left shut."""
    path = tmp_path / "tide.png"
    Image.new("RGB", (30, 20)).save(path, pillow)
    with pytest.raises(PictureError) as caught:
        open_picture(path)
    assert str(caught.value).endswith(f"Save it as {KINDS_IN_WORDS}.")


def test_a_picture_that_speaks_of_pdf_is_a_picture(tmp_path: Path) -> None:
    """Readers look for a PDF's header anywhere in the first 1024 bytes (ISO 32000-1, annex H)."""
    path = tmp_path / "tide.jpg"
    Image.new("RGB", (30, 20)).save(path, comment=b"%PDF-1.7 <svg")
    assert b"%PDF-" in path.read_bytes()[:1024]
    assert open_picture(path).size == (30, 20)


def test_the_docs_have_the_list() -> None:
    text = (DOCS / "artwork.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (.+) \| (\.\S.*) \| (.+) \| (.+) \|$", text, re.MULTILINE)
    assert rows == [
        (
            kind.name,
            " ".join(kind.suffixes),
            kind.opener,
            f"{kind.most_pixels // 1_000_000} million pixels" if kind.most_pixels else "-",
        )
        for kind in PICTURE_KINDS
    ]
