"""Which font: the one that ships, one of the machine, one from a file."""

from __future__ import annotations

from functools import lru_cache

from engine.errors import FontError
from engine.values import FontRef

SEMI_BOLD = 600.0
"""OpenType weight class; sturdier strokes hold on a small printed edge (common practice, no
published source)."""


@lru_cache(maxsize=1)
def default_font() -> FontRef:
    """Return the sans that ships: semi-bold, Latin, Greek and Cyrillic, open licence.

    Raises FontError when its package is damaged.
    """
    import fontpkg_noto_sans as package

    for path in sorted((package.ROOT / "files").glob("*.ttf")):
        if "Italic" not in path.name:
            return FontRef(str(path), 0, (("wdth", 100.0), ("wght", SEMI_BOLD)))
    raise FontError("fontpkg-noto-sans", "the package holds no font", "Install it again")
