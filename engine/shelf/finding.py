"""Finding a game by a few letters of its title."""

from __future__ import annotations

from collections.abc import Mapping

from engine.intake import title_key

ENOUGH = 75.0
"""How much alike, 0 to 100, a title and what was mistyped have to be (by eye, on the demo)."""
_SAID, _WITHIN, _SLIP = 100.0, 99.0, 98.0
"""Of words that begin as typed, of words that hold it, and of a slip at most."""


def find(query: str, titles: Mapping[str, str]) -> tuple[str, ...]:
    """Return the keys of the titles that are like ``query``, the most like first.

    A title that holds the words typed is what is meant; where there is none it was a slip.
    """
    wanted = title_key(query)
    if not wanted.strip():
        return ()
    names = {key: title_key(title) for key, title in titles.items()}
    like = {key: _like(wanted, name) for key, name in names.items()}
    found = [key for key, how in like.items() if how >= ENOUGH]
    if any(like[key] > _SLIP for key in found):
        found = [key for key in found if like[key] > _SLIP]
    # Of titles as like as each other, the one that begins so, then the shorter.
    found.sort(key=lambda key: (-like[key], not names[key].startswith(wanted), len(names[key])))
    return tuple(found)


def _like(wanted: str, name: str) -> float:
    from rapidfuzz import fuzz

    words, typed = name.split(), wanted.split()
    if all(any(word.startswith(part) for word in words) for part in typed):
        return _SAID
    if all(part in name for part in typed):
        return _WITHIN
    return min(_SLIP, fuzz.WRatio(wanted, name))
