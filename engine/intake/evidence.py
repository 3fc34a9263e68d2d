"""What a file's name, its picture's lettering and its place say together, and where they differ."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import NamedTuple

SAYS = 0.85
"""From this on a name, or a cover, says a title plainly."""
AGREES = 0.7
"""From this on it agrees with the name."""
AT_ODDS = 0.25
"""By how much more plainly a cover says another title than the one of its name, to be at odds."""
NAME_DOUBTED = 0.6
COVER_DOUBTED = 0.7
"""The most that each is worth where they are at odds: the cover is the game's own word."""
BEST = 0.99
"""The most that several together are worth: 1 is for the very name."""

Scores = Mapping[int, Mapping[int, float]]


class Told(NamedTuple):
    """What speaks for a picture being a title's."""

    score: float
    """0 to 1."""
    words: str
    """Part of a sentence."""


class Evidence:
    """What speaks for each pair of a title and a file."""

    def __init__(self, titles: Sequence[str], names: Scores, said: Scores, placed: Scores) -> None:
        """Weigh ``names`` and places by title and file, and what is ``said`` by file and title."""
        self._titles = titles
        self._names = names
        self._placed = placed
        self._said = said
        self._best = {file: max(found, key=found.__getitem__) for file, found in said.items()}
        self._called: dict[int, int] = {}
        for title, found in names.items():
            for file, score in found.items():
                before = names[self._called[file]][file] if file in self._called else SAYS
                if score >= before:
                    self._called[file] = title
        self._saying: dict[int, list[int]] = defaultdict(list)
        for file, titled in said.items():
            for title in titled:
                self._saying[title].append(file)
        self._of: dict[int, dict[int, Told]] = {}

    def of(self, title: int) -> Mapping[int, Told]:
        """Return what speaks for each file being a title's."""
        if title not in self._of:
            files = dict.fromkeys(
                (*self._names[title], *self._saying[title], *self._placed.get(title, ()))
            )
            self._of[title] = {file: self._told(title, file) for file in files}
        return self._of[title]

    def _told(self, title: int, file: int) -> Told:
        named = self._names[title].get(file, 0.0)
        said = self._said.get(file, {}).get(title, 0.0)
        placed = self._placed.get(title, {}).get(file, 0.0)
        if doubted := self._at_odds(title, file, named, said):
            return doubted
        together = 1.0 - (1.0 - named) * (1.0 - said) * (1.0 - placed)
        score = max(named, min(together, BEST))
        return Told(score, _words(named, said, placed))

    def _at_odds(self, title: int, file: int, named: float, said: float) -> Told | None:
        """Return what is left of a pair whose name says one title and whose cover another."""
        best, called = self._best.get(file), self._called.get(file)
        if best is None or called is None or best == called:
            return None
        most = self._said[file]
        if most[best] < SAYS or most[best] - most.get(called, 0.0) < AT_ODDS:
            return None
        words = f"its name says {self._titles[called]}, but its cover {self._titles[best]}"
        if title == best:
            return Told(min(max(named, said), COVER_DOUBTED), words)
        return Told(min(max(named, said), NAME_DOUBTED), words)


def _words(named: float, said: float, placed: float) -> str:
    """Return what speaks for a pair."""
    if named and said >= AGREES:
        return "its name and its cover say so"
    if said and not named:
        return "its cover says so"
    if named >= 1.0:
        return "it has its very name"
    if named:
        return "it is named like it"
    return "it is numbered like its place in the list" if placed else ""
