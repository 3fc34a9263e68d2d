"""Mappings after some of their values changed; what was there before stays as it is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

T = TypeVar("T")


def brought_up(mapping: Mapping[str, T], changed: Mapping[str, T | None]) -> dict[str, T]:
    """Return a mapping with some values changed, come (last), or gone (None)."""
    new = dict(mapping)
    for key, value in changed.items():
        if value is None:
            new.pop(key, None)
        else:
            new[key] = value
    return new
