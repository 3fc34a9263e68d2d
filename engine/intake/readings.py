"""How a name is read: as a title that a person wrote, or as a file that a program named.

A name can be read in several ways ('012 - Tide' with its number or without); each way
notes what it set aside, since a match that sets nothing aside is the surer one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import PurePath
from typing import NamedTuple
from urllib.parse import unquote

from engine.intake.pictures import SUFFIXES
from engine.intake.titles import ARTICLES, article_first, fold, word_set, words_of


class Reading(NamedTuple):
    """One way to read a name."""

    words: tuple[str, ...]
    """Its words in order, without a leading article; numerals and number words as digits."""
    article: str
    notes: frozenset[str]
    """Words of region, language, revision and scanning, which are not the title."""
    years: frozenset[str]
    """Years in brackets."""
    aside: float
    """How much was set aside to read it so, 0 for nothing."""

    @property
    def joined(self) -> str:
        """The words without spaces, as some programs write them."""
        return "".join(self.words)

    @property
    def numbers(self) -> tuple[int, ...]:
        """Its numbers in rising order: names whose numbers differ are different games."""
        return tuple(sorted(int(word) for word in self.words if word.isdecimal()))


NUMBERING = 0.03
"""Set aside: a number at the head of a file name that counts files."""

REVISION = 0.02
"""Set aside: a version or revision outside brackets."""
TAIL = 0.04
"""Set aside: words of region or scanning at the end, outside brackets."""
FOLDER = 0.05
"""Set aside: the file's own name, for its folder's."""

_REGIONS = word_set(
    "usa us europe eu eur euro japan jp jpn world uk france germany spain italy australia "
    "korea china brazil canada asia sweden netherlands pal ntsc "
    "english french german spanish italian dutch japanese multi"
)
_LANGUAGES = word_set("en fr de es it nl pt sv no da fi ja ko zh pl ru")
_REVISIONS = word_set(
    "rev revision ver version v beta proto prototype demo sample final alt alternate "
    "unlicensed unl reprint disc disk cart side"
)
_SCANS = word_set("cover covers front back box boxart art artwork scan scanned label hq lq copy")
_IN_BRACKETS = _REGIONS | _LANGUAGES | _REVISIONS | _SCANS
_AT_THE_END = _REGIONS | _SCANS

_BRACKETS = re.compile(r"[(\[{]([^()\[\]{}]*)[)\]}]")
_YEAR = re.compile(r"^(19|20)\d\d$")
_MEASURES = re.compile(r"\b\d{2,5}\s?[x×]\s?\d{2,5}\b|\b\d+\s?(?:dpi|ppi|px)\b", re.IGNORECASE)
_VERSION = re.compile(
    r"\bv(?:er(?:sion)?)?[. ]?\d+(?:\.\d+)+\b|\brev(?:ision)?[. ]?[a-z0-9]\b", re.I
)
_HEAD = re.compile(r"^\s*#?(?P<number>\d{1,4})(?P<sign>\s*[-–—.):_]+\s*|\s+)(?=\S)")
_CAMEL = re.compile(r"(?<=[a-zß-ÿ])(?=[A-ZÀ-Þ])")
_ROMAN = re.compile(r"^(x{0,3})(ix|iv|v?i{0,3})$")
_COUNTED = "one two three four five six seven eight nine ten eleven twelve"
_NUMBER_WORDS = {word: str(number) for number, word in enumerate(_COUNTED.split(), start=1)}


def read_title(title: str) -> list[Reading]:
    """Return the ways to read a title of a list, the plainest first."""
    return _ways(title, counted=False)


def read_file(name: str, *, counted: bool) -> list[Reading]:
    """Return the ways to read a file's name, the plainest first.

    ``counted`` says that the files beside it are numbered. A file that says only 'cover'
    or '3' is read by its folder's name as well.
    """
    path = PurePath(name)
    stem = path.stem if path.suffix.lower() in SUFFIXES else path.name
    ways = _ways(_unwrapped(stem), counted=counted)
    ways += [short for way in ways if (short := _without_tail(way))]
    if path.parent.name and not any(_says_something(way) for way in ways):
        ways += [
            _less_sure(way, FOLDER) for way in _ways(_unwrapped(path.parent.name), counted=False)
        ]
    return ways


def are_counted(files: Sequence[str]) -> bool:
    """Return whether a set of files is numbered: most begin with a number of their own."""
    heads = [found["number"] for found in map(_HEAD.match, _stems(files)) if found]
    return len(heads) >= 3 and 2 * len(heads) > len(files) and 5 * len(set(heads)) > 4 * len(heads)


def _stems(files: Sequence[str]) -> Iterator[str]:
    return (PurePath(name).stem for name in files)


def _unwrapped(stem: str) -> str:
    """Return a file's stem with its spaces back."""
    name = unquote(stem) if re.search(r"%[0-9A-Fa-f]{2}", stem) else stem
    if " " not in name:
        name = re.sub(r"(?<=\w)\+(?=\w)", " ", name)
        name = name.replace("_", " ")
        if " " not in name:
            name = re.sub(r"(?<=\w)[.](?=\w)", " ", name)
    return _MEASURES.sub(" ", name)


