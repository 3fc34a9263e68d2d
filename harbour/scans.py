"""What becomes of a cover when people scan it: borders, turns, odd formats."""

from __future__ import annotations

from pathlib import Path

from PIL import Image, ImageChops, ImageDraw

from harbour.canvas import chance

FINISHES = (
    "alpha",
    "cmyk",
    "crooked",
    "flat",
    "grey",
    "screen",
    "side bar",
    "turned 6",
    "turned 8",
    "white border",
)
"""What can happen to a picture; ``flat`` and ``side bar`` are drawn, the rest is done here."""

_ORIENTATION = 0x0112
"""The Exif tag that tells how to turn a picture (Exif 2.32, table 4)."""
_QUALITY = 56
"""Of JPEG, as low as it can be before it shows on paper: all covers ship with the program."""
_SCREEN_COLOURS = 12
_GRAIN = 6
"""How far paper and scanner scatter a level, of 255."""


def write(path: Path, cover: Image.Image, finish: str) -> None:
    """Write a drawn cover as the file a scanner or a person would have left."""
    kind = path.suffix.lower()
    picture = _finished(cover, finish, seed=path.name)
    if kind in {".jpg", ".jpeg"}:
        _write_jpeg(path, picture, finish)
    elif kind == ".webp":
        picture.save(path, quality=80, method=6)
    elif kind == ".gif" or finish == "screen":
        picture.quantize(_SCREEN_COLOURS, dither=Image.Dither.NONE).save(path, optimize=True)
    else:
        picture.save(path, optimize=True)


def _finished(cover: Image.Image, finish: str, *, seed: str) -> Image.Image:
    if finish == "white border":
        return _bordered(cover, seed)
    if finish == "crooked":
        return _crooked(cover)
    if finish == "alpha":
        return _rounded(cover)
    return cover


def _write_jpeg(path: Path, picture: Image.Image, finish: str) -> None:
    picture = _grainy(picture)
    exif = Image.Exif()
    if finish == "grey":
        picture = picture.convert("L")
    elif finish == "cmyk":
        picture = picture.convert("CMYK")
    elif finish.startswith("turned"):
        # Exif: 6 asks to be turned a quarter clockwise to stand upright, 8 the other way
        turn = finish.removeprefix("turned ")
        back = {"6": Image.Transpose.ROTATE_90, "8": Image.Transpose.ROTATE_270}[turn]
        picture = picture.transpose(back)
        exif[_ORIENTATION] = int(turn)
    progressive = max(picture.size) > 1100
    picture.save(path, quality=_QUALITY, progressive=progressive, optimize=True, exif=exif)


def _grainy(picture: Image.Image) -> Image.Image:
    """Return a picture with the grain of paper over it."""
    side = 256
    noise = chance("grain").randbytes(side * side)
    middle = 128 - _GRAIN // 2
    grain = Image.frombytes("L", (side, side), noise).point(
        [middle + level * _GRAIN // 255 for level in range(256)]
    )
    sheet = Image.new("L", picture.size)
    for x in range(0, picture.width, side):
        for y in range(0, picture.height, side):
            sheet.paste(grain, (x, y))
    return ImageChops.add(picture, sheet.convert(picture.mode), offset=-128)


def _bordered(cover: Image.Image, seed: str) -> Image.Image:
    """Return a cover with the white of the scanner's lid around it, uneven as by hand."""
    rng = chance(seed)
    left, top, right, bottom = (round(min(cover.size) * rng.uniform(0.03, 0.08)) for _ in range(4))
    lid = Image.new("RGB", (cover.width + left + right, cover.height + top + bottom), "#f8f7f4")
    lid.paste("#dcdad4", (left + 3, top + 3, left + cover.width + 3, top + cover.height + 3))
    lid.paste(cover, (left, top))
    return lid


def _crooked(cover: Image.Image) -> Image.Image:
    """Return a cover that lay askew on the glass."""
    return cover.rotate(1.4, Image.Resampling.BICUBIC, expand=True, fillcolor="#eceae6")


def _rounded(cover: Image.Image) -> Image.Image:
    """Return a cover with round corners, clear beyond them."""
    mask = Image.new("L", cover.size)
    box = (0, 0, cover.width - 1, cover.height - 1)
    ImageDraw.Draw(mask).rounded_rectangle(box, min(cover.size) // 12, 255)
    clear = cover.convert("RGBA")
    clear.putalpha(mask)
    return clear
