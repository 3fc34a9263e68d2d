"""The cheap ones of the hostile files; ``python -m tests.bench.hostile`` goes through them all."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.artwork import inspect, page_pixels
from engine.model.errors import CollectionError, ListError, PictureError
from tests.corpus.hostile import LISTS, PICTURES, page, scans, stream, write

CHEAP = {
    "pages within each other": "is a PDF that is damaged",
    "strip of a page": "too slender for any panel",
    "one pixel wide": "too slender for any panel",
    "two pixels high": "too slender for any panel",
    "one pixel wide, tall JPEG": "too slender for any panel",
    "900 million pixels": "too large to open safely",
    "entities that multiply": "is a drawing that is damaged",
}
"""By what is wrong with them, what is said."""


@pytest.mark.parametrize("what", CHEAP)
def test_a_hostile_picture_costs_a_sentence(what: str, tmp_path: Path) -> None:
    (path,) = write(tmp_path, {what: PICTURES[what]}).values()
    with pytest.raises(PictureError, match=CHEAP[what]):
        inspect(path, path.name)


def test_a_picture_of_one_pixel_is_a_picture(tmp_path: Path) -> None:
    (path,) = write(tmp_path, {"one pixel": PICTURES["one pixel"]}).values()
    assert inspect(path, path.name).width == 1


def test_a_jpeg_that_goes_over_its_picture_again_and_again(tmp_path: Path) -> None:
    path = tmp_path / "scans.jpg"
    path.write_bytes(scans(side=64, times=300))
    with pytest.raises(PictureError, match="goes over its picture more often"):
        inspect(path, path.name)


def test_a_list_of_three_million_columns_costs_a_sentence(tmp_path: Path) -> None:
    from engine.intake.lists import read_list

    path = tmp_path / "list.csv"
    path.write_bytes(LISTS["three million columns"].make()[:20_000])
    with pytest.raises(ListError, match="columns"):
        read_list(path)


def test_a_page_too_large_to_be_drawn_says_how_fine_it_may_be() -> None:
    a4 = page(stream(b"0 0 1 1 re f"), size=b"595 842")
    with pytest.raises(CollectionError, match="Ask for 643 at most"):
        page_pixels(a4, 0, 1200)  # 40 million pixels on 8.26 by 11.69 inches
    assert page_pixels(a4, 0, 36).size == (298, 421)
