"""Finding a game by a few letters of its title."""

from __future__ import annotations

from collections.abc import Mapping

from engine.intake import title_key

ENOUGH = 60.0
"""How much alike, 0 to 100, a title and what was typed have to be (by eye, on the demo)."""


def find(query: str, titles: Mapping[str, str]) -> tuple[str, ...]:
    """Return the keys of the titles that are like ``query``, the most like first."""
    from rapidfuzz import fuzz, process

    wanted = title_key(query)
    if not wanted.strip():
        return ()
    names = {key: title_key(title) for key, title in titles.items()}
    found = process.extract(wanted, names, scorer=fuzz.WRatio, limit=None, score_cutoff=ENOUGH)
    # Of titles as like as each other, the one that begins so, then the shorter.
    found.sort(key=lambda one: (-one[1], not one[0].startswith(wanted), len(one[0])))
    return tuple(key for _, _, key in found)