def _ways(name: str, *, counted: bool) -> list[Reading]:
    names = [(name, 0.0)]
    if _VERSION.search(name):
        names.append((_VERSION.sub(" ", name), REVISION))
    for text, aside in list(names):
        head = _HEAD.match(text)
        if head and (counted or head["number"].startswith("0") or head["sign"].strip()):
            names.append((text[head.end() :], aside + NUMBERING))
    readings = [_read(text, aside) for text, aside in names]
    return [reading for reading in readings if reading.words]


def _read(name: str, aside: float) -> Reading:
    notes: set[str] = set()
    years: set[str] = set()

    def sort_out(bracket: re.Match[str]) -> str:
        words = words_of(fold(bracket[1]))
        if len(words) == 1 and _YEAR.match(words[0]):
            years.update(words)
        elif _is_note(words):
            notes.update(words)
        else:
            return f" {bracket[1]} "
        return " "

    text = _BRACKETS.sub(sort_out, _CAMEL.sub(" ", name))
    words = words_of(article_first(fold(text)))
    article, words = _article_off(words)
    return Reading(tuple(_digits(words)), article, frozenset(notes), frozenset(years), aside)


def _is_note(words: list[str]) -> bool:
    """Return whether a bracket tells of the copy or the scan, not of the game."""
    if any(word in _IN_BRACKETS for word in words):
        return all(word in _IN_BRACKETS or len(word) < 2 or word.isdecimal() for word in words)
    return all(len(word) < 2 and not word.isdecimal() for word in words[:1])


def _article_off(words: list[str]) -> tuple[str, list[str]]:
    if len(words) > 1 and words[0] in ARTICLES:
        return words[0], words[1:]
    if len(words) > 1 and words[-1] == "the":  # 'harbour_the': the comma is often lost
        return words[-1], words[:-1]
    return "", words


def _digits(words: list[str]) -> Iterator[str]:
    """Yield the words with numerals as digits; a numeral is never the first word ('X', 'I dig')."""
    for place, word in enumerate(words):
        if word.isdecimal():
            yield str(int(word))
        elif place and (value := _roman(word)):
            yield str(value)
        else:
            yield _NUMBER_WORDS.get(word, word)


def _roman(word: str) -> int:
    """Return the value of a Roman numeral up to 39, the range of sequels; 0 if it is none."""
    found = _ROMAN.match(word)
    if found is None:
        return 0
    units = {
        "": 0,
        "i": 1,
        "ii": 2,
        "iii": 3,
        "iv": 4,
        "v": 5,
        "vi": 6,
        "vii": 7,
        "viii": 8,
        "ix": 9,
    }
    return 10 * len(found[1]) + units[found[2]]


def _without_tail(way: Reading) -> Reading | None:
    """Return the reading without words of region or scanning at its end, if it has any."""
    words = way.words
    while len(words) > 1 and words[-1] in _AT_THE_END:
        words = words[:-1]
    if words == way.words:
        return None
    tail = frozenset(way.words[len(words) :])
    return way._replace(words=words, notes=way.notes | tail, aside=way.aside + TAIL)


def _says_something(way: Reading) -> bool:
    return not all(word.isdecimal() or word in _SCANS for word in way.words)


def _less_sure(way: Reading, by: float) -> Reading:
    return way._replace(aside=way.aside + by)
