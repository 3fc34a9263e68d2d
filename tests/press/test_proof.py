from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from engine.artwork import page_pixels
from engine.model.errors import CollectionError
from engine.press import insert_page, page_picture, proof
from tests.press.making import insert

MM = 25.4 / 72


def test_a_proof_is_the_page_of_its_insert(picture: Path) -> None:
    one = insert("snap-shell", "Tovarby Nights", picture)
    shown = Image.open(BytesIO(proof(one, 127)))
    page = PdfReader(BytesIO(insert_page(one))).pages[0]
    wide, high = float(page.mediabox.width) * MM, float(page.mediabox.height) * MM
    assert shown.format == "PNG"
    assert shown.size == pytest.approx((wide * 5, high * 5), abs=1)
    assert page.trimbox.width * MM == pytest.approx(one.net.size.width, abs=1e-3)
    assert page.bleedbox.height * MM == pytest.approx(one.net.size.height + 2, abs=1e-3)
    trim = [float(n) * MM for n in page.trimbox]
    edge = one.net.panel("long").rect
    at = (trim[0] + edge.x + edge.width - 0.3, high - trim[1] - 1.0)
    assert shown.getpixel((round(at[0] * 5), round(at[1] * 5))) == (0x20, 0x40, 0x60)


def test_the_picture_is_upright_and_not_mirrored(tmp_path: Path) -> None:
    # A quarter of each colour, told apart by corner: as read, red is upper left.
    quarters = Image.new("RGB", (800, 800))
    quarters.paste("#ff0000", (0, 0, 400, 400))
    quarters.paste("#00ff00", (400, 0, 800, 400))
    quarters.paste("#0000ff", (0, 400, 400, 800))
    quarters.paste("#ffff00", (400, 400, 800, 800))
    path = tmp_path / "quarters.png"
    quarters.save(path)
    one = insert("snap-shell", "Tovarby", path)
    page = PdfReader(BytesIO(insert_page(one))).pages[0]
    left, bottom = float(page.trimbox.left) * MM, float(page.trimbox.bottom) * MM
    high = float(page.mediabox.height) * MM
    panel = one.net.panel("back")
    assert panel.turn == 0
    shown = Image.open(BytesIO(proof(one, 127))).convert("RGB")

    def seen(across: float, up: float) -> tuple[int, ...]:
        x = left + panel.rect.x + across * panel.rect.width
        y = high - bottom - panel.rect.y - up * panel.rect.height
        return shown.getpixel((round(x * 5), round(y * 5)))  # type: ignore[return-value]

    assert seen(0.2, 0.8) == pytest.approx((255, 0, 0), abs=6)
    assert seen(0.8, 0.8) == pytest.approx((0, 255, 0), abs=6)
    assert seen(0.2, 0.2) == pytest.approx((0, 0, 255), abs=6)
    assert seen(0.8, 0.2) == pytest.approx((255, 255, 0), abs=6)


def test_a_page_is_shown_from_its_file_too(picture: Path, tmp_path: Path) -> None:
    pdf = insert_page(insert("snap-shell", "Tovarby", picture))
    path = tmp_path / "page.pdf"
    path.write_bytes(pdf)
    assert page_pixels(path).tobytes() == page_pixels(pdf).tobytes()
    assert Image.open(BytesIO(page_picture(path, 60))).width == page_pixels(pdf, 0, 60).width


def test_a_page_that_cannot_be_shown_is_named(tmp_path: Path) -> None:
    with pytest.raises(CollectionError, match=r"gone\.pdf: this page cannot be shown"):
        page_pixels(tmp_path / "gone.pdf")
    with pytest.raises(CollectionError, match="cannot be shown"):
        page_pixels(b"no page at all")
