"""Files that a stranger made to break whoever opens them, each made when it is wanted.

    python -m tests.corpus.hostile FOLDER

None is stored: a few lines that make one say what it does, and nobody wants a folder of bombs. What
each does to a program that opens it without limits stands beside it.
"""

from __future__ import annotations

import struct
import sys
import zlib
from collections.abc import Callable, Iterable, Mapping
from io import BytesIO
from pathlib import Path
from typing import NamedTuple
from zipfile import ZIP_DEFLATED, ZipFile

from PIL import Image

from tests.corpus.encodings import chunk


class Hostile(NamedTuple):
    """A hostile file: what its name ends in, and what its bytes are."""

    suffix: str
    make: Callable[[], bytes]


# --- PDF (ISO 32000-1) ----------------------------------------------------------------------


def pdf(objects: Iterable[bytes]) -> bytes:
    """Return a PDF of objects numbered from 1, the first its catalogue (7.5)."""
    out, at = BytesIO(), list[int]()
    out.write(b"%PDF-1.7\n")
    for number, one in enumerate(objects, start=1):
        at.append(out.tell())
        out.write(b"%d 0 obj\n%s\nendobj\n" % (number, one))
    start = out.tell()
    out.write(b"xref\n0 %d\n0000000000 65535 f \n" % (len(at) + 1))
    out.write(b"".join(b"%010d 00000 n \n" % place for place in at))
    out.write(b"trailer\n<< /Size %d /Root 1 0 R >>\n" % (len(at) + 1))
    out.write(b"startxref\n%d\n%%%%EOF\n" % start)
    return out.getvalue()


def stream(data: bytes, entries: bytes = b"") -> bytes:
    return b"<< /Length %d %s >>\nstream\n%s\nendstream" % (len(data), entries, data)


def page(content: bytes, *more: bytes, resources: bytes = b"", size: bytes = b"300 400") -> bytes:
    """Return a PDF of one page; its content is object 4, ``more`` are numbered from 5."""
    return pdf(
        [
            b"<< /Type /Catalog /Pages 2 0 R >>",
            b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
            b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 %s] /Contents 4 0 R"
            b" /Resources << %s >> >>" % (size, resources),
            content,
            *more,
        ]
    )


_FORM = b"/Type /XObject /Subtype /Form /BBox [0 0 300 400]"


def forms_that_multiply() -> bytes:
    """Each of twelve forms draws the next one ten times: a million million squares."""
    depth, draws = 12, 10
    forms = [
        stream(
            b"/F Do\n" * draws,
            _FORM + b" /Resources << /XObject << /F %d 0 R >> >>" % (6 + level),
        )
        for level in range(depth)
    ]
    last = stream(b"0.5 g 0 0 300 400 re f\n" * 10, _FORM)
    return page(stream(b"/F Do"), *forms, last, resources=b"/XObject << /F 5 0 R >>")


def form_within_itself() -> bytes:
    form = stream(b"/F Do /F Do", _FORM + b" /Resources << /XObject << /F 5 0 R >> >>")
    return page(stream(b"/F Do"), form, resources=b"/XObject << /F 5 0 R >>")


def content_that_multiplies() -> bytes:
    """One stream of 20 MB once unpacked, named two thousand times as content of the page."""
    squares = zlib.compress(b"0 0 300 400 re f\n" * 1_200_000, 9)
    return page(b"[" + b"5 0 R " * 2_000 + b"]", stream(squares, b"/Filter /FlateDecode"))


def packed_content() -> bytes:
    """Content that unpacks to four gigabytes of saved graphics states."""
    squeeze = zlib.compressobj(9)
    block = b"q " * 8_000_000
    packed = b"".join(squeeze.compress(block) for _ in range(250)) + squeeze.flush()
    twice = zlib.compress(packed, 9)
    return page(stream(twice, b"/Filter [/FlateDecode /FlateDecode]"))


