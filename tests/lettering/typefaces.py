"""Fonts for titles in ten scripts, from packages, so that every machine tests the same."""

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from engine.lettering import TypeStyle, choose_font
from engine.model import FontRef


@cache
def packaged(package: str, name: str = "") -> FontRef:
    root = Path(find_spec(package).submodule_search_locations[0])
    found = sorted(path for path in root.rglob("*.ttf") if "Italic" not in path.name)
    path = next(path for path in found if path.name.startswith(name))
    return choose_font(path)


JAPANESE = packaged("matplotlib_fontja")
ARABIC = packaged("fontpkg_noto_sans_arabic")
HEBREW = packaged("fontpkg_heebo")
THAI = packaged("fontpkg_noto_sans_thai")
TAMIL = packaged("fontpkg_noto_sans_tamil")

FILES = tuple(Path(font.path) for font in (HEBREW, ARABIC, THAI, TAMIL, JAPANESE))
"""The only fonts that are to hand in tests, beside the one that ships."""

CHAIN = (HEBREW, ARABIC, THAI, TAMIL, JAPANESE)
STYLE = TypeStyle(fallbacks=CHAIN)
