"""Files that are numbered in the order of the list."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import PurePath

GUESSED = 0.6
"""How sure it is where nothing but their number tells that files go with the list."""
CONFIRMED = 0.9
"""The same where what covers say agrees with it."""

_FEWEST = 3
"""Files that make an order."""
_AGREEING = 5
"""Covers that have to agree before the others are believed."""
_MOST = 0.9
"""Part of the covers that say a title, below which the order is another."""
_NUMBERED = re.compile(r"^(?P<sign>[^\W\d]*)[ _-]*(?P<number>\d{1,6})$")


def by_order(
    files: Sequence[str], titles: int, said: Mapping[int, int]
) -> dict[int, dict[int, float]]:
    """Return for each title the file of its place in the list, and how surely it is its own.

    That is nothing unless all files are numbered, as many as the ``titles``. ``said`` are the
    titles that covers say plainly, by file. A camera's numbers count only where covers agree;
    a file of the list's place has nothing but its number.
    """
    found = [_NUMBERED.match(PurePath(file).stem) for file in files]
    numbered = [one for one in found if one]
    numbers = {int(one["number"]) for one in numbered}
    if titles < _FEWEST or not len(numbered) == len(numbers) == len(files) == titles:
        return {}
    order = sorted(range(titles), key=lambda file: int(numbered[file]["number"]))
    agree = sum(order[title] == file for file, title in said.items())
    if agree < _MOST * len(said):
        return {}
    if agree >= _AGREEING:
        return {title: {file: CONFIRMED} for title, file in enumerate(order)}
    if any(one["sign"] for one in numbered) or max(numbers) - min(numbers) >= titles:
        return {}
    return {title: {file: GUESSED} for title, file in enumerate(order)}
