"""Which picture belongs to which title.

A confidence of 1 says that file and title are the same name; 0.85 and more that every
word of one has its partner in the other, numbers included, and that no other file or
title comes close. Below, a word stands alone, letters differ, or another is nearly as
good: the person is asked. NameReadings whose numbers differ are never matched.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from engine.intake.assignment import Likenesses, assign
from engine.intake.candidates import NameReadings, like_words, same_words
from engine.intake.likeness import likeness
from engine.intake.readings import NameReading, habits_of, read_file, read_title
from engine.intake.titles import title_key

LEAST = 0.5
"""Below this a picture is not even proposed."""
CLOSE = 0.1
"""A rival within this of the best makes the choice less sure."""
RIVALRY = 2.0
"""By how much a rival's closeness lowers it: one just as good takes 0.2."""


class FileMatch(NamedTuple):
    """The picture found for a title."""

    file: str
    """As it was given."""
    confidence: float
    """0 to 1: what the module says of it."""


def match_pictures(titles: Mapping[str, str], files: Sequence[str]) -> dict[str, FileMatch]:
    """Return the file for each id of ``titles`` (id to title) that has one.

    ``files`` are names or paths; the earlier goes first among equals, so give them in
    natural order. The whole is settled at once: as many same names as can be, then the
    highest total. A file serves one title, or several titles that are the same.
    """
    keys = {game: title_key(title) for game, title in titles.items()}
    one_of = {keys[game]: title for game, title in titles.items()}
    habits = habits_of(files)
    scores = _scores(
        [read_title(title) for title in one_of.values()],
        [read_file(file, habits) for file in files],
    )
    chosen = assign(scores)
    sure = _confidences(scores, chosen)
    numbers = {key: number for number, key in enumerate(one_of)}
    return {
        game: FileMatch(files[chosen[numbers[key]]], round(sure[numbers[key]], 4))
        for game, key in keys.items()
        if numbers[key] in chosen
    }


def _scores(titles: NameReadings, files: NameReadings) -> dict[int, dict[int, float]]:
    """Return the likeness of every title and file that come into question for each other."""
    pairs = same_words(titles, files)
    scores = {title: _judged(titles[title], files, pairs[title]) for title in pairs}
    unsure = [title for title, found in scores.items() if 1.0 not in found.values()]
    for title, found in like_words(titles, files, unsure).items():
        scores[title] |= _judged(titles[title], files, found)
    return scores


def _judged(
    title: Sequence[NameReading], files: NameReadings, found: Collection[int]
) -> dict[int, float]:
    best = {
        file: max(likeness(way, other) for way in title for other in files[file]) for file in found
    }
    return {file: score for file, score in best.items() if score >= LEAST}


def _confidences(scores: Likenesses, chosen: Mapping[int, int]) -> dict[int, float]:
    """Return how sure each choice is: its likeness, less what its closest rival takes from it."""
    asking: dict[int, list[int]] = defaultdict(list)
    for title, files in scores.items():
        for file in files:
            asking[file].append(title)
    holder = {file: title for title, file in chosen.items()}

    def rivals(title: int) -> Iterator[float]:
        """Yield the likeness of each other pairing that nothing better explains."""
        for file, score in scores[title].items():
            other = holder.get(file)
            if other != title and (other is None or scores[other][file] <= score):
                yield score
        for other in asking[chosen[title]]:
            score = scores[other][chosen[title]]
            if other != title and (other not in chosen or scores[other][chosen[other]] <= score):
                yield score

    return {title: _lowered(scores[title][file], rivals(title)) for title, file in chosen.items()}


def _lowered(score: float, rivals: Iterable[float]) -> float:
    closest = max(rivals, default=0.0)
    if score >= 1.0 > closest:  # the very name: what is only like it is no rival
        return score
    return max(score - RIVALRY * max(CLOSE - (score - closest), 0.0), 0.0)
