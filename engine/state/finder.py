"""A search that goes on: each step starts from what the step before it found.

What comes of it is what ``finding`` gives for the same games and the same wanted.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from engine.state.finding import Listed, Trait, Wanted, being, having, in_order


class Finder:
    """The games that are looked through, what is wanted of them, and what is found."""

    def __init__(self) -> None:
        """Look through no games, for all."""
        self.wanted = Wanted()
        self.found: list[Listed] = []
        """In the order wanted."""
        self.sorted: list[Listed] = []
        """All games, in that order."""
        self._listed: list[Listed] = []
        self._being: list[Listed] = []
        """Those of which the conditions hold, whatever words they carry."""
        self._words = ""
        """The words that those found carry."""
        self._judged: Mapping[str, frozenset[Trait]] = {}

    def take(self, games: Iterable[Listed]) -> None:
        """Look through these games, in list order, from now on."""
        self._listed = list(games)
        self._sort()

    def want(self, wanted: Wanted) -> None:
        """Look for something else."""
        before, self.wanted = self.wanted, wanted
        if wanted.order is not before.order:
            self._sort()
        elif wanted.only != before.only:
            self._narrow()
        else:
            self._find()

    def judge(self, judged: Mapping[str, frozenset[Trait]]) -> None:
        """Take what judging told of games."""
        self._judged = judged
        self._narrow()

    @property
    def to_judge(self) -> list[str]:
        """The games that are left by all that takes no judging; none where nothing does."""
        if not self.wanted.judged:
            return []
        plain = [one for one in self.wanted.only if one.value not in self.wanted.judged]
        return [one.game.id for one in being(self.sorted, plain, {})]

    def _sort(self) -> None:
        self.sorted = in_order(self._listed, self.wanted.order)
        self._narrow()

    def _narrow(self) -> None:
        self._being = being(self.sorted, self.wanted.only, self._judged)
        self.found, self._words = self._being, ""
        self._find()

    def _find(self) -> None:
        words = self.wanted.words
        # What carries longer words is among what carries their beginning.
        among = self.found if words.startswith(self._words) else self._being
        self.found, self._words = having(among, words), words
