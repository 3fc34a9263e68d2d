"""The covers: every sort in turn, each from dice of its own, written as files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from multiprocessing import Pool
from pathlib import Path
from random import Random

from PIL import Image

from tests.bench.blind import fronts, scans, screens, words, wraps
from tests.bench.blind.fronts import Draw
from tests.bench.blind.photographs import album
from tests.bench.blind.placing import Kit
from tests.bench.blind.truth import Cover
from tests.bench.blind.typefaces import typefaces
from tests.bench.blind.words import Name

SORTS: Mapping[str, Draw] = {
    "title at top": fronts.rim("top"),
    "title at bottom": fronts.rim("bottom"),
    "title turned at left": fronts.rim("left"),
    "title turned at right": fronts.rim("right"),
    "title flush to a side": fronts.flush,
    "title in two lines": fronts.two_lines,
    "title on a busy picture": fronts.busy,
    "title in a banner": fronts.banner,
    "title in a bar": fronts.title_bar,
    "small print in a bar": fronts.bar,
    "small print in corners": fronts.printed_small,
    "bordered": scans.bordered,
    "skewed": scans.skewed,
    "framed": scans.framed,
    "wrap": wraps.wrap,
    "cassette card": wraps.flap_card,
    "like a wrap": wraps.like_a_wrap,
    "screenshot": screens.screenshot,
    "too wide": fronts.extreme(tall=False),
    "too tall": fronts.extreme(tall=True),
    "subject off centre": fronts.off_centre,
    "subject off centre, titled": fronts.off_centre_titled,
    "no lettering": fronts.bare,
}
"""By name: how one is drawn."""

GRAIN = 0.3
"""Share of covers that have a little of a sensor's noise."""


def draw(kit: Kit, seed: str, number: int, name: Name) -> tuple[Cover, Image.Image, Image.Image]:
    """Return cover ``number`` of a seed: the truth, the picture, and its title's ink alone."""
    sort = list(SORTS)[number % len(SORTS)]
    dice = Random(f"{seed} {number}")
    canvas = SORTS[sort](dice, kit, name.printed)
    if dice.random() < GRAIN and not canvas.dot:
        canvas.image = scans.grainy(dice, canvas.image, 2.0)
    suffix = ".png" if canvas.dot else ".jpg"
    return canvas.cover(sort, name.listed, name.listed + suffix), canvas.image, canvas.ink


def write(
    folder: Path, count: int, seed: str, photos: Path | None, fonts: Path | None
) -> list[Cover]:
    """Write so many covers into ``folder`` and return the truth about them, in order."""
    (folder / "covers").mkdir(parents=True)
    (folder / "ink").mkdir()
    numbered = list(enumerate(words.names(seed, count)))
    with Pool(2, _begin, (photos, fonts)) as pool:
        return pool.starmap(partial(_write, folder, seed), numbered, chunksize=8)


_kit: list[Kit] = []
"""What this process draws with."""


def _begin(photos: Path | None, fonts: Path | None) -> None:
    _kit[:] = [Kit(album(photos), typefaces(fonts))]


def _write(folder: Path, seed: str, number: int, name: Name) -> Cover:
    cover, image, ink = draw(_kit[0], seed, number, name)
    path = folder / "covers" / cover.file
    if path.suffix == ".png":
        image.save(path)
    else:
        image.save(path, "JPEG", quality=84 + number % 11)
    ink.convert("1", dither=Image.Dither.NONE).save(ink_of(folder, cover))
    return cover


def ink_of(folder: Path, cover: Cover) -> Path:
    """Return the file with the ink of a cover's title: white on black, as large as the cover."""
    return folder / "ink" / f"{Path(cover.file).stem}.png"


def list_of(folder: Path, covers: Sequence[Cover]) -> Path:
    """Write the list of the covers' titles; return its file."""
    path = folder / "list.csv"
    rows = ["Title", *(f'"{cover.title}"' for cover in covers)]
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path
