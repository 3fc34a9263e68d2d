"""A whole shelf of titles on one kind of edge: even or free, and no two abridged alike."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Callable, Collection, Mapping
from enum import StrEnum
from functools import cached_property
from itertools import accumulate
from math import ceil

import msgspec

from engine.lettering.abridging import Abridged, tidy
from engine.lettering.changes import brought_up
from engine.lettering.names import Names, beginning
from engine.lettering.setting import Setting
from engine.lettering.sizing import Sizing
from engine.lettering.style import STYLE, TypeStyle
from engine.model import FontRef, Size

SHARE = 0.9
"""The part of the titles that an even size has to suit unabridged."""


class Mode(StrEnum):
    """How sizes go along the shelf."""

    EVEN = "even"
    """One size and one baseline, but for the few that do not fit it."""
    FREE = "free"
    """Each title as large as it can be."""


class Shelf:
    """How titles, by any key, are set on their edges, all of one size.

    Even: the largest size at which at least nine in ten fit unabridged; the rest are set
    smaller by steps, or abridged where even the smallest size is too large. Free: each as
    large as it can be, abridged only where it would not fit. No two titles that differ are
    ever abridged to the same, nor one to what could as well be another, here or among the
    ``names`` of a whole collection.

    A title is set when it is first asked for. What is asked of it raises FontError for a bad
    font.
    """

    def __init__(
        self,
        titles: Mapping[str, str],
        edge: Size,
        font: FontRef,
        style: TypeStyle = STYLE,
        mode: Mode = Mode.EVEN,
        *,
        names: Names | None = None,
        fallbacks: Callable[[str], tuple[FontRef, ...]] | None = None,
    ) -> None:
        """Take the titles; ``fallbacks`` of each, where they are not the style's."""
        self.titles = titles
        self._edge = edge
        self._font = font
        self._style = style
        # What is measured does not hang on short forms: known settings hold when these change.
        self._plain = msgspec.structs.replace(style, dictionary=())
        self._mode = mode
        self._names = names or Names(titles.values, style.dictionary)
        self._fallbacks = fallbacks or (lambda _: style.fallbacks)
        self._whole: dict[str, Setting | None] = {}
        """Titles as they are set unabridged, by their words; None where that is not to be had."""
        self._abridged: dict[str, Setting] = {}
        """The others, by key."""
        self._asked: dict[str, frozenset[str]] = {}
        """The titles whose settings hang on forms of others that begin so, by the beginning."""
        self._sorted: list[float] | None = None

    @property
    def size(self) -> float:
        """The even size in points; 0 in free mode."""
        if self._mode is Mode.FREE:
            return 0.0
        sizes, least = self._sizes, self._style.smallest
        return max(sizes[len(sizes) - ceil(SHARE * len(sizes))], least) if sizes else least

    def setting(self, key: str) -> Setting:
        """Return how a title is set."""
        title = self.titles[key]
        if title not in self._whole:
            self._whole[title] = self._unabridged(title)
        if setting := self._whole[title]:
            return setting
        if key not in self._abridged:
            self._abridged[key] = self._shortened(key, title)
        return self._abridged[key]

    def why(self, key: str) -> str:
        """Return why a title is not set like the rest, a phrase; empty where it is.

        'set smaller, at 6.5 pt', or how it was abridged, or why it does not fit at all.
        """
        setting = self.setting(key)
        if not setting.fits:
            return ", ".join(setting.notes)
        if setting.steps:
            return ", ".join(map(str, setting.steps))
        return f"set smaller, at {setting.size:g} pt" if setting.size < self.size else ""

    @cached_property
    def apart(self) -> dict[str, str]:
        """Why titles are not set like the rest, by key, in the order of the keys."""
        return {key: why for key in sorted(self.titles) if (why := self.why(key))}

    def after(
        self, changed: Mapping[str, str | None], names: Names, forms: Collection[str]
    ) -> tuple[Shelf, frozenset[str]]:
        """Return the shelf once some of its titles have changed, come, or gone (None).

        ``names`` are the new ones, among which ``forms`` changed. Then the titles that may be
        set otherwise now, of those that were asked for.
        """
        new = Shelf(
            brought_up(self.titles, changed) if changed else self.titles,
            self._edge,
            self._font,
            self._style,
            self._mode,
            names=names,
            fallbacks=self._fallbacks,
        )
        if self._sorted is not None:
            new._sorted = self._resorted(self._sorted, changed) if changed else self._sorted
            if new.size != self.size:
                return new, frozenset({*new.titles, *changed})
        touched = {*changed, *self._hanging_on(forms)}
        if self._whole:
            new._whole = self._whole  # what is known of words holds for every shelf of this size
        new._abridged = brought_up(self._abridged, dict.fromkeys(touched))
        new._asked = self._asked.copy()
        return new, frozenset(touched)

    # --- within --------------------------------------------------------------------------

    def _unabridged(self, title: str) -> Setting | None:
        sizing, size = self._sizing(title), self.size
        setting = sizing.even(tidy(title), size) if size else sizing.largest(title)
        return setting if setting and setting.size >= self._style.smallest else None

    def _shortened(self, key: str, title: str) -> Setting:
        """Return a title abridged, or as large as it can be where nothing makes it fit."""
        asked: set[str] = set()

        def free(one: Abridged) -> bool:
            asked.add(beginning(one))
            return self._names.free(one)

        sizing = self._sizing(title)
        setting = sizing.abridged(title, self.size, self._style.dictionary, free)
        for head in _shortest(asked):
            self._asked[head] = self._asked.get(head, frozenset()) | {key}
        return setting or sizing.largest(title)

    def _sizing(self, title: str) -> Sizing:
        style, fallbacks = self._plain, self._fallbacks(title)
        if fallbacks != style.fallbacks:
            style = msgspec.structs.replace(style, fallbacks=fallbacks)
        return Sizing(self._edge, self._font, style)

    @property
    def _sizes(self) -> list[float]:
        """The sizes of all titles, each as large as it can be, the smallest first."""
        if self._sorted is None:
            self._sorted = sorted(map(self._largest, self.titles.values()))
        return self._sorted

    def _largest(self, title: str) -> float:
        return self._sizing(title).largest(title).size

    def _resorted(self, sizes: list[float], changed: Mapping[str, str | None]) -> list[float]:
        new = sizes.copy()
        for key, title in changed.items():
            if key in self.titles:
                del new[bisect_left(new, self._largest(self.titles[key]))]
            if title is not None:
                insort(new, self._largest(title))
        return new

    def _hanging_on(self, forms: Collection[str]) -> set[str]:
        """Return the titles whose settings may hang on these forms of others."""
        heads = (head for form in forms for head in accumulate(form))
        return {key for head in heads for key in self._asked.get(head, ())}


def _shortest(heads: Collection[str]) -> list[str]:
    """Return those of ``heads`` that begin with no other of them."""
    found: list[str] = []
    for head in sorted(heads):
        if not found or not head.startswith(found[-1]):
            found.append(head)
    return found
