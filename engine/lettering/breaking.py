"""Where a title may be broken into lines: UAX #14, the Unicode line breaking algorithm."""

from __future__ import annotations

from functools import lru_cache


@lru_cache(maxsize=4096)
def breaks(text: str) -> tuple[int, ...]:
    """Return the indices at which a line of ``text`` may end, its own end left out."""
    from uniseg.linebreak import line_break_boundaries

    return tuple(index for index in line_break_boundaries(text) if 0 < index < len(text))
