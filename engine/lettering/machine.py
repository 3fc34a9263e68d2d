"""The fonts to hand: those of installed font packages, and the machine's."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from importlib.metadata import entry_points
from pathlib import Path

from engine.lettering.fontfile import FontFacts, faces_in
from engine.model import FontRef
from engine.model.errors import FontError

WEIGHT = 600.0
"""Semi-bold in OpenType's weight classes: its strokes hold on a small printed edge (common
practice, no published source)."""

_USUAL = {".ttf", ".otf", ".ttc", ".otc"}


@lru_cache(maxsize=1)
def fonts_to_hand() -> tuple[FontFacts, ...]:
    """Return the usable fonts of installed font packages and of the machine, best first."""
    return best_first(_packaged(), _installed())


def best_first(packaged: Iterable[Path], installed: Iterable[Path]) -> tuple[FontFacts, ...]:
    """Return the usable faces of font files.

    Packages come first, since they are the same on most machines; then upright before
    italic, sans before the rest, and by how near they are to semi-bold.
    """
    packaged = tuple(packaged)
    faces: list[FontFacts] = []
    for path in dict.fromkeys((*packaged, *installed)):
        try:
            faces += [known for known in faces_in(path) if known.usable]
        except FontError:
            continue  # a broken file of the machine is not the person's concern here
    own = frozenset(map(str, packaged))
    return tuple(sorted(faces, key=lambda known: _rank(known, own)))


def weighted(known: FontFacts) -> FontRef:
    """Return a face at semi-bold and natural width, where it is variable."""
    usual = {"wght": WEIGHT, "wdth": 100.0}
    axes = tuple(
        (axis.tag, min(max(usual[axis.tag], axis.least), axis.most))
        for axis in sorted(known.axes)
        if axis.tag in usual
    )
    return FontRef(known.font.path, known.font.face, axes)


def _rank(known: FontFacts, packaged: frozenset[str]) -> tuple[bool, bool, bool, float, str, int]:
    plain = any(word in known.family for word in ("Sans", "Gothic", "Grotesk", "Kaku"))
    adjusts = any(axis.tag == "wght" for axis in known.axes)
    return (
        known.font.path not in packaged,
        known.italic or "Mono" in known.family,
        not plain,
        0.0 if adjusts else abs(known.weight - WEIGHT),
        known.font.path,
        known.font.face,
    )


def _packaged() -> tuple[Path, ...]:
    """Return the files of installed packages that offer fonts the way ours comes."""
    files: list[Path] = []
    for point in entry_points(group="fontpkg.family"):
        root = Path(point.load().ROOT)
        files += (root / "files").glob("*")
    return tuple(sorted(path for path in files if path.suffix.lower() in _USUAL))


def _installed() -> tuple[Path, ...]:
    """Return the font files of the machine; none where it cannot be asked."""
    from find_system_fonts_filename import FindSystemFontsFilenameException as CannotAsk
    from find_system_fonts_filename import get_system_fonts_filename

    try:
        found = get_system_fonts_filename()
    except (CannotAsk, OSError):
        return ()
    return tuple(sorted(path for name in found if (path := Path(name)).suffix.lower() in _USUAL))
