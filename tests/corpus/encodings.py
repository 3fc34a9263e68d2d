"""Writing one picture as many kinds of file, each holding the same upright sRGB picture."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

ORIENTATION = 0x0112
"""Exif 2.32, table 4."""

Writer = Callable[[Image.Image, Path], None]


def png(picture: Image.Image, path: Path) -> None:
    picture.save(path, compress_level=1)


def jpeg(picture: Image.Image, path: Path) -> None:
    picture.save(path, "JPEG", quality=90)


def progressive(picture: Image.Image, path: Path) -> None:
    picture.save(path, "JPEG", quality=90, progressive=True)


def cmyk(picture: Image.Image, path: Path) -> None:
    """Four inks, inverted and with Adobe's marker, as layout programs write them."""
    picture.convert("CMYK").save(path, "JPEG", quality=92)


def png16(picture: Image.Image, path: Path) -> None:
    """Sixteen bits a channel: colour type 2, depth 16 (ISO/IEC 15948, 11.2.2)."""
    _write_png16(np.asarray(picture.convert("RGB")), path, colour_type=2)


def grey16(picture: Image.Image, path: Path) -> None:
    """Sixteen bits of grey: colour type 0, depth 16."""
    _write_png16(np.asarray(picture.convert("L"))[..., None], path, colour_type=0)


def _write_png16(levels: np.ndarray, path: Path, colour_type: int) -> None:
    height, width, _ = levels.shape
    wide = (levels.astype(np.uint32) * 257).astype(">u2")  # 255 becomes 65535
    rows = b"".join(b"\0" + row.tobytes() for row in wide)
    header = struct.pack(">IIBBBBB", width, height, 16, colour_type, 0, 0, 0)
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(rows, 1))
        + chunk(b"IEND", b"")
    )


