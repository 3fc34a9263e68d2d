"""How a name is read: as a title that a person wrote, or as a file that a program named.

A name can be read in several ways ('012 - Tide' with its number or without); each way
tells how much it set aside, since a match that sets nothing aside is the surer one.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence
from enum import IntEnum
from functools import lru_cache
from pathlib import PurePath
from typing import NamedTuple
from urllib.parse import unquote

from engine.intake.numerals import in_digits, read_elsewhere, without_ordinals
from engine.intake.remarks import (
    DOUBTFUL,
    SURE_TAILS,
    TAILS,
    is_remark,
    part_of,
    says_only_scan,
    tails_of,
)
from engine.intake.scripts import in_latin, is_foreign, sounds
from engine.intake.titles import ARTICLES, article_first, fold, words_of
from engine.model.picturekinds import promises_picture


class Heard(IntEnum):
    """Whether words stand as they are written, or as they sound."""

    WRITTEN = 0
    LATIN = 1
    """They are Latin, to be compared with those of another script."""
    FOREIGN = 2


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
    heard: Heard = Heard.WRITTEN

    @property
    def joined(self) -> str:
        """The words without spaces, as some programs write them."""
        return "".join(self.words)

    @property
    def elided(self) -> str:
        """The same with an article that is written together with its word."""
        return self.article + self.joined if self.article == "l" else self.joined

    @property
    def keys(self) -> set[str]:
        """What one looks it up by; a name that has one of them in common is the same or like it."""
        sign = "~" if self.heard else ""
        together = self.joined
        return {
            sign + spelt
            for spelt in (together, " ".join(sorted(self.words)), self.elided, plainly(together))
        }

    @property
    def numbers(self) -> tuple[int, ...]:
        """Its numbers in rising order: names whose numbers differ are different games."""
        return _numbers(self.words)


def plainly(letters: str) -> str:
    """Return letters without the second that stands for a mark on the first: 'ue' for 'ü'."""
    return _TWO_LETTERS.sub(r"\1", letters)


@lru_cache(maxsize=1 << 16)
def _numbers(words: tuple[str, ...]) -> tuple[int, ...]:
    return tuple(sorted(int(word) for word in words if word.isdecimal()))


class Habits(NamedTuple):
    """What the names of a set of files have in common."""

    counted: bool = False
    """Most begin with a number of their own."""
    tails: frozenset[str] = SURE_TAILS
    """Words at the end that are remarks here."""
    foreign: bool = False
    """Some titles are in another script than Latin."""


NUMBERING = 0.03
"""Set aside: a number at the head of a name that counts files."""
REVISION = 0.02
"""Set aside: a version, a revision or a size in pixels outside brackets."""
YEAR = 0.02
"""Set aside: that a year stands in brackets."""
TAIL = 0.04
"""Set aside: words of region, scanning or role at the end, outside brackets."""
DOUBTFUL_TAIL = 0.2
"""The same for words that may belong to the title."""
FOLDER = 0.05
"""Set aside: the file's own name, for its folder's."""
TWICE = 0.06
"""Set aside: '(1)' at the end, as a file that was fetched twice is called."""
ELSEWHERE = 0.03
"""Set aside: that numbers are in words of another language than English."""
SOUND = 0.05
"""Set aside: how another script is written."""
LAST = 0.08
"""Set aside: that the article stands last, though no comma says so."""

_SHORT = {
    "vol": "volume",
    "pt": "part",
    "ep": "episode",
    "vs": "versus",
    "n": "and",
    "mr": "mister",
    "mrs": "missus",
    "dr": "doctor",
    "st": "saint",
    "mt": "mount",
}
_LAST = ARTICLES - {"a", "an", "as", "o", "os", "um", "l", "des", "un"}
"""Articles at the end of names that lost their comma: the others end titles ('Plan A')."""
_TWICE = re.compile(r"\s*[(\[]1[)\]]\s*$")
_BRACKETS = re.compile(r"[(\[{]([^()\[\]{}]*)[)\]}]")
_YEAR = re.compile(r"^(19|20)\d\d$")
_REVISIONS = re.compile(
    r"\bv(?:er(?:sion)?)?[. ]?\d+(?:\.\d+)+\b"
    r"|\brev(?:ision)?[. ]?[a-z0-9]\b"
    r"|\b\d{2,5}\s?[x×]\s?\d{2,5}\b|\b\d+\s?(?:dpi|ppi|px)\b",
    re.IGNORECASE,
)
_HEAD = re.compile(r"^\s*[#(\[]?(?P<number>\d{1,5})(?P<sign>\s*[-–—.):_\]]+\s*|\s+)(?=\S)")
_TWO_LETTERS = re.compile(r"([aou])e|a(?=a)")
_CAMEL = re.compile(r"(?<=[a-zß-ÿ])(?=[A-ZÀ-Þ])")
_BEFORE_TAIL = re.compile(
    rf",\s*(?P<article>{'|'.join(sorted(ARTICLES))})\s+(?=(?:(?:{'|'.join(sorted(TAILS))})\s*)+$)"
)
"""An article that was moved to the end, where words of scanning stand behind it."""


def read_title(title: str, *, foreign: bool = False) -> list[NameReading]:
    """Return the ways to read a title of a list, the plainest first.

    ``foreign`` says that some files are named in another script than Latin.
    """
    ways = _ways(title, counted=False)
    return ways + [heard for way in ways if (heard := _heard(way, title, foreign=foreign))]


def read_file(name: str, habits: Habits = Habits()) -> list[NameReading]:  # noqa: B008 - a constant
    """Return the ways to read a file's name, the plainest first.

    A file that says only 'cover' or '3' is read by its folder's name as well; one that lies in
    a folder of backs is of a back.
    """
    path = PurePath(name)
    ways = [way for stem in _spaced(_stem(path)) for way in _ways(stem, counted=habits.counted)]
    ways += [short for way in ways for short in _without_tail(way, habits.tails)]
    ways += [moved for way in ways if (moved := _article_last(way))]
    folder = words_of(fold(_spaced(path.parent.name)[0])) if path.parent.name else []
    if folder and all(says_only_scan(way.words) for way in ways):
        said = frozenset(word for way in ways for word in way.words)
        outer = _ways(_spaced(path.parent.name)[0], counted=habits.counted)
        ways += [
            way._replace(remarks=way.remarks | said, aside=way.aside + FOLDER) for way in outer
        ]
    elif folder and says_only_scan(folder):
        ways = [way._replace(remarks=way.remarks | frozenset(folder)) for way in ways]
    return ways + [heard for way in ways if (heard := _heard(way, name, foreign=habits.foreign))]


def habits_of(files: Sequence[str], *, foreign: bool = False) -> Habits:
    """Return what most of ``files`` have in common; two are too few to tell.

    ``foreign`` says that some titles are in another script than Latin.
    """
    stems = [_spaced(_stem(PurePath(name)))[0] for name in files]
    heads = [found["number"] for found in map(_HEAD.match, stems) if found]
    ends = Counter(words[-1] for words in (words_of(fold(stem)) for stem in stems) if words)
    most = max(2, len(files) // 2)
    return Habits(
        counted=len(heads) > most and 5 * len(set(heads)) > 4 * len(heads),
        tails=SURE_TAILS | {word for word in TAILS if ends[word] > most},
        foreign=foreign,
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
    if _TWICE.search(name):
        names.append((_TWICE.sub("", name), TWICE))
    if _REVISIONS.search(name):
        names.append((_REVISIONS.sub(" ", name), REVISION))
    for text, aside in list(names):
        head = _HEAD.match(text)
        if head and (counted or head["number"].startswith("0") or head["sign"].strip()):
            names.append((text[head.end() :], aside + NUMBERING))
    ways = [way for text, aside in names for way in _read(text, aside)]
    ways += [_with_years(way) for way in ways if way.years]
    return [way for way in ways if way.words]


def _read(name: str, aside: float) -> list[NameReading]:
    """Return a name as it is read, and so with its numbers in another language."""
    remarks: set[str] = set()
    years: set[str] = set()
    parts: list[str] = []
    articles: list[str] = []

    def sort_out(bracket: re.Match[str]) -> str:
        words = words_of(fold(bracket[1]))
        if len(words) == 1 and _YEAR.match(words[0]):
            years.update(words)
        elif len(words) == 1 and words[0] in _LAST:
            articles.append(words[0])
        elif is_remark(words):
            remarks.update(words)
            parts.append(part_of(words))
        else:
            return f" {bracket[1]} "
        return " "

    text = _BRACKETS.sub(sort_out, _CAMEL.sub(" ", name))
    plain = NameReading(
        _worded(text),
        remarks=frozenset(remarks),
        years=frozenset(years),
        part=next(filter(None, parts), ""),
        aside=aside,
    )
    ways = [plain]
    if digits := read_elsewhere(words_of(unicodedata.normalize("NFKC", text).casefold())):
        ways.append(plain._replace(words=_worded(digits), aside=aside + ELSEWHERE))
    return [_finished(way, next(iter(articles), "")) for way in ways]


def _worded(text: str) -> tuple[str, ...]:
    """Return the folded words of a text in order, an article that was moved at their head."""
    folded = _BEFORE_TAIL.sub(r", \g<article> - ", without_ordinals(fold(text)))
    return tuple(words_of(article_first(folded)))


def _finished(way: NameReading, bracketed: str) -> NameReading:
    """Return a reading with its article apart, numbers in digits and short forms in full."""
    article, words = bracketed, way.words
    if not article and len(words) > 1 and words[0] in ARTICLES:
        article, words = words[0], words[1:]
    elif not article and len(words) > 1 and words[-1] == "the":  # the comma is often lost
        article, words = words[-1], words[:-1]
    full = tuple(in_digits([_SHORT.get(word, word) for word in words]))
    return way._replace(article=article, words=full)


def _article_last(way: NameReading) -> NameReading | None:
    """Return the reading with its last word for its article, if it may be one."""
    words = way.words
    if way.article or len(words) < 2 or words[-1] not in _LAST:
        return None
    aside = way.aside + (LAST if words[-1] != "the" else 0.0)
    return way._replace(article=words[-1], words=words[:-1], aside=aside)


def _with_years(way: NameReading) -> NameReading:
    """Return the reading with its years as words, as other names have them."""
    years = tuple(sorted(way.years))
    return way._replace(words=way.words + years, years=frozenset(), aside=way.aside + YEAR)


def _without_tail(way: NameReading, tails: frozenset[str]) -> Iterator[NameReading]:
    """Yield the reading without words of region, scanning or role at its end, if it has any."""
    for length in tails_of(way.words):
        words, tail = way.words[:-length], frozenset(way.words[-length:])
        known = tail <= tails or (len(words) > 1 and tail.isdisjoint(DOUBTFUL - tails))
        aside = way.aside + (TAIL if known else DOUBTFUL_TAIL)
        yield way._replace(words=words, remarks=way.remarks | tail, aside=aside)


def _heard(way: NameReading, name: str, *, foreign: bool) -> NameReading | None:
    """Return the reading as it sounds, where it may have to be compared across scripts."""
    if is_foreign(name):
        words = sounds([fold(word) for word in in_latin(way.words)])
        return way._replace(words=words, aside=way.aside + SOUND, heard=Heard.FOREIGN)
    return way._replace(words=sounds(way.words), heard=Heard.LATIN) if foreign else None
