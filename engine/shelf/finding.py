"""Finding games by a few words, with slips in them."""

from __future__ import annotations

from collections.abc import Mapping

from engine.intake.titles import title_key

LEAST = 70.0
"""Likeness below which a title is not meant, of 100 (chosen on the demo's titles)."""
FEW = 5


def find(words: str, titles: Mapping[str, str], most: int = FEW) -> tuple[str, ...]:
    """Return the keys of the titles that are meant by ``words``, the likeliest first.

    A title said in full is the only one meant. Nothing is meant by nothing.
    """
    from rapidfuzz import fuzz, process

    wanted = title_key(words)
    if not wanted:
        return ()
    keys = {key: title_key(title) for key, title in titles.items()}
    same = tuple(key for key, one in keys.items() if one == wanted)
    if same:
        return same
    found = process.extract(wanted, keys, scorer=fuzz.WRatio, limit=most, score_cutoff=LEAST)
    return tuple(key for _, _, key in found)
