"""Making a title shorter, one step after the other, each told and each to be left out again.

The steps are tried in a fixed order and as few are taken as it needs. A truncation comes last
and is never sure.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from enum import StrEnum
from unicodedata import category

from engine.model import Value

Dictionary = tuple[tuple[str, str], ...]
"""A person's own short forms: word, short form."""


class AbridgingWay(StrEnum):
    """A way of abridging, in the order in which they are tried."""

    SUBTITLE = "subtitle"
    ARTICLE = "article"
    DICTIONARY = "own short forms"
    NUMERALS = "roman numerals"
    AMPERSAND = "ampersand"
    ABBREVIATIONS = "usual short forms"
    TRUNCATION = "truncation"


class AbridgingStep(Value, frozen=True):
    """One step of abridging, as it was taken."""

    way: AbridgingWay
    before: str
    after: str

    @property
    def sure(self) -> bool:
        """Whether it can be taken unseen: a truncation never can."""
        return self.way is not AbridgingWay.TRUNCATION

    def __str__(self) -> str:
        """Return it as it is told to a person: ``ampersand: Salt and Moss became Salt & Moss``."""
        return f"{self.way}: {self.before} became {self.after}"


class Abridged(Value, frozen=True):
    """A title after some steps."""

    text: str
    steps: tuple[AbridgingStep, ...] = ()


CUT = "\u2026"
"""Stands for what a truncation leaves out."""

_GAP = re.compile(r"[^\S\u3000\u00a0]+")


def tidy(title: str) -> str:
    """Return a title on one line, single spaces between its words; wide spaces are kept."""
    if "\u3000" in title or "\u00a0" in title:
        return _GAP.sub(" ", title).strip()
    return " ".join(title.split())


def abridgements(title: str, dictionary: Dictionary = ()) -> tuple[Abridged, ...]:
    """Return the title itself, then what it becomes step by step, without the truncation.

    A way that changes nothing gives no step.
    """
    chain = [Abridged(tidy(title))]
    for way, shorten in _SHORTENERS.items():
        last = chain[-1]
        after = shorten(last.text, dictionary)
        if after and after != last.text:
            chain.append(Abridged(after, (*last.steps, AbridgingStep(way, last.text, after))))
    return tuple(chain)


def is_cut(title: Abridged) -> bool:
    """Return whether the last step was a truncation."""
    return bool(title.steps) and not title.steps[-1].sure


def truncations(abridged: Abridged) -> Iterator[Abridged]:
    """Yield ever shorter cuts of a title, at its end with an ellipsis, then in its middle.

    A cut in the middle keeps the last word: often a number tells two games of a series apart.
    """
    text = abridged.text
    for end in _ends(text):
        yield _cut(abridged, text[:end] + CUT)
    head, _, last = text.rpartition(" ")
    if head and len(last) <= _LAST_WORD:
        for end in _ends(head):
            yield _cut(abridged, f"{head[:end]}{CUT} {last}")


_TRAILING = " ,.:;-\u2013\u2014"
_LAST_WORD = 8
"""A last word of at most so many characters is worth keeping when the middle is cut."""
_LEAST_HEAD = 3


def _ends(text: str) -> Iterator[int]:
    """Yield where a text can be cut, longest first, never between a letter and its mark."""
    for end in range(len(text) - 1, _LEAST_HEAD - 1, -1):
        joined = category(text[end])[0] == "M" or "\u200d" in text[end - 1 : end + 1]
        if not joined and text[end - 1] not in _TRAILING:
            yield end


def _cut(abridged: Abridged, text: str) -> Abridged:
    return Abridged(
        text, (*abridged.steps, AbridgingStep(AbridgingWay.TRUNCATION, abridged.text, text))
    )


# --- The ways ---------------------------------------------------------------------------

_SUBTITLE = re.compile(r"\s*(?::\s|\s[-\u2013\u2014~]\s|\uff1a|\s?[\u301c\uff5e]).*")

_ARTICLES = re.compile(
    r"(?:(?:the|an?|der|das|eine?|les?|la|une?|el|los|las|il|lo|gli|het)\s+|l['\u2019])(?=\S)",
    re.IGNORECASE,
)
"""Initial articles of English, German, French, Spanish, Italian and Dutch, such as filing passes
over (ALA filing rules 1980, 4.2), less those that are words of another kind elsewhere: die, de,
as, o."""

