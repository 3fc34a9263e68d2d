"""Which files come into question for a title, found without comparing all with all."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from engine.intake.readings import NameReading

NameReadings = Sequence[Sequence[NameReading]]
"""For each name the ways to read it."""

_Block = tuple[tuple[int, ...], bool]
"""Names that may be alike: their numbers, and whether they are written as they sound."""

_BEST = 8
"""So many of the likest spellings are looked at more closely."""
_ALIKE = 60.0
"""Per cent of letters two spellings share before they are."""
_RARE = 50
"""A word that stands in no more names than this leads from one to the other."""
_BLOCK = 256
"""Titles compared at once: with ten thousand files that takes 2.5 MB."""


def same_words(titles: NameReadings, files: NameReadings) -> dict[int, set[int]]:
    """Return for each title the files that have its words in some way of reading."""
    spelt: dict[str, set[int]] = defaultdict(set)
    for file, ways in enumerate(files):
        for way in ways:
            for key in way.keys:
                spelt[key].add(file)
    return {
        title: {file for way in ways for key in way.keys for file in spelt.get(key, ())}
        for title, ways in enumerate(titles)
    }


def like_words(
    titles: NameReadings, files: NameReadings, wanted: Sequence[int]
) -> dict[int, set[int]]:
    """Return for each ``wanted`` title the files that are spelt like it or share a rare word."""
    found: dict[int, set[int]] = defaultdict(set)
    for title, file in (*_sharing(titles, files, wanted), *_alike(titles, files, wanted)):
        found[title].add(file)
    return found


def _sharing(
    titles: NameReadings, files: NameReadings, wanted: Sequence[int]
) -> Iterator[tuple[int, int]]:
    holding: dict[str, set[int]] = defaultdict(set)
    for file, ways in enumerate(files):
        for word in {word for way in ways for word in way.words}:
            holding[word].add(file)
    for title in wanted:
        for word in {word for way in titles[title] for word in way.words}:
            if len(holding.get(word, ())) <= _RARE:
                yield from ((title, file) for file in holding.get(word, ()))


def _alike(
    titles: NameReadings, files: NameReadings, wanted: Sequence[int]
) -> Iterator[tuple[int, int]]:
    """Yield the pairs whose letters are most alike, among those with the same numbers."""
    blocks: dict[_Block, list[tuple[int, str]]] = defaultdict(list)
    for file, ways in enumerate(files):
        for way in ways:
            blocks[way.numbers, bool(way.heard)].append((file, way.joined))
    asking: dict[_Block, list[tuple[int, str]]] = defaultdict(list)
    for title in wanted:
        for way in titles[title]:
            asking[way.numbers, bool(way.heard)].append((title, way.joined))
    for block, names in asking.items():
        if block in blocks:
            yield from _nearest(names, blocks[block])


def _nearest(
    names: Sequence[tuple[int, str]], others: Sequence[tuple[int, str]]
) -> Iterator[tuple[int, int]]:
    import numpy as np
    from rapidfuzz import fuzz, process

    spellings = [spelling for _, spelling in others]
    for start in range(0, len(names), _BLOCK):
        block = names[start : start + _BLOCK]
        alike = process.cdist(
            [spelling for _, spelling in block],
            spellings,
            scorer=fuzz.ratio,
            score_cutoff=_ALIKE,
            dtype=np.uint8,
            workers=-1,
        )
        order = np.argsort(-alike.astype(np.int16), axis=1, kind="stable")[:, :_BEST]
        for row, (title, _) in enumerate(block):
            yield from ((title, others[column][0]) for column in order[row] if alike[row, column])
