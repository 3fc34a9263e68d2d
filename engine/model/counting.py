"""Numbers of things, in words."""

from __future__ import annotations


def count(number: int, thing: str) -> str:
    """Return '1 sheet', '3 sheets'."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
