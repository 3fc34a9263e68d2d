"""What each title is called and may be abridged to, so that none is taken for another."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple, TypeVar

from engine.lettering.abridging import CUT, Abridged, Dictionary, abridgements, is_cut

T = TypeVar("T")

_NONE: frozenset[str] = frozenset()


class Names:
    """The forms of all titles of a shelf, or of a whole collection, by any key.

    They are worked out when one is first asked about. Nothing changes after that.
    """

    def __init__(self, titles: Mapping[str, str], dictionary: Dictionary = ()) -> None:
        """Take the titles, and the person's own short forms."""
        self._titles = titles
        self._dictionary = dictionary
        self._built: _Index | None = None

    def free(self, key: str, title: Abridged) -> bool:
        """Return whether no other title has this form or, of a cut one, could be meant by it."""
        if not title.steps:
            return True
        index, form = self._index, title.text.casefold()
        if not is_cut(title):
            return index.claims.get(form, 0) == 1
        head, _, tail = form.rpartition(CUT)
        own = index.forms.get(key, _NONE)
        meant = index.between(head, tail.strip())
        return not any(index.claims[other] > (other in own) for other in meant)

    def after(self, changed: Mapping[str, str | None]) -> tuple[Names, frozenset[str]]:
        """Return the names once some titles have changed, come, or gone (None).

        Then the forms that have become others' or nobody's by it; none where no form was asked
        about yet, so that no answer can be another one now.
        """
        new = Names(brought_up(self._titles, changed), self._dictionary)
        if self._built is None:
            return new, _NONE
        new._built, touched = self._built.after(
            {
                key: None if title is None else forms(title, self._dictionary)
                for key, title in changed.items()
            }
        )
        return new, touched

    @property
    def _index(self) -> _Index:
        if self._built is None:
            every = {key: forms(title, self._dictionary) for key, title in self._titles.items()}
            claims = Counter(form for forms in every.values() for form in forms)
            self._built = _Index(every, claims, sorted(claims), sorted(map(_backwards, claims)))
        return self._built


class _Index(NamedTuple):
    """Forms, to be found by how they begin and end."""

    forms: Mapping[str, frozenset[str]]
    """Of each title, by its key."""
    claims: Mapping[str, int]
    """How many titles have a form."""
    forwards: list[str]
    backwards: list[str]
    """Each form in order, and each from its end, in order."""

    def between(self, head: str, tail: str) -> Iterator[str]:
        """Return the forms that begin with ``head`` and end with ``tail``."""
        first, last = _beginning(self.forwards, head)
        begin, end = _beginning(self.backwards, _backwards(tail))
        if end - begin < last - first:
            ending = (_backwards(self.backwards[at]) for at in range(begin, end))
            return (form for form in ending if form.startswith(head))
        starting = (self.forwards[at] for at in range(first, last))
        return (form for form in starting if form.endswith(tail))

    def after(self, changed: Mapping[str, frozenset[str] | None]) -> tuple[_Index, frozenset[str]]:
        """Return the index with the forms of some titles changed, and the forms that concerns."""
        claims, touched = dict(self.claims), set()
        for key, now in changed.items():
            before = self.forms.get(key, _NONE)
            for form in before.symmetric_difference(now or _NONE):
                claims[form] = claims.get(form, 0) + (-1 if form in before else 1)
                touched.add(form)
        gone = [form for form in touched if form in self.claims and not claims[form]]
        come = [form for form in touched if form not in self.claims and claims[form]]
        for form in gone:
            del claims[form]
        index = _Index(
            brought_up(self.forms, changed),
            claims,
            _ordered(self.forwards, gone, come),
            _ordered(self.backwards, map(_backwards, gone), map(_backwards, come)),
        )
        return index, frozenset(touched)


def _beginning(ordered: list[str], head: str) -> tuple[int, int]:
    """Return where those that begin with ``head`` start and end in ``ordered``."""
    first = bisect_left(ordered, head)
    last = bisect_left(ordered, x=True, lo=first, key=lambda form: not form.startswith(head))
    return first, last


def _ordered(before: list[str], gone: Iterable[str], come: Iterable[str]) -> list[str]:
    ordered = before.copy()
    for form in gone:
        del ordered[bisect_left(ordered, form)]
    for form in come:
        insort(ordered, form)
    return ordered


def _backwards(form: str) -> str:
    return form[::-1]


def beginning(title: Abridged) -> str:
    """Return how every form of another title begins that could be taken for this one."""
    form = title.text.casefold()
    return form.rpartition(CUT)[0] if is_cut(title) else form


def brought_up(mapping: Mapping[str, T], changed: Mapping[str, T | None]) -> dict[str, T]:
    """Return a mapping with some values changed, come (last), or gone (None)."""
    new = dict(mapping)
    for key, value in changed.items():
        if value is None:
            new.pop(key, None)
        else:
            new[key] = value
    return new


@lru_cache(maxsize=1 << 14)
def forms(title: str, dictionary: Dictionary = ()) -> frozenset[str]:
    """Return what a title is and may be abridged to, letters in one case, without truncations."""
    return frozenset(one.text.casefold() for one in abridgements(title, dictionary))
