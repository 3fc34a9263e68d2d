"""How a name is read: as a title that a person wrote, or as a file that a program named.

A name can be read in several ways ('012 - Tide' with its number or without); each way
tells how much it set aside, since a match that sets nothing aside is the surer one.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Sequence
from functools import lru_cache
from pathlib import PurePath
from typing import NamedTuple
from urllib.parse import unquote

from engine.intake.numerals import in_digits
from engine.intake.remarks import SURE_TAILS, TAILS, is_remark, part_of, says_only_scan
from engine.intake.titles import ARTICLES, article_first, fold, words_of
from engine.model.picturekinds import promises_picture


class NameReading(NamedTuple):
    """One way to read a name."""

    words: tuple[str, ...]
    """Its words in order, without a leading article; numbers in digits, short forms in full."""
    article: str = ""
    remarks: frozenset[str] = frozenset()
    """Words of region, language, revision and scanning."""
    years: frozenset[str] = frozenset()
    """Years in brackets."""
    part: str = ""
    """Which disc or side it names."""
    aside: float = 0.0
    """How much was set aside to read it so, 0 for nothing."""

    @property
    def joined(self) -> str:
        """The words without spaces, as some programs write them."""
        return "".join(self.words)

    @property
    def numbers(self) -> tuple[int, ...]:
        """Its numbers in rising order: names whose numbers differ are different games."""
        return _numbers(self.words)


@lru_cache(maxsize=1 << 16)
def _numbers(words: tuple[str, ...]) -> tuple[int, ...]:
    return tuple(sorted(int(word) for word in words if word.isdecimal()))


class Habits(NamedTuple):
    """What the names of a set of files have in common."""

    counted: bool = False
    """Most begin with a number of their own."""
    tails: frozenset[str] = SURE_TAILS
    """Words at the end that are remarks here."""


NUMBERING = 0.03
"""Set aside: a number at the head of a name that counts files."""
REVISION = 0.02
"""Set aside: a version, a revision or a size in pixels outside brackets."""
YEAR = 0.02
"""Set aside: that a year stands in brackets."""
TAIL = 0.04
"""Set aside: words of region or scanning at the end, outside brackets."""
DOUBTFUL_TAIL = 0.2
"""The same for words that may belong to the title."""
FOLDER = 0.05
"""Set aside: the file's own name, for its folder's."""

_SHORT = {"vol": "volume", "pt": "part", "ep": "episode", "vs": "versus"}
_BRACKETS = re.compile(r"[(\[{]([^()\[\]{}]*)[)\]}]")
_YEAR = re.compile(r"^(19|20)\d\d$")
_REVISIONS = re.compile(
    r"\bv(?:er(?:sion)?)?[. ]?\d+(?:\.\d+)+\b"
    r"|\brev(?:ision)?[. ]?[a-z0-9]\b"
    r"|\b\d{2,5}\s?[x×]\s?\d{2,5}\b|\b\d+\s?(?:dpi|ppi|px)\b",
    re.IGNORECASE,
)
_HEAD = re.compile(r"^\s*[#(\[]?(?P<number>\d{1,5})(?P<sign>\s*[-–—.):_\]]+\s*|\s+)(?=\S)")
_CAMEL = re.compile(r"(?<=[a-zß-ÿ])(?=[A-ZÀ-Þ])")


def read_title(title: str) -> list[NameReading]:
    """Return the ways to read a title of a list, the plainest first."""
    return _ways(title, counted=False)


def read_file(name: str, habits: Habits = Habits()) -> list[NameReading]:  # noqa: B008 - a constant
    """Return the ways to read a file's name, the plainest first.

    A file that says only 'cover' or '3' is read by its folder's name as well.
    """
    path = PurePath(name)
    ways = [way for stem in _spaced(_stem(path)) for way in _ways(stem, counted=habits.counted)]
    ways += [short for way in ways if (short := _without_tail(way, habits.tails))]
    if path.parent.name and all(says_only_scan(way.words) for way in ways):
        said = frozenset(word for way in ways for word in way.words)
        folder = _ways(_spaced(path.parent.name)[0], counted=habits.counted)
        ways += [
            way._replace(remarks=way.remarks | said, aside=way.aside + FOLDER) for way in folder
        ]
    return ways


def habits_of(files: Sequence[str]) -> Habits:
    """Return what most of ``files`` have in common; two are too few to tell."""
    stems = [_spaced(_stem(PurePath(name)))[0] for name in files]
    heads = [found["number"] for found in map(_HEAD.match, stems) if found]
    ends = Counter(words[-1] for words in (words_of(fold(stem)) for stem in stems) if words)
    most = max(2, len(files) // 2)
    return Habits(
        counted=len(heads) > most and 5 * len(set(heads)) > 4 * len(heads),
        tails=SURE_TAILS | {word for word in TAILS if ends[word] > most},
    )


def _stem(path: PurePath) -> str:
    return path.stem if promises_picture(path) else path.name


def _spaced(stem: str) -> list[str]:
    """Return a file's stem with its spaces back; twice where '+' may be one or a word."""
    name = unquote(stem) if re.search(r"%[0-9A-Fa-f]{2}", stem) else stem
    if " " not in name:
        name = name.replace("_", " ")
    if " " not in name:
        name = re.sub(r"(?<=\w)[.](?=\w)", " ", name)
    between = re.sub(r"(?<=\w)\+(?=\w)", " ", name)
    return [name] if " " in name or between == name else [between, name]


