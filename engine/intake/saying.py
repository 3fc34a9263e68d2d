"""What a cover says: how surely its lettering names a title.

Lines that stand together and are about as large may be a title. One that says a title to the
letter, is as large as anything on the cover and stands alone is as sure as a file's name; small
print, letters that were misread, and more lettering of the same size take from that. The figures
are chosen so that what could be another game falls below the usual threshold (common practice, no
published source; the bench of drawn covers holds them).
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from engine.intake.numerals import in_digits
from engine.intake.readings import NameReading
from engine.intake.scripts import looks
from engine.intake.titles import fold, words_of
from engine.model.reading import Reading, TextLine

SMALL = 0.6
"""Lettering of less than this part of the largest on the cover may be a slogan or a maker."""
SMALLEST = 0.5
"""How sure is a title to the letter in the smallest print."""
MORE = 0.15
"""The most that lettering as large elsewhere on the cover takes."""
BESIDE = 0.5
"""The same where it stands so near that it may be the rest of the title."""
MISREAD = 0.8
"""The most where any letter differs: a slip of the reader, or another word."""
OTHER_NUMBER = 0.6
"""The most where the numbers differ: another of its series."""
LEAST = 0.6
"""What is said less surely is not said."""

_LONGEST = 5
"""Lines of a title."""
_AS_LARGE = 0.7
_SHORT = 4
"""Letters of a title that have to be read without a fault."""
_SLIPS = 0.8
"""Letters alike, below which it is another name."""
_AGAIN = 85.0
"""Letters alike in a hundred, for a line that says the title again."""
_LIKEST = 30
"""Titles that are looked at more closely."""


class Shown(NamedTuple):
    """A picture as far as it tells whose it is and what of it."""

    width: int
    height: int
    reading: Reading | None = None
    split: bool = False
    """It is a flat wrap with a spine."""
    dot: int = 0
    """As ``model.Picture.dot``."""
    content: str = ""
    """What files with the same bytes have in common."""


class _Line(NamedTuple):
    """A line of lettering; lengths are in heights of the picture, so that turned ones compare."""

    text: str
    letters: str
    """As titles are compared."""
    size: float
    """From the top of its letters to their foot."""
    left: float
    top: float
    right: float
    bottom: float
    upright: bool


class _Run(NamedTuple):
    """Lines that stand together, as a name to compare with titles."""

    letters: str
    numbers: tuple[int, ...]
    large: float
    """Its size as a part of the largest lettering, 0 to 1."""
    apart: tuple[str, ...]
    beside: tuple[str, ...]
    """Other lines that are about as large, far from it and near it."""


class Saying:
    """Titles, to be found in what covers say."""

    def __init__(self, titles: Sequence[Sequence[NameReading]]) -> None:
        """Look for titles, each given by the ways to read it."""
        self._forms = [_forms(ways) for ways in titles]
        self._having: dict[str, list[int]] = defaultdict(list)
        self._grams = [
            {gram for form, _ in forms for gram in _grams(form)} for forms in self._forms
        ]
        for title, grams in enumerate(self._grams):
            for gram in grams:
                self._having[gram].append(title)

    def said(self, shown: Shown) -> dict[int, float]:
        """Return the titles that a picture says, and how surely: ``LEAST`` to 1."""
        if shown.reading is None or not shown.reading.lines:
            return {}
        runs = list(_runs(shown.reading, shown.width / shown.height))
        found = Counter(
            title
            for gram in {gram for run in runs for gram in _grams(run.letters)}
            for title in self._having.get(gram, ())
        )
        shares = {title: count / len(self._grams[title]) for title, count in found.items()}
        likest = sorted(shares, key=lambda title: (-shares[title], title))[:_LIKEST]
        sure = {title: max(_sure(self._forms[title], run) for run in runs) for title in likest}
        return {title: score for title, score in sure.items() if score >= LEAST}


_Form = tuple[str, tuple[int, ...]]
"""The letters of a title, and its numbers."""


def _forms(ways: Sequence[NameReading]) -> tuple[_Form, ...]:
    """Return the ways in which a cover may say a title: with its article and without."""
    forms: dict[_Form, None] = {}
    for way in ways:
        if not way.heard:
            forms[looks(way.joined), way.numbers] = None
            forms[looks(way.article + way.joined), way.numbers] = None
    return tuple(forms)


def _grams(letters: str) -> set[str]:
    return {letters[at : at + 3] for at in range(max(1, len(letters) - 2))}


def _sure(forms: Sequence[_Form], run: _Run) -> float:
    """Return how surely a run of lines is a title, 0 to 1."""
    return max(_form_sure(letters, numbers, run) for letters, numbers in forms)


def _form_sure(letters: str, numbers: tuple[int, ...], run: _Run) -> float:
    from rapidfuzz import fuzz

    alike = fuzz.ratio(letters, run.letters) / 100.0
    if alike < (1.0 if len(letters) <= _SHORT else _SLIPS):
        return 0.0
    size = SMALLEST + (1.0 - SMALLEST) * min(1.0, run.large / SMALL)
    alike = 1.0 if alike == 1.0 else min(alike, MISREAD)
    sure = alike * size * (1.0 - _taken(letters, run.apart, MORE))
    sure *= 1.0 - _taken(letters, run.beside, BESIDE)
    return sure if numbers == run.numbers else min(sure, OTHER_NUMBER)


def _taken(letters: str, others: Sequence[str], most: float) -> float:
    """Return what other lettering takes, by how long it is beside the title's own."""
    more = sum(_more(letters, other) for other in others)
    return most * more / (len(letters) + more)