def packed_image() -> bytes:
    """A picture of 900 million pixels within a page: 2.7 GB once unpacked."""
    squeeze = zlib.compressobj(1)
    packed = b"".join(squeeze.compress(bytes(30_000_000)) for _ in range(90)) + squeeze.flush()
    image = stream(
        packed,
        b"/Type /XObject /Subtype /Image /Width 30000 /Height 30000 /ColorSpace /DeviceRGB"
        b" /BitsPerComponent 8 /Filter /FlateDecode",
    )
    return page(stream(b"300 0 0 400 0 0 cm /I Do"), image, resources=b"/XObject << /I 5 0 R >>")


def strip_of_a_page() -> bytes:
    """A page a hundred thousand times as long as it is wide."""
    return page(stream(b"0 0 1 1 re f"), size=b"0.01 14400")


def pages_within_each_other() -> bytes:
    return pdf(
        [
            b"<< /Type /Catalog /Pages 2 0 R >>",
            b"<< /Type /Pages /Kids [2 0 R 2 0 R] /Parent 2 0 R /Count 100000000 >>",
        ]
    )


# --- pictures -------------------------------------------------------------------------------


def plain(width: int, height: int, kind: str = "PNG") -> bytes:
    """Return a picture of one tone."""
    file = BytesIO()
    Image.new("L", (width, height), 90).save(file, kind)
    return file.getvalue()


def png(width: int, height: int, *chunks: bytes, colour: int = 0, depth: int = 8) -> bytes:
    """Return a whole PNG of zeros (W3C PNG, 11.2), ``chunks`` before its pixels."""
    channels = {0: 1, 2: 3, 4: 2, 6: 4}[colour]
    row = 1 + (width * channels * depth + 7) // 8
    squeeze = zlib.compressobj(1)
    rows = max(1, 10_000_000 // row)
    parts = [
        squeeze.compress(bytes(row * min(rows, height - top))) for top in range(0, height, rows)
    ]
    header = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    pixels = chunk(b"IDAT", b"".join(parts) + squeeze.flush())
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        (chunk(b"IHDR", header), *chunks, pixels, chunk(b"IEND", b""))
    )


def scans(side: int = 6000, times: int = 4000) -> bytes:
    """A progressive JPEG that goes over 36 million pixels four thousand times (T.81, G)."""
    file = BytesIO()
    Image.new("L", (side, side), 90).save(file, "JPEG", progressive=True)
    data = file.getvalue()
    first = data.index(b"\xff\xda")
    starts = [first]
    while (at := data.find(b"\xff\xda", starts[-1] + 2)) >= 0:
        starts.append(at)
    last = data[starts[-1] : data.rindex(b"\xff\xd9")]
    return data[: starts[-1]] + last * times + b"\xff\xd9"


def frames() -> bytes:
    """A GIF of half a million frames, each a few bytes (GIF89a, 20)."""
    file = BytesIO()
    Image.new("P", (8, 8)).save(file, "GIF")
    data = file.getvalue()
    at = data.index(b",")
    frame = data[at : data.rindex(b";")]
    return data[:at] + frame * 500_000 + b";"


def profile_bomb() -> bytes:
    """A PNG whose colour profile unpacks to a gigabyte (W3C PNG, 11.3.2.3)."""
    squeeze = zlib.compressobj(9)
    block = bytes(10_000_000)
    packed = b"".join(squeeze.compress(block) for _ in range(100)) + squeeze.flush()
    return png(8, 8, chunk(b"iCCP", b"x\0\0" + packed), colour=2)


# --- SVG ------------------------------------------------------------------------------------


def svg(inside: str, head: str = "") -> bytes:
    return (
        f'{head}<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100"'
        f' xmlns:xlink="http://www.w3.org/1999/xlink">{inside}</svg>'
    ).encode()


def uses_that_multiply() -> bytes:
    """Each of twenty groups uses the one before it ten times."""
    groups = ['<g id="a0"><rect width="9" height="9"/></g>']
    groups += [
        f'<g id="a{level}">' + f'<use xlink:href="#a{level - 1}"/>' * 10 + "</g>"
        for level in range(1, 20)
    ]
    return svg("".join(groups))


def entities_that_multiply() -> bytes:
    """Entities of entities (XML 1.0, 4.2), nine deep: a thousand million letters."""
    lines = ['<!ENTITY e0 "laughter">']
    lines += [f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 10)]
    return svg("<text>&e9;</text>", f"<!DOCTYPE svg [{''.join(lines)}]>")


