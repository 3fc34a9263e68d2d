"""Encodings, against the standard library's codecs and the Unicode Standard's marks."""

from __future__ import annotations

import codecs
import gzip
import io
import zipfile
from random import Random

import hypothesis.strategies as st
import pytest
from hypothesis import given

from engine.intake.decoding import decode
from engine.model.errors import ListError

LIST = "title;maker\r\nÉbène – nuit;Ünder\r\nTide 2;Œuvre\r\n"


@pytest.mark.parametrize(
    ("encoding", "mark"),
    [
        ("utf-8", b""),
        ("utf-8", codecs.BOM_UTF8),
        ("utf-16-le", codecs.BOM_UTF16_LE),
        ("utf-16-be", codecs.BOM_UTF16_BE),
        ("utf-32-le", codecs.BOM_UTF32_LE),
        ("utf-32-be", codecs.BOM_UTF32_BE),
        ("utf-16-le", b""),
        ("utf-16-be", b""),
        ("cp1252", b""),
    ],
)
def test_the_text_comes_out_of_any_common_encoding(encoding: str, mark: bytes) -> None:
    assert decode(mark + LIST.encode(encoding), "list.csv").text == LIST


@pytest.mark.parametrize(
    ("encoding", "guess"),
    [
        ("utf-8", ""),
        ("utf-8-sig", ""),
        ("utf-16", ""),
        ("utf-16-be", "UTF-16"),
        ("cp1252", "Windows-1252"),
    ],
)
def test_a_guess_is_told(encoding: str, guess: str) -> None:
    assert decode(LIST.encode(encoding), "list.csv").guess == guess


RUSSIAN = "\n".join(
    ["Гавань", "Ночная гавань", "Прилив и отлив", "Маяк на скале", "Старый причал", "Белая лодка"]
)
JAPANESE = "\n".join(
    ["港の夜", "灯台と潮", "白い船", "古い桟橋", "海の音楽", "港町の冒険", "潮の満ち引き"]
)


@pytest.mark.parametrize(
    ("text", "encoding"), [(RUSSIAN, "cp1251"), (JAPANESE, "shift_jis"), (JAPANESE, "utf-16-le")]
)
def test_lists_that_are_not_western_are_told_from_western_ones(text: str, encoding: str) -> None:
    found = decode(text.encode(encoding), "list.txt")
    assert found.text == text
    assert found.guess


def archive() -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        # A fixed date: the tests' names must be the same in every process that runs them.
        archive.writestr(zipfile.ZipInfo("xl/workbook.xml"), "<workbook/>")
    return packed.getvalue()


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (archive(), "a spreadsheet or an archive"),
        (b"%PDF-1.7\n%\xe2\xe3", "a PDF"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "a picture"),
        (b"\xff\xd8\xff\xe0\0\x10JFIF", "a picture"),
        (gzip.compress(b"title", mtime=0), "a packed file"),
        (rb"{\rtf1\ansi title}", "a formatted document"),
    ],
    ids=["zip", "pdf", "png", "jpeg", "gzip", "rtf"],
)
def test_other_files_are_called_what_they_are(data: bytes, what: str) -> None:
    with pytest.raises(ListError) as told:
        decode(data, "list.csv")
    assert str(told.value) == (
        f"list.csv: this is {what}, not a list. Save the list as CSV or text."
    )


@pytest.mark.parametrize(
    "data",
    [
        bytes(range(256)) * 8,
        bytes(1000),
        b"title\n\x01\x02\x03\n",
        b"\x7fELF\x02\x01\x01" + bytes(64),
        b"title\0",
        bytes(byte for byte in Random(5).randbytes(3000) if byte >= 0x20 and byte != 0x7F),
    ],
    ids=["all bytes", "zeros", "controls", "program", "a stray zero", "noise"],
)
def test_junk_is_no_list(data: bytes) -> None:
    with pytest.raises(ListError, match=r"list\.csv: this is no text\. Save the list as CSV"):
        decode(data, "list.csv")


def test_a_file_that_breaks_its_own_promise_is_named() -> None:
    with pytest.raises(ListError, match="it says it is UTF-8 and is not, from byte 4 on"):
        decode(codecs.BOM_UTF8 + b"abc\xff", "list.csv")


def test_the_end_mark_of_old_systems_is_passed_over() -> None:
    assert decode(b"Tide\r\n\x1a", "list.txt").text == "Tide\r\n"


@given(st.binary(max_size=300))
def test_no_bytes_give_anything_but_a_text_or_a_sentence(data: bytes) -> None:
    try:
        said = decode(data, "list.csv").text
    except ListError as error:
        said = error.where
    assert "\0" not in said