def _more(letters: str, other: str) -> int:
    """Return how many letters a line has besides a title: wraps say theirs more than once."""
    from rapidfuzz import fuzz

    says = fuzz.partial_ratio(letters, other) >= _AGAIN
    return max(0, len(other) - len(letters)) if says else len(other)


def _runs(reading: Reading, aspect: float) -> Iterator[_Run]:
    """Yield the lines of a picture, one by one and together, as names."""
    lines = [_line(line, aspect) for line in reading.lines]
    largest = max(line.size for line in lines)
    seen: set[tuple[int, ...]] = set()
    for some in _in_order(lines):
        for first in range(len(some)):
            for count in range(1, _LONGEST + 1):
                chosen = some[first : first + count]
                key = tuple(map(id, chosen))
                if len(chosen) < count or key in seen or not _alike(chosen):
                    break
                seen.add(key)
                run = _run(chosen, lines, largest)
                if run.letters:
                    yield run


def _run(chosen: Sequence[_Line], lines: Sequence[_Line], largest: float) -> _Run:
    letters, numbers = _letters(" ".join(line.text for line in chosen))
    size = max(line.size for line in chosen)
    others = [
        line
        for line in lines
        if line.size >= _AS_LARGE * size and all(line is not one for one in chosen)
    ]
    fresh = [line for line in others if line.letters not in letters]
    near = [
        line
        for line in fresh
        if letters not in line.letters and any(_near(line, one) for one in chosen)
    ]
    return _Run(
        letters,
        numbers,
        size / largest,
        apart=tuple(line.letters for line in fresh if line not in near),
        beside=tuple(line.letters for line in near),
    )


def _letters(text: str) -> tuple[str, tuple[int, ...]]:
    words = tuple(in_digits(words_of(fold(text))))
    return looks("".join(words)), tuple(sorted(int(word) for word in words if word.isdecimal()))


def _line(line: TextLine, aspect: float) -> _Line:
    left, right = line.left * aspect, line.right * aspect
    size = right - left if line.upright else line.bottom - line.top
    letters, _ = _letters(line.text)
    return _Line(line.text, letters, size, left, line.top, right, line.bottom, line.upright)


def _in_order(lines: Sequence[_Line]) -> Iterator[list[_Line]]:
    """Yield lines as they are read: all that are level, the large ones alone, those upright."""
    level = _rows([(line, line) for line in lines if not line.upright])
    largest = max((line.size for line in level), default=0.0)
    yield level
    yield [line for line in level if line.size >= largest / 2]
    upright = [line for line in lines if line.upright]
    for read in (_downwards, _upwards):
        yield _rows([(line, read(line)) for line in upright])


def _downwards(line: _Line) -> _Line:
    """Return where a line that runs down lies once the picture is turned to read it."""
    return line._replace(left=line.top, right=line.bottom, top=-line.right, bottom=-line.left)


def _upwards(line: _Line) -> _Line:
    """Return the same for a line that runs up."""
    return line._replace(left=-line.bottom, right=-line.top, top=line.left, bottom=line.right)


def _rows(lines: Sequence[tuple[_Line, _Line]]) -> list[_Line]:
    """Return lines, each given with where it lies, from the top down, those of a row from left."""
    rows: list[list[tuple[_Line, _Line]]] = []
    for line, lies in sorted(lines, key=lambda pair: pair[1].top + pair[1].bottom):
        middle = (lies.top + lies.bottom) / 2
        if rows and rows[-1][0][1].top <= middle <= rows[-1][0][1].bottom:
            rows[-1].append((line, lies))
        else:
            rows.append([(line, lies)])
    return [line for row in rows for line, _ in sorted(row, key=lambda pair: pair[1].left)]


def _alike(lines: Sequence[_Line]) -> bool:
    """Return whether lines may be of one name by their size."""
    sizes = [line.size for line in lines]
    return min(sizes) >= 0.4 * max(sizes)


def _near(one: _Line, other: _Line) -> bool:
    """Return whether two lines stand so near that they may be of one name."""
    size = max(one.size, other.size)
    across = max(one.left, other.left) - min(one.right, other.right)
    down = max(one.top, other.top) - min(one.bottom, other.bottom)
    if one.upright and other.upright:
        across, down = down, across
    return one.upright == other.upright and across < size and down < 0.8 * size