def filters() -> bytes:
    """A chain of ten thousand blurs over the whole drawing."""
    chain = '<feGaussianBlur stdDeviation="50"/><feTurbulence numOctaves="9"/>' * 5_000
    return svg(f'<filter id="f">{chain}</filter><rect width="200" height="100" filter="url(#f)"/>')


def drawing_within_drawings() -> bytes:
    """A drawing that holds a drawing as a picture, which holds one, ..."""
    from base64 import b64encode

    data = svg('<rect width="9" height="9"/>')
    for _ in range(14):
        href = f"data:image/svg+xml;base64,{b64encode(data).decode()}"
        data = svg(
            f'<image xlink:href="{href}" width="200" height="100"/>'
            * (1 if len(data) > 100_000 else 2)
        )
    return data


# --- lists and settings ---------------------------------------------------------------------


def sheet_bomb() -> bytes:
    """A spreadsheet of two kilobytes for each million cells."""
    file = BytesIO()
    with ZipFile(file, "w", ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet1.xml", b"<row><c><v>1</v></c></row>" * 4_000_000)
    return file.getvalue()


def deep_toml() -> bytes:
    return b"a = " + b"[" * 100_000 + b"]" * 100_000


def long_line() -> bytes:
    return b"title,case\n" + b"A" * 30_000_000 + b",\n"


def many_columns() -> bytes:
    return b"title" + b"," * 3_000_000 + b"\nOyster Clock" + b"," * 3_000_000


PICTURES: Mapping[str, Hostile] = {
    "forms that multiply": Hostile(".pdf", forms_that_multiply),
    "forms, called a picture": Hostile(".png", forms_that_multiply),
    "a form within itself": Hostile(".pdf", form_within_itself),
    "content that multiplies": Hostile(".pdf", content_that_multiplies),
    "packed content": Hostile(".pdf", packed_content),
    "packed image": Hostile(".pdf", packed_image),
    "strip of a page": Hostile(".pdf", strip_of_a_page),
    "pages within each other": Hostile(".pdf", pages_within_each_other),
    "one pixel": Hostile(".png", lambda: plain(1, 1)),
    "one pixel wide": Hostile(".png", lambda: plain(1, 600)),
    "two pixels high": Hostile(".png", lambda: plain(900, 2)),
    "two pixels high, JPEG": Hostile(".jpg", lambda: plain(1200, 2, "JPEG")),
    "one pixel wide, very tall": Hostile(".png", lambda: png(1, 39_000_000)),
    "one pixel high, very wide": Hostile(".png", lambda: png(39_000_000, 1, depth=1)),
    "one pixel wide, tall JPEG": Hostile(".jpg", lambda: plain(1, 65_000, "JPEG")),
    "thousands of scans": Hostile(".jpg", scans),
    "half a million frames": Hostile(".gif", frames),
    "packed profile": Hostile(".png", profile_bomb),
    "900 million pixels": Hostile(".png", lambda: png(30_000, 30_000, depth=1)),
    "uses that multiply": Hostile(".svg", uses_that_multiply),
    "entities that multiply": Hostile(".svg", entities_that_multiply),
    "ten thousand filters": Hostile(".svg", filters),
    "drawings within drawings": Hostile(".svg", drawing_within_drawings),
}
"""What may come as art, by what is wrong with it."""

LISTS: Mapping[str, Hostile] = {
    "packed spreadsheet": Hostile(".csv", sheet_bomb),
    "one long line": Hostile(".csv", long_line),
    "three million columns": Hostile(".csv", many_columns),
}


def write(folder: Path, files: Mapping[str, Hostile]) -> dict[str, Path]:
    """Write hostile files into a folder; return their paths by what is wrong with them."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = {}
    for what, file in files.items():
        paths[what] = folder / f"{what}{file.suffix}"
        paths[what].write_bytes(file.make())
    return paths


if __name__ == "__main__":
    write(Path(sys.argv[1]), {**PICTURES, **LISTS})
