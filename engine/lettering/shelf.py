"""A whole shelf of titles on one kind of edge: even or free, and no two abridged alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from enum import StrEnum
from functools import lru_cache
from math import ceil, floor

import msgspec

from engine.lettering.abridging import (
    Abridged,
    AbridgingWay,
    Dictionary,
    abridgements,
    tidy,
    truncations,
)
from engine.lettering.compositor import Compositor, SizedLines, compositor_for
from engine.lettering.setting import Setting, numbers, propose_title, widths
from engine.lettering.style import STYLE, TypeStyle
from engine.model import FontRef, Size, Value

SHARE = 0.9
"""The part of the titles that an even size has to suit unabridged."""
_SMALLER = 0.1
"""What does not fit the even size is set smaller by steps of this part of it."""


class Mode(StrEnum):
    """How sizes go along the shelf."""

    EVEN = "even"
    """One size and one baseline, but for the few that do not fit it."""
    FREE = "free"
    """Each title as large as it can be."""


class Exempt(Value, frozen=True):
    """A title that is not set like the rest, and why."""

    key: str
    why: str
    """A phrase: 'set smaller, at 6.5 pt'."""


class Shelf(Value, frozen=True):
    """The settings of all titles on one kind of edge."""

    settings: dict[str, Setting]
    size: float
    """The even size in points; 0 in free mode."""
    exempt: tuple[Exempt, ...]
    """Titles set smaller than the even size, abridged, or not fitting at all."""

    @property
    def apart(self) -> dict[str, str]:
        """Why a title is not set like the rest, by key."""
        return {one.key: one.why for one in self.exempt}

    def short_of(self, distance: float) -> tuple[str, ...]:
        """Return the keys of the titles that do not read from ``distance`` mm; see ``remedies``."""
        return tuple(key for key, one in self.settings.items() if one.reads_at < distance)


def set_shelf(
    titles: Mapping[str, str],
    edge: Size,
    font: FontRef,
    style: TypeStyle = STYLE,
    mode: Mode = Mode.FREE,
    *,
    names: Names | None = None,
) -> Shelf:
    """Return how ``titles`` (by any key) are set on their edges, all of the size ``edge``.

    Even: the largest size at which at least nine in ten fit unabridged; the rest are set
    smaller by steps, or abridged where even the smallest size is too large. Free: each as
    large as it can be, abridged only where it would not fit. No two titles that differ are
    ever abridged to the same, nor one to what could as well be another, here or among the
    ``names`` of a whole collection. Raises FontError for a bad font.
    """
    names = names or Names(titles, style.dictionary)
    free = {key: propose_title(title, edge, font, style) for key, title in titles.items()}
    size = _even_size(free, style) if mode is Mode.EVEN else 0.0
    settings: dict[str, Setting] = {}
    exempt: list[Exempt] = []
    for key, title in titles.items():
        setter = _Setter(edge, font, style, names, key)
        setting = setter.even(Abridged(tidy(title)), size) if size else free[key]
        if setting is None or setting.size < style.smallest:
            setting = setter.abridged(title, size) or free[key]
        settings[key] = setting
        if why := _why(setting, size):
            exempt.append(Exempt(key, why))
    return Shelf(settings, size, tuple(exempt))


def set_among(title: Abridged, size: float, edge: Size, font: FontRef, style: TypeStyle) -> Setting:
    """Return a title, abridged or not, as it is set on a shelf of the even size ``size``.

    At that size or by steps smaller; as large as it can be where ``size`` is 0, or where it
    fits at no step. Raises FontError for a bad font.
    """
    setter = _Setter(edge, font, style, Names({}), "")
    if size and (setting := setter.even(title, size)):
        return setting
    free = propose_title(title.text, edge, font, style)
    return msgspec.structs.replace(free, steps=title.steps)


def _even_size(free: Mapping[str, Setting], style: TypeStyle) -> float:
    """Return the largest size that enough titles reach, but no less than the smallest."""
    sizes = sorted((setting.size for setting in free.values()), reverse=True)
    if not sizes:
        return style.smallest
    return max(sizes[ceil(SHARE * len(sizes)) - 1], style.smallest)


def _why(setting: Setting, size: float) -> str:
    if not setting.fits:
        return ", ".join(setting.notes)
    if setting.steps:
        return ", ".join(map(str, setting.steps))
    return f"set smaller, at {setting.size:g} pt" if setting.size < size else ""


class _Setter:
    """Sets one title among the others of its shelf."""

    def __init__(self, edge: Size, font: FontRef, style: TypeStyle, names: Names, key: str) -> None:
        self._edge = edge
        self._font = font
        self._style = style
        self._names = names
        self._key = key

    def even(self, title: Abridged, size: float) -> Setting | None:
        """Return the title at the even size, or at the first smaller step that suits it."""
        steps = (self._at(title, step) for step in self._ladder(size))
        return next((setting for setting in steps if setting), None)

    def abridged(self, title: str, size: float) -> Setting | None:
        """Return the title with as few steps as make it fit, truncated if nothing else does."""
        chain = abridgements(title, self._style.dictionary)
        shorter = [one for one in chain[1:] if self._names.free(self._key, one)]
        for step in self._ladder(size) if size else (self._style.smallest,):
            for one in shorter:
                if setting := self._at(one, step):
                    return setting if size else self._largest(one)
        for cut in truncations(shorter[-1] if shorter else chain[0]):
            if self._names.free(self._key, cut) and (
                setting := self._at(cut, self._style.smallest)
            ):
                return setting
        return None

    def _ladder(self, size: float) -> Iterator[float]:
        step = size
        while step > self._style.smallest:
            yield step
            step = floor((step - _SMALLER * size) * 10 + 1e-9) / 10
        yield self._style.smallest

    def _at(self, title: Abridged, size: float) -> Setting | None:
        for width in widths(self._style):
            setter = self._setter(title.text, width)
            if found := setter.set_at(title.text, size, self._edge):
                return numbers(setter, found, self._font, title.steps)
        return None

    def _largest(self, title: Abridged) -> Setting:
        setter = self._setter(title.text)
        found: SizedLines = setter.largest(title.text, self._edge)
        return numbers(setter, found, self._font, title.steps)

    def _setter(self, text: str, width: float = 1.0) -> Compositor:
        return compositor_for((text,), self._font, self._style, width)


class Names:
    """What each title may be abridged to, so that none is taken for another."""

    def __init__(self, titles: Mapping[str, str], dictionary: Dictionary = ()) -> None:
        """Take the titles of a shelf, or of a whole collection, by any key."""
        self._forms = {key: forms(title, dictionary) for key, title in titles.items()}
        self._claims = Counter(form for forms in self._forms.values() for form in forms)

    def free(self, key: str, title: Abridged) -> bool:
        """Return whether no other title has this form or, of a cut one, could be meant by it."""
        form = title.text.casefold()
        if not title.steps:
            return True
        if title.steps[-1].way is not AbridgingWay.TRUNCATION:
            return self._claims[form] == 1
        head, _, tail = form.rpartition("\u2026")
        return not any(
            other.startswith(head) and other.endswith(tail.strip())
            for name, forms in self._forms.items()
            if name != key
            for other in forms
        )


@lru_cache(maxsize=8192)
def forms(title: str, dictionary: Dictionary = ()) -> frozenset[str]:
    """Return what a title is and may be abridged to, letters in one case, without truncations."""
    return frozenset(one.text.casefold() for one in abridgements(title, dictionary))
