"""One title among others on an edge: at their even size, by steps smaller, or abridged."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache
from math import floor
from typing import NamedTuple

import msgspec

from engine.lettering.abridging import Abridged, Dictionary, abridgements, truncations
from engine.lettering.compositor import Compositor, compositor_for
from engine.lettering.setting import Setting, numbers, propose_title, widths
from engine.lettering.style import TypeStyle
from engine.model import FontRef, Size

_SMALLER = 0.1
"""What does not fit the even size is set smaller by steps of this part of it."""

_known = lru_cache(maxsize=1 << 16)(propose_title)
"""A title as large as it can be, kept as long as the program runs: 20 MB at the most."""


class Sizing(NamedTuple):
    """Sets titles on one kind of edge, in one font and style."""

    edge: Size
    font: FontRef
    style: TypeStyle

    def largest(self, title: str) -> Setting:
        """Return a whole title as large as it can be. Raises FontError for a bad font."""
        return _known(title, self.edge, self.font, self.style)

    def even(self, title: str, size: float) -> Setting | None:
        """Return a whole title at the even size, or at the first smaller step that suits it."""
        steps = (self._at(Abridged(title), step) for step in self._ladder(size))
        return next((setting for setting in steps if setting), None)

    def among(self, title: str, size: float) -> Setting:
        """Return a whole title as it is set on a shelf of the even size ``size``.

        At that size or by steps smaller; as large as it can be where ``size`` is 0, or where it
        fits at no step.
        """
        return (self.even(title, size) if size else None) or self.largest(title)

    def abridged(
        self, title: str, size: float, dictionary: Dictionary, free: Callable[[Abridged], bool]
    ) -> Setting | None:
        """Return a title with as few steps as make it fit, truncated if nothing else does.

        Only what is ``free``: nothing else could be meant by it.
        """
        chain = abridgements(title, dictionary)
        shorter = [one for one in chain[1:] if free(one)]
        for step in self._ladder(size) if size else (self.style.smallest,):
            for one in shorter:
                if setting := self._at(one, step):
                    if size:
                        return setting
                    return msgspec.structs.replace(self.largest(one.text), steps=one.steps)
        for cut in truncations(shorter[-1] if shorter else chain[0]):
            if free(cut) and (setting := self._at(cut, self.style.smallest)):
                return setting
        return None

    def _ladder(self, size: float) -> Iterator[float]:
        step = size
        while step > self.style.smallest:
            yield step
            step = floor((step - _SMALLER * size) * 10 + 1e-9) / 10
        yield self.style.smallest

    def _at(self, title: Abridged, size: float) -> Setting | None:
        for width in widths(self.style):
            setter = self._setter(title.text, width)
            if found := setter.set_at(title.text, size, self.edge):
                return numbers(setter, found, self.font, title.steps)
        return None

    def _setter(self, text: str, width: float = 1.0) -> Compositor:
        return compositor_for((text,), self.font, self.style, width)
