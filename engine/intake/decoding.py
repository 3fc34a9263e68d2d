"""The text of a list, whatever it was saved as."""

from __future__ import annotations

import codecs
import re
from typing import NamedTuple

from engine.model.errors import ListError


class Decoded(NamedTuple):
    """A list's text and how it was understood."""

    text: str
    guess: str
    """The encoding, in words, where it had to be guessed; empty where the file is clear."""
    encoding: str
    """The encoding, guessed or not."""


_BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
"""Byte order marks (the Unicode Standard, 23.8). UTF-32's begins with UTF-16's, so it is first."""

_KNOWN = (
    (b"PK\x03\x04", "a spreadsheet or an archive"),
    (b"\xd0\xcf\x11\xe0", "an old spreadsheet or document"),
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"RIFF", "a picture or a sound"),
    (b"{\\rtf", "a formatted document"),
    (b"\x1f\x8b", "a packed file"),
    (b"SQLite format 3\0", "a database"),
)
"""How files that are no lists begin, each by its own format's specification."""

_CONTROLS = re.compile("[\0-\x08\x0e-\x1a\x1c-\x1f\x7f-\x9f]")
_FEW = 0.3
"""Above this part of letters outside ASCII a text in an 8-bit code is likely not Western."""

_ZEROS = 0.4
"""Of Western text in UTF-16 half the bytes are zero."""


def decode(data: bytes, where: str) -> Decoded:
    """Return the text of ``data``; ``where`` names the file.

    A byte order mark decides; else UTF-16 is known by its zero bytes, UTF-8 by being
    valid; what is left is Windows-1252, or what its letters make likelier. Raises
    ListError if it is no text.
    """
    for start, kind in _KNOWN:
        if data.startswith(start):
            raise ListError(where, f"this is {kind}, not a list", "Save the list as CSV or text")
    data = data.rstrip(b"\x1a")  # the end-of-file mark of old systems
    for bom, encoding in _BOMS:
        if data.startswith(bom):
            name = encoding.removesuffix("-sig").upper()
            return _checked(_strict(data, encoding, where), "", where, name)
    if b"\0" in data:
        return _checked(_without_bom(data, where), "UTF-16", where)
    try:
        return _checked(data.decode("utf-8"), "", where, "UTF-8")
    except UnicodeDecodeError:
        return _eight_bit(data, where)


def _strict(data: bytes, encoding: str, where: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        name = encoding.removesuffix("-sig").upper()
        raise ListError(
            where,
            f"it says it is {name} and is not, from byte {error.start + 1} on",
            "Save the list again as UTF-8",
        ) from error


def _without_bom(data: bytes, where: str) -> str:
    """Return UTF-16 text without its mark: in the right order, line ends and commas show."""
    texts = []
    for encoding in ("utf-16-le", "utf-16-be"):
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if not _CONTROLS.search(text):
            texts.append(text)
    text = max(texts, key=_signs, default="")
    if not text or (not _signs(text) and data.count(0) < _ZEROS * len(data)):
        raise _junk(where)
    return text


def _signs(text: str) -> int:
    return sum(text.count(sign) for sign in "\n\r ,;\t")


def _eight_bit(data: bytes, where: str) -> Decoded:
    high = sum(byte >= 0x80 for byte in data)
    letters = high + sum(chr(byte).isalpha() for byte in data if byte < 0x80)
    if high <= _FEW * letters:
        try:
            return _checked(data.decode("cp1252"), "Windows-1252", where)
        except (UnicodeDecodeError, ListError):
            pass  # bytes that Windows-1252 leaves undefined: another code, or no text
    from charset_normalizer import from_bytes

    best = from_bytes(data).best()
    if best is None:
        raise _junk(where)
    return _checked(str(best), best.encoding.replace("_", "-"), where)


def _checked(text: str, guess: str, where: str, encoding: str = "") -> Decoded:
    if _CONTROLS.search(text):
        raise _junk(where)
    return Decoded(text.removeprefix("\ufeff"), guess, encoding or guess)


def _junk(where: str) -> ListError:
    return ListError(where, "this is no text", "Save the list as CSV or text, in UTF-8")
