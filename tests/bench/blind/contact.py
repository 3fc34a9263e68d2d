"""Contact sheets of what is wrong though it was sure, the truth drawn in.

Red is the title, orange other lettering, green the subject, blue the art without its border;
what is dark is not printed.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PIL import Image, ImageDraw, ImageEnhance

from engine.artwork.straightening import straightened
from engine.artwork.windows import PixelRect
from tests.bench.blind.printed import pixels
from tests.bench.blind.trial import Row
from tests.bench.blind.truth import Cover, Quad, Role, straight

ACROSS, DOWN = 8, 7
"""Covers on one sheet."""
CELL = (250, 290)
PICTURE = (240, 230)
COLUMNS = 46
"""Letters that fit on a line."""


def write(path: Path, rows: Sequence[Row], covers: Sequence[Cover], pictures: Path) -> list[Path]:
    """Write the sheets of ``rows``; those after the first are numbered. Return their files."""
    per_sheet = ACROSS * DOWN
    written = []
    for start in range(0, len(rows), per_sheet):
        some = rows[start : start + per_sheet]
        sheet = Image.new("RGB", (ACROSS * CELL[0], -(-len(some) // ACROSS) * CELL[1]), "white")
        for place, row in enumerate(some):
            at = (place % ACROSS * CELL[0] + 4, place // ACROSS * CELL[1] + 4)
            _cell(sheet, at, row, covers[row.number], pictures)
        number = start // per_sheet + 1
        file = path if number == 1 else path.with_stem(f"{path.stem}-{number}")
        sheet.save(file)
        written.append(file)
    return written


def _cell(sheet: Image.Image, at: tuple[int, int], row: Row, cover: Cover, pictures: Path) -> None:
    picture = _seen(row, cover, pictures)
    sheet.paste(picture, (at[0], at[1] + CELL[1] - PICTURE[1] - 10))
    pen = ImageDraw.Draw(sheet)
    heading = f"{row.number} {row.sort}, {row.kind}, {row.fit}"
    wrong = dict(row.faults)
    lines = [heading, *(f"{aspect}: {words}" for aspect, words in wrong.items())]
    for place, line in enumerate(lines[:4]):
        pen.text((at[0], at[1] + 11 * place), line[:COLUMNS], "black" if place == 0 else "#a00000")


def _seen(row: Row, cover: Cover, pictures: Path) -> Image.Image:
    """Return the straightened cover, small, with the truth on it and dark where it is cut."""
    with Image.open(pictures / cover.file) as file:
        image = file.convert("RGB")
    scale = min(PICTURE[0] / image.width, PICTURE[1] / image.height)
    size = (max(1, round(image.width * scale)), max(1, round(image.height * scale)))
    image = straightened(image.resize(size), row.turn)
    dark = ImageEnhance.Brightness(image).enhance(0.3)
    for box in row.seen:
        part = pixels(PixelRect(*(side * scale for side in box)))
        dark.paste(image.crop(part), part[:2])
    pen = ImageDraw.Draw(dark)

    def outline(quad: Quad, colour: str) -> None:
        turned = straight(quad, row.turn, cover.size)
        pen.polygon([(x * scale, y * scale) for x, y in turned], outline=colour)

    outline(cover.art, "#4080ff")
    if cover.subject is not None:
        outline(cover.subject.quad, "lime")
    for line in cover.lines:
        outline(line.quad, "red" if line.role is Role.TITLE else "orange")
    return dark
