"""The index of a shelf: pages by letter, and a table that spreadsheets take for no formula."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO
from pathlib import Path

import pdfplumber
import pytest
from coloraide import Color
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from engine import InputError, Workshop
from engine.model.stocks import STOCKS
from engine.shelf.index import Entry, Letter, as_csv, letters, numbered, paged, pages_by_letter
from engine.shelf.indexpages import Sheetful, draw_index, pages_of

A5 = STOCKS["a5-card"]


def entry(letter: str, n: int, title: str = "") -> Entry:
    return Entry(
        f"{letter}{n}", title or f"{letter}{letter.lower()} Tide {n}", letter, f"Hall, {n}"
    )


ENTRIES = st.lists(st.integers(1, 9), min_size=1, max_size=8).map(
    lambda counts: [entry(chr(65 + n), i) for n, many in enumerate(counts) for i in range(many)]
)


@settings(max_examples=60)
@given(ENTRIES, st.integers(2, 12), st.integers(1, 3))
def test_every_title_is_on_one_page_in_order(
    entries: list[Entry], lines: int, columns: int
) -> None:
    pages = paged(letters(entries), lines, columns)
    rows = [row for page in pages for column in page for row in column]
    assert [row for row in rows if isinstance(row, Entry)] == entries
    assert all(len(column) <= lines for page in pages for column in page)
    assert not any(isinstance(column[-1], Letter) for page in pages for column in page)
    at = numbered(pages)
    assert all(
        pages_by_letter(pages)[letter.name] <= at[one.game]
        for letter in letters(entries)
        for one in letter.entries
    )


@pytest.mark.parametrize("first", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_is_taken_for_a_formula(first: str) -> None:
    """OWASP, 'CSV Injection': cells that begin with one of these are to get a quote before them."""
    title = f'{first}HYPERLINK("x")'
    text = as_csv([Entry("a", title, "", f"{first}1", 3)]).decode("utf-8-sig")
    head, row = list(csv.reader(StringIO(text, newline="")))
    assert head == ["letter", "title", "place", "page"]
    assert row == ["…", f"'{title}", f"'{first}1", "3"]


def test_a_page_says_what_it_is_to_say() -> None:
    """Read back by pdfplumber: the columns, the places at their ends, the letters by page."""
    entries = [entry(letter, n) for letter in "ABC" for n in range(30)]
    entries[0] = entry("A", 0, f"An Uncommonly Long{' and Very Long' * 9} Title")
    data = draw_index("Index of a shelf", entries, A5)
    pages = pages_of(entries, A5)
    with pdfplumber.open(BytesIO(data)) as document:
        assert len(document.pages) == len(pages) == 3
        first = document.pages[0]
        words = first.extract_words()
        text = first.extract_text()
        right = max(word["x1"] for word in words) / 72 * 25.4
        inks = {char["non_stroking_color"] for char in first.chars}
        inked = [Color("srgb", [one[n % len(one)] for n in range(3)]) for one in inks]
    assert "Page 1: A to B 2: C" in text
    assert "An Uncommonly Long" in text
    assert "Long Title" not in text
    assert right == pytest.approx(148 - 14, abs=0.5), "places end at the margin"
    assert Sheetful.of(A5).columns == 1
    # WCAG 2.2, 1.4.3: 4.5 to 1, for type of 8 points on white paper.
    assert all(ink.contrast("white", method="wcag21") >= 4.5 for ink in inked)


def test_an_index_in_scripts_that_the_usual_font_lacks() -> None:
    data = draw_index("Index", [entry("T", 1, "สวนผลไม้"), entry("T", 2, "Чайки")], A5)
    assert "Чайки" in PdfReader(BytesIO(data)).pages[0].extract_text()


def test_it_is_written_as_its_name_ends(stocked: Workshop, tmp_path: Path) -> None:
    report = stocked.index.write(tmp_path / "index.csv")
    assert [one.letter for one in report.entries] == ["L"] * 12
    assert (tmp_path / "index.csv").read_bytes().count(b"\r\n") == 13
    stocked.index.write(tmp_path / "index.pdf")
    assert (tmp_path / "index.pdf").read_bytes().startswith(b"%PDF")
    with pytest.raises(InputError, match="PDF or CSV"):
        stocked.index.write(tmp_path / "index.txt")
