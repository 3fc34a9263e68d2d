"""What is fuzzed: kinds of file, with good ones to start from and what is done with the changed."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

from PIL import Image

from engine.cases.library import BUILT_IN
from tests.corpus import hostile
from tests.corpus.photographs import photograph
from tests.fuzz import attempts
from tests.lettering.making_fonts import make_font

SIDE = 48
"""Pixels of the pictures that are changed: small ones break as large ones do, and sooner."""


class Target(NamedTuple):
    """A kind of file."""

    suffix: str
    seeds: Callable[[], Sequence[bytes]]
    attempt: Callable[[bytes, int], str]
    """Called in a worker process with the path of a file, and dice."""


def _saved(kind: str, **options: object) -> bytes:
    file = BytesIO()
    picture = photograph(1).resize((SIDE, SIDE // 2))
    mode = str(options.pop("mode", "RGB"))
    picture.convert(mode).save(file, kind, **options)
    return file.getvalue()


@cache
def pictures() -> tuple[bytes, ...]:
    deep = Image.new("I;16", (SIDE, SIDE), 700)
    file = BytesIO()
    deep.save(file, "TIFF")
    return (
        _saved("PNG"),
        _saved("PNG", mode="RGBA"),
        _saved("PNG", mode="P"),
        _saved("JPEG"),
        _saved("JPEG", progressive=True),
        _saved("JPEG", mode="CMYK"),
        _saved("GIF", mode="P"),
        _saved("WEBP"),
        _saved("AVIF"),
        _saved("TIFF", compression="tiff_lzw"),
        _saved("BMP"),
        _saved("PCX"),
        file.getvalue(),
    )


@cache
def pages() -> tuple[bytes, ...]:
    form = hostile.stream(
        b"0.5 g 0 0 300 400 re f", b"/Type /XObject /Subtype /Form /BBox [0 0 9 9]"
    )
    return (
        _saved("PDF"),
        hostile.page(hostile.stream(b"0 0 1 rg 10 10 200 300 re f")),
        hostile.page(hostile.stream(b"/F Do"), form, resources=b"/XObject << /F 5 0 R >>"),
    )


def drawings() -> tuple[bytes, ...]:
    return (
        hostile.svg('<rect width="90" height="9" fill="#c83264"/>'),
        hostile.svg('<text x="9" y="50" font-size="20">Oyster</text>'),
        hostile.svg(
            '<defs><linearGradient id="g"><stop offset="0" stop-color="red"/></linearGradient>'
            '<filter id="f"><feGaussianBlur stdDeviation="2"/></filter></defs>'
            '<g transform="rotate(9)"><path d="M 0 0 L 9 9 C 1 2 3 4 5 6 Z" fill="url(#g)"'
            ' filter="url(#f)"/><use href="#g"/></g>'
        ),
    )


@cache
def fonts() -> tuple[bytes, ...]:
    with tempfile.TemporaryDirectory() as folder:
        at = Path(folder)
        return tuple(
            make_font(at / f"{cff}.ttf", chars="OysterAB 123\u0308", cff=cff).read_bytes()
            for cff in (False, True)
        )


def kinds() -> tuple[bytes, ...]:
    return tuple(path.read_bytes() for path in sorted(BUILT_IN.glob("*.toml")))


def lists() -> tuple[bytes, ...]:
    table = 'Title;Series;Year\r\nOyster Clock;Tide;2001\r\n"Plum; Line";"two\nlines";\r\n'
    return (
        table.encode(),
        table.encode("utf-8-sig"),
        table.encode("utf-16"),
        "Café noir\nπλοίο\n- Ħal Oyster\n".encode(),
        "título,caja\nÑandú,snap-shell\n".encode("cp1252"),
        b"title\ttitle\nA\tB\n",
    )


@cache
def collections() -> tuple[bytes, ...]:
    from engine import open_workshop, unpack

    with tempfile.TemporaryDirectory() as folder:
        listed = Path(folder, "list.csv")
        listed.write_text("title,series,notes\nOyster Clock,Tide,a\nPlum Line,Tide,b\n", "utf-8")
        shop = open_workshop(Path(folder, "shelf"))
        shop.games.take_in(unpack(listed), "snap-shell")
        first = Path(folder, "shelf", "collection.json").read_bytes()
        shop.designs.accept([one.game for one in shop.designs.proposals()])
        shop.close()
        kept = Path(__file__).parents[1] / "collection" / "data" / "schema-1.json"
        return first, Path(folder, "shelf", "collection.json").read_bytes(), kept.read_bytes()


def titles() -> tuple[bytes, ...]:
    texts = (
        "Oyster Clock: the Long Tide",
        "שעון הצדפה",
        "ساعة المحار 2",
        "牡蠣の時計",
        "Ça va? «Ü» [bold]b[/]",
        "e\u0301\u0323\u0308 \u202e\u2066x\u2069 👩\u200d🚀",
        "A" * 300,
        "W i d e " * 60,
        "=SUM(A1)",
        "\x1b[2J\x1b]0;x\x07",
    )
    return tuple(text.encode() for text in texts)


TARGETS: Mapping[str, Target] = {
    "pictures": Target(".png", pictures, attempts.picture),
    "PDFs": Target(".pdf", pages, attempts.picture),
    "drawings": Target(".svg", drawings, attempts.picture),
    "fonts": Target(".ttf", fonts, attempts.font),
    "case kinds": Target(".toml", kinds, attempts.kind),
    "lists": Target(".csv", lists, attempts.games),
    "collections": Target(".json", collections, attempts.collection),
    "titles": Target(".txt", titles, attempts.title),
}
