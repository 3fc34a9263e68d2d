"""The font that ships with the program, the same file on every machine."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from engine.model.errors import FontError

SHIPPED_FAMILY = "Noto Sans"


@lru_cache(maxsize=1)
def shipped_font() -> Path:
    """Return the file of the sans that ships: variable, Latin, Greek and Cyrillic, open licence.

    Raises FontError when its package is damaged.
    """
    import fontpkg_noto_sans as package

    for path in sorted((Path(package.ROOT) / "files").glob("*.ttf")):
        if "Italic" not in path.name:
            return path
    raise FontError("fontpkg-noto-sans", "the package holds no font", "Install it again")