def chunk(kind: bytes, data: bytes) -> bytes:
    """Return a PNG chunk (ISO/IEC 15948, 5.3)."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


STORED: Mapping[int, Image.Transpose | None] = {
    1: None,  # row 0 is the top, column 0 the left
    2: Image.Transpose.FLIP_LEFT_RIGHT,  # top, right
    3: Image.Transpose.ROTATE_180,  # bottom, right
    4: Image.Transpose.FLIP_TOP_BOTTOM,  # bottom, left
    5: Image.Transpose.TRANSPOSE,  # left, top
    6: Image.Transpose.ROTATE_90,  # right, top
    7: Image.Transpose.TRANSVERSE,  # right, bottom
    8: Image.Transpose.ROTATE_270,  # left, bottom
}
"""How an upright picture is stored for each orientation: what its row 0 and column 0 are."""


def turned(orientation: int) -> Writer:
    """Return a writer of JPEGs that ask to be turned."""

    def write(picture: Image.Image, path: Path) -> None:
        turn = STORED[orientation]
        stored = picture if turn is None else picture.transpose(turn)
        exif = Image.Exif()
        exif[ORIENTATION] = orientation
        stored.save(path, "JPEG", quality=90, exif=exif)

    return write


def palette(picture: Image.Image, path: Path) -> None:
    # The octree finds its colours ten times as fast as the median cut.
    picture.quantize(255, Image.Quantize.FASTOCTREE).save(path, "GIF")


def webp_alpha(picture: Image.Image, path: Path) -> None:
    """Round corners that are clear, the rest opaque."""
    mask = Image.new("L", picture.size)
    box = (0, 0, picture.width - 1, picture.height - 1)
    ImageDraw.Draw(mask).rounded_rectangle(box, min(picture.size) // 20, 255)
    clear = picture.convert("RGBA")
    clear.putalpha(mask)
    clear.save(path, "WEBP", quality=90, method=1)


# Primaries of DCI-P3 (SMPTE RP 431-2) with the white of sRGB, as XYZ columns adapted to D50
# by Bradford, and those of sRGB (IEC 61966-2-1) the same way: computed from the chromaticities.
_P3_CHROMATICITIES = ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060))
_SRGB_CHROMATICITIES = ((0.640, 0.330), (0.300, 0.600), (0.150, 0.060))
_D65 = (0.3127, 0.3290)
_D50 = np.array((0.9642, 1.0, 0.8249))
"""The illuminant of the profile connection space (ICC.1, 7.2.16)."""
_BRADFORD = np.array(
    ((0.8951, 0.2664, -0.1614), (-0.7502, 1.7135, 0.0367), (0.0389, -0.0685, 1.0296))
)
_GAMMA = 563 / 256  # as near 2.2 as a curve of one u8Fixed8Number comes (ICC.1, 10.6)


def _xyz(chromaticity: tuple[float, float]) -> np.ndarray:
    x, y = chromaticity
    return np.array((x / y, 1.0, (1 - x - y) / y))


def _to_d50(chromaticities: tuple[tuple[float, float], ...]) -> np.ndarray:
    """Return the matrix from linear light of these primaries to XYZ under D50."""
    columns = np.stack([_xyz(one) for one in chromaticities], axis=1)
    white = _xyz(_D65)
    matrix = columns * np.linalg.solve(columns, white)
    cones = np.diag((_BRADFORD @ _D50) / (_BRADFORD @ white))
    return np.linalg.inv(_BRADFORD) @ cones @ _BRADFORD @ matrix


def wide_gamut(picture: Image.Image, path: Path) -> None:
    """The numbers of a wide gamut and the profile that says so."""
    levels = np.asarray(picture.convert("RGB")) / 255
    light = np.where(levels <= 0.04045, levels / 12.92, ((levels + 0.055) / 1.055) ** 2.4)
    across = np.linalg.inv(_to_d50(_P3_CHROMATICITIES)) @ _to_d50(_SRGB_CHROMATICITIES)
    wide = np.clip(light @ across.T, 0, 1) ** (1 / _GAMMA)
    Image.fromarray((wide * 255).round().astype(np.uint8)).save(
        path, "JPEG", quality=95, icc_profile=_profile()
    )


def _profile() -> bytes:
    """Return a display profile of three primaries and one curve (ICC.1:2001-04, version 2)."""

    def fixed(number: float) -> bytes:
        return struct.pack(">i", round(number * 65536))

    def xyz(column: np.ndarray) -> bytes:
        return b"XYZ \0\0\0\0" + b"".join(fixed(value) for value in column)

    columns = _to_d50(_P3_CHROMATICITIES).T
    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(_GAMMA * 256)) + b"\0\0"
    words = b"wide gamut"
    text = b"desc\0\0\0\0" + struct.pack(">I", len(words) + 1) + words + b"\0" + bytes(79)
    tags = {
        b"desc": text + bytes(-len(text) % 4),
        b"cprt": b"text\0\0\0\0none\0\0\0\0",
        b"wtpt": xyz(_D50),
        **dict(zip((b"rXYZ", b"gXYZ", b"bXYZ"), map(xyz, columns), strict=True)),
        **dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), curve),
    }
    table, body, at = io.BytesIO(), io.BytesIO(), 128 + 4 + 12 * len(tags)
    table.write(struct.pack(">I", len(tags)))
    for name, data in tags.items():
        table.write(name + struct.pack(">II", at + body.tell(), len(data)))
        body.write(data)
    rest = table.getvalue() + body.getvalue()
    header = struct.pack(">I", 128 + len(rest)) + bytes(4) + struct.pack(">I", 0x02400000)
    header += b"mntrRGB XYZ " + bytes(12) + b"acsp" + bytes(28)
    header += b"".join(fixed(value) for value in _D50)
    return header + bytes(128 - len(header)) + rest


ENCODINGS: Mapping[str, tuple[str, Writer]] = {
    "png": (".png", png),
    "jpeg": (".jpg", jpeg),
    "progressive": (".jpeg", progressive),
    "cmyk": (".jpg", cmyk),
    "png16": (".png", png16),
    "grey16": (".PNG", grey16),
    **{f"turned {n}": (".JPG" if n % 2 else ".jpg", turned(n)) for n in STORED},
    "palette": (".gif", palette),
    "webp alpha": (".webp", webp_alpha),
    "wide gamut": (".jpg", wide_gamut),
}
"""Suffix and writer of each kind of file, by name."""
