"""Real fonts: those that come with what the tests need, more from a folder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from importlib.util import find_spec
from itertools import product
from pathlib import Path
from typing import NamedTuple

from fontTools.ttLib import TTFont, TTLibError
from PIL import ImageFont

PACKAGES = ("fontpkg_noto_sans", "reportlab", "matplotlib", "uniseg", "matplotlib_fontja")
"""Those with fonts in their wheels; one that is not installed is passed over."""
UNSUITED = ("hb-test", "LastResort", "NonUni", "Siz", "cmb", "cmex", "cmmi", "cmsy")
"""Test fonts and parts of sets for formulas."""
WEIGHTS, WIDTHS = (300, 500, 700, 900), (62.5, 82.0, 100.0)
"""Of variable fonts."""
LATIN = frozenset(map(ord, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&"))


class Typeface(NamedTuple):
    """A font file, and for a variable font a weight and a width of it."""

    path: Path
    axes: tuple[float, ...] = ()

    def at(self, pixels: int) -> ImageFont.FreeTypeFont:
        """Return the font at so many pixels to the em."""
        font = ImageFont.truetype(str(self.path), pixels)
        if self.axes:
            font.set_variation_by_axes(list(self.axes))
        return font

    def has(self, text: str) -> bool:
        """Return whether the font has every letter of ``text``."""
        return {ord(letter) for letter in text if letter != " "} <= _letters(self.path)


def typefaces(folder: Path | None = None) -> tuple[Typeface, ...]:
    """Return every typeface of the installed packages and of a folder."""
    found = [path for package in PACKAGES for path in _files(_home(package))]
    found += _files(folder)
    return tuple(face for path in found for face in _faces(path))


def _home(package: str) -> Path | None:
    spec = find_spec(package)
    return Path(spec.origin).parent if spec and spec.origin else None


def _files(folder: Path | None) -> list[Path]:
    if folder is None:
        return []
    paths = sorted(path for path in folder.rglob("*") if path.suffix.lower() in {".ttf", ".otf"})
    return [path for path in paths if not any(part in path.name for part in UNSUITED)]


def _faces(path: Path) -> Iterator[Typeface]:
    if not _letters(path) >= LATIN:
        return
    axes = _axes(path)
    if not axes:
        yield Typeface(path)
        return
    for weight, width in product(WEIGHTS, WIDTHS):
        wanted = {"wght": float(weight), "wdth": width}
        yield Typeface(path, tuple(wanted.get(tag, usual) for tag, usual in axes))


@cache
def _letters(path: Path) -> frozenset[int]:
    try:
        with TTFont(path, lazy=True) as font:
            return frozenset(font.getBestCmap() or ())
    except TTLibError:
        return frozenset()


def _axes(path: Path) -> list[tuple[str, float]]:
    with TTFont(path, lazy=True) as font:
        if "fvar" not in font:
            return []
        return [(axis.axisTag, float(axis.defaultValue)) for axis in font["fvar"].axes]


def able(faces: Iterable[Typeface], text: str) -> list[Typeface]:
    """Return the typefaces that have every letter of ``text``."""
    return [face for face in faces if face.has(text)]
