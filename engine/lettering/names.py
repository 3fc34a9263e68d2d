"""What each title is called and may be abridged to, so that none is taken for another."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

from engine.lettering.abridging import CUT, Abridged, Dictionary, abridgements, is_cut


class Names:
    """The forms of all titles of a shelf, or of a whole collection.

    They are worked out when one is first asked about. Nothing changes after that.
    """

    def __init__(self, titles: Callable[[], Iterable[str]], dictionary: Dictionary = ()) -> None:
        """Take what gives the titles, and the person's own short forms."""
        self._titles = titles
        self._dictionary = dictionary
        self._built: _Index | None = None

    def free(self, title: Abridged) -> bool:
        """Return whether no other title has this form or, of a cut one, could be meant by it.

        ``title`` is one of the titles, abridged.
        """
        if not title.steps:
            return True
        form = title.text.casefold()
        if not is_cut(title):
            return self._index.count(form) == 1
        head, _, tail = form.rpartition(CUT)
        own = forms(title.steps[0].before, self._dictionary)
        meant = self._index.between(head, tail.strip())
        return all(count == 1 and other in own for other, count in meant)

    def after(
        self, titles: Callable[[], Iterable[str]], gone: Iterable[str], come: Iterable[str]
    ) -> tuple[Names, frozenset[str]]:
        """Return the names once some titles have gone and others come; ``titles`` are all of them.

        Then the forms that more or fewer have by it; none where no form was asked about yet, so
        that no answer can be another one now.
        """
        new = Names(titles, self._dictionary)
        if self._built is None:
            return new, frozenset()
        change = Counter(self._forms_of(come))
        change.subtract(self._forms_of(gone))
        change = Counter({form: count for form, count in change.items() if count})
        new._built = self._built.after(change)
        return new, frozenset(change)

    @property
    def _index(self) -> _Index:
        if self._built is None:
            every = sorted(self._forms_of(self._titles()))
            self._built = _Index(every, sorted(map(_backwards, every)))
        return self._built

    def _forms_of(self, titles: Iterable[str]) -> Iterator[str]:
        return (form for title in titles for form in forms(title, self._dictionary))


class _Index(NamedTuple):
    """Forms, to be found by how they begin and end; as often as there are titles that have them."""

    forwards: list[str]
    """In order."""
    backwards: list[str]
    """Each from its end, in order."""

    def count(self, form: str) -> int:
        """Return how many titles have a form."""
        first = at = bisect_left(self.forwards, form)
        while at < len(self.forwards) and self.forwards[at] == form:
            at += 1
        return at - first

    def between(self, head: str, tail: str) -> Iterator[tuple[str, int]]:
        """Yield the forms that begin and end so, each with how many titles have it."""
        first, last = _beginning(self.forwards, head)
        begin, end = _beginning(self.backwards, _backwards(tail))
        if end - begin < last - first:
            endings = (_backwards(self.backwards[at]) for at in range(begin, end))
            found = (form for form in endings if form.startswith(head))
        else:
            found = (
                form for at in range(first, last) if (form := self.forwards[at]).endswith(tail)
            )
        return ((form, sum(1 for _ in same)) for form, same in groupby(found))

    def after(self, change: Counter[str]) -> _Index:
        """Return the index with more of some forms, and fewer of those whose count is negative."""
        forwards, backwards = self.forwards.copy(), self.backwards.copy()
        for form in change.elements():
            insort(forwards, form)
            insort(backwards, _backwards(form))
        for form in (-change).elements():
            del forwards[bisect_left(forwards, form)]
            del backwards[bisect_left(backwards, _backwards(form))]
        return _Index(forwards, backwards)


def beginning(title: Abridged) -> str:
    """Return how every form of another title begins that could be taken for this one."""
    form = title.text.casefold()
    return form.rpartition(CUT)[0] if is_cut(title) else form


@lru_cache(maxsize=1 << 14)
def forms(title: str, dictionary: Dictionary = ()) -> frozenset[str]:
    """Return what a title is and may be abridged to, letters in one case, without truncations."""
    return frozenset(one.text.casefold() for one in abridgements(title, dictionary))


def _beginning(ordered: list[str], head: str) -> tuple[int, int]:
    """Return where those that begin with ``head`` start and end in ``ordered``."""
    first = bisect_left(ordered, head)
    last = bisect_left(ordered, x=True, lo=first, key=lambda form: not form.startswith(head))
    return first, last


def _backwards(form: str) -> str:
    return form[::-1]
