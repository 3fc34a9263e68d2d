"""The colour space of everything that is printed, as the profile that a file carries with it.

An ICC profile of the matrix and curve kind (ICC.1:2001-04, version 2.4, which PDF since 1.4
reads): the primaries and the curve of IEC 61966-2-1, adapted to D50 as ICC profiles want them. It
is made here rather than by a colour library, whose profiles bear the date and differ by version:
the same sheet has to give the same bytes.
"""

from __future__ import annotations

import struct
from functools import cache

_STEPS = 1024
"""Points of the curve: between two of them a straight line errs by less than a tenth of a level."""

# The matrix to D50 by columns (Bradford), as the published sRGB profiles have it.
_PRIMARIES = {
    "rXYZ": (0.43607, 0.22249, 0.01392),
    "gXYZ": (0.38515, 0.71687, 0.09708),
    "bXYZ": (0.14307, 0.06061, 0.71410),
}
_WHITE = (0.95045, 1.0, 1.08905)
"""D65 (IEC 61966-2-1): a profile of version 2 tells the white as it is measured."""
_D50 = (0.9642, 1.0, 0.8249)

NAME = "sRGB IEC61966-2.1"


@cache
def profile() -> bytes:
    """Return the profile."""
    curve = _curve()
    tags = {
        "desc": _description(NAME),
        "cprt": b"text\0\0\0\0No copyright, use freely\0",
        "wtpt": _xyz(*_WHITE),
        **{name: _xyz(*column) for name, column in _PRIMARIES.items()},
        "rTRC": curve,
        "gTRC": curve,
        "bTRC": curve,
    }
    start = 128 + 4 + 12 * len(tags)
    table, body, places = b"", b"", {}
    for name, data in tags.items():
        if data not in places:
            places[data] = start + len(body)
            body += data + b"\0" * (-len(data) % 4)
        table += name.encode() + struct.pack(">II", places[data], len(data))
    return _header(start + len(body)) + struct.pack(">I", len(tags)) + table + body


def _header(size: int) -> bytes:
    """Return the 128 bytes of ICC.1:2001-04, 6.1: a display profile, its date a fixed one."""
    return struct.pack(
        ">I4sI4s4s4s6H4s4sI4s4sQI3i4s44x",
        size,
        b"\0" * 4,
        0x02400000,
        b"mntr",
        b"RGB ",
        b"XYZ ",
        *(2000, 1, 1, 0, 0, 0),
        b"acsp",
        b"\0" * 4,
        0,
        b"\0" * 4,
        b"\0" * 4,
        0,
        0,
        *(_fixed(part) for part in _D50),
        b"\0" * 4,
    )


def _curve() -> bytes:
    """Return the curve from levels to light (IEC 61966-2-1, 5.2)."""
    levels = (step / (_STEPS - 1) for step in range(_STEPS))
    light = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in levels)
    points = [round(65535 * part) for part in light]
    return b"curv\0\0\0\0" + struct.pack(f">I{_STEPS}H", _STEPS, *points)


def _description(text: str) -> bytes:
    """Return a text of ICC.1:2001-04, 6.5.17: in ASCII, and in no other script."""
    said = text.encode() + b"\0"
    return b"desc\0\0\0\0" + struct.pack(">I", len(said)) + said + b"\0" * (4 + 4 + 2 + 1 + 67)


def _xyz(x: float, y: float, z: float) -> bytes:
    return b"XYZ \0\0\0\0" + struct.pack(">3i", _fixed(x), _fixed(y), _fixed(z))


def _fixed(value: float) -> int:
    return round(value * 65536)