_ANDS = re.compile(r"(?<=\S)\s+(?:[Aa]nd|AND|und|et|y)\s+(?=\S)")

_ROMAN = [
    "I",
    "II",
    "III",
    "IV",
    "V",
    "VI",
    "VII",
    "VIII",
    "IX",
    "X",
    "XI",
    "XII",
    "XIII",
    "XIV",
    "XV",
    "XVI",
    "XVII",
    "XVIII",
    "XIX",
    "XX",
]
_CARDINALS = [
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
]
_NUMBERS = dict(zip(_CARDINALS, _ROMAN, strict=True))
_NUMBERED = re.compile(
    rf"\b(part|chapter|episode|volume|book|act)\s+({'|'.join(_CARDINALS)})\b"
    r"|(?<!\bthe)(?<!\bof)(?<!\bfor)(?<!\blast)(?<!\bfirst)(?<!\band)(?<=\w)\s+(two|three|four)$",
    re.IGNORECASE,
)
"""A number word after what it counts, or, as of a sequel, at the end."""

_ABBREVIATIONS = {
    "volume": "Vol.",
    "part": "Pt.",
    "chapter": "Ch.",
    "episode": "Ep.",
    "number": "No.",
    "edition": "Ed.",
    "collection": "Coll.",
    "international": "Int.",
    "championship": "Champ.",
    "championships": "Champ.",
    "special": "Spec.",
    "department": "Dept.",
    "company": "Co.",
    "limited": "Ltd.",
    "doctor": "Dr.",
    "mister": "Mr.",
    "professor": "Prof.",
    "captain": "Capt.",
    "general": "Gen.",
    "lieutenant": "Lt.",
    "sergeant": "Sgt.",
    "saint": "St.",
    "mount": "Mt.",
    "junior": "Jr.",
    "senior": "Sr.",
    "versus": "vs.",
    "street": "St.",
    "avenue": "Ave.",
    "university": "Univ.",
    "association": "Assoc.",
    "magazine": "Mag.",
    "anniversary": "Anniv.",
    "adventure": "Adv.",
    "adventures": "Adv.",
    "simulator": "Sim.",
}
"""Usual English short forms, as desk dictionaries have them (from memory)."""


def _without_subtitle(text: str, _: Dictionary) -> str:
    return _SUBTITLE.sub("", text)


def _without_article(text: str, _: Dictionary) -> str:
    rest = _ARTICLES.sub("", text, count=1) if _ARTICLES.match(text) else text
    return rest[:1].upper() + rest[1:]


def _own_forms(text: str, dictionary: Dictionary) -> str:
    forms = {word.lower(): short for word, short in dictionary if word}
    if not forms:
        return text
    longest_first = "|".join(map(re.escape, sorted(forms, key=len, reverse=True)))
    words = re.compile(rf"(?<!\w)(?:{longest_first})(?!\w)", re.IGNORECASE)
    return " ".join(words.sub(lambda found: forms[found[0].lower()], text).split())


def _with_roman_numerals(text: str, _: Dictionary) -> str:
    def roman(found: re.Match[str]) -> str:
        word, number, last = found.groups()
        return f"{word} {_NUMBERS[number.lower()]}" if word else f" {_NUMBERS[last.lower()]}"

    return _NUMBERED.sub(roman, text)


def _with_ampersand(text: str, _: Dictionary) -> str:
    return _ANDS.sub(" & ", text)


def _with_abbreviations(text: str, _: Dictionary) -> str:
    def short(found: re.Match[str]) -> str:
        return _ABBREVIATIONS.get(found[0].lower(), found[0])

    return re.sub(r"[^\W\d_]+", short, text)


_SHORTENERS: dict[AbridgingWay, Callable[[str, Dictionary], str]] = {
    AbridgingWay.SUBTITLE: _without_subtitle,
    AbridgingWay.ARTICLE: _without_article,
    AbridgingWay.DICTIONARY: _own_forms,
    AbridgingWay.NUMERALS: _with_roman_numerals,
    AbridgingWay.AMPERSAND: _with_ampersand,
    AbridgingWay.ABBREVIATIONS: _with_abbreviations,
}