def _ways(name: str, *, counted: bool) -> list[NameReading]:
    names = [(unicodedata.normalize("NFC", name), 0.0)]
    if _REVISIONS.search(name):
        names.append((_REVISIONS.sub(" ", name), REVISION))
    for text, aside in list(names):
        head = _HEAD.match(text)
        if head and (counted or head["number"].startswith("0") or head["sign"].strip()):
            names.append((text[head.end() :], aside + NUMBERING))
    ways = [_read(text, aside) for text, aside in names]
    ways += [_with_years(way) for way in ways if way.years]
    return [way for way in ways if way.words]


def _read(name: str, aside: float) -> NameReading:
    remarks: set[str] = set()
    years: set[str] = set()
    parts: list[str] = []

    def sort_out(bracket: re.Match[str]) -> str:
        words = words_of(fold(bracket[1]))
        if len(words) == 1 and _YEAR.match(words[0]):
            years.update(words)
        elif is_remark(words):
            remarks.update(words)
            parts.append(part_of(words))
        else:
            return f" {bracket[1]} "
        return " "

    text = _BRACKETS.sub(sort_out, _CAMEL.sub(" ", name))
    article, words = _article_off(words_of(article_first(fold(text))))
    full = tuple(in_digits([_SHORT.get(word, word) for word in words]))
    part = next(filter(None, parts), "")
    return NameReading(full, article, frozenset(remarks), frozenset(years), part, aside)


def _article_off(words: list[str]) -> tuple[str, list[str]]:
    if len(words) > 1 and words[0] in ARTICLES:
        return words[0], words[1:]
    if len(words) > 1 and words[-1] == "the":  # 'harbour_the': the comma is often lost
        return words[-1], words[:-1]
    return "", words


def _with_years(way: NameReading) -> NameReading:
    """Return the reading with its years as words, as other names have them."""
    years = tuple(sorted(way.years))
    return way._replace(words=way.words + years, years=frozenset(), aside=way.aside + YEAR)


def _without_tail(way: NameReading, tails: frozenset[str]) -> NameReading | None:
    """Return the reading without words of region or scanning at its end, if it has any."""
    words = way.words
    while len(words) > 1 and words[-1] in TAILS:
        words = words[:-1]
    tail = frozenset(way.words[len(words) :])
    if not tail:
        return None
    aside = way.aside + (TAIL if tail <= tails else DOUBTFUL_TAIL)
    return way._replace(words=words, remarks=way.remarks | tail, aside=aside)
