"""What intake finds in the covers, kept in a file so that the demo need not look again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

import msgspec

from engine import Picture, unpack
from engine.demo import LIST
from engine.model import Reading
from engine.model.errors import PictureError
from engine.reading import can_read, read_all

WITHIN: Mapping[str, float] = {
    "turn": 0.1,
    "trim": 0.002,
    "bars": 0.002,
    "split": 0.002,
    "side": 4,
    "palette": 4,
}
"""How far two looks at one picture may lie apart where another build of the libraries may round
otherwise: in degrees; in fractions of its sides, a little over a pixel of the copy that is
looked at; in levels of 255."""


def read(folder: Path, seen: Iterable[Picture], said: Iterable[Picture]) -> tuple[Picture, ...]:
    """Return pictures with what they say and show, of which ``said`` tells for some already.

    Where what reads pictures is not installed, the others stay unread.
    """
    before = {picture.name: picture.reading for picture in said}
    pictures = tuple(seen)
    unread = [one for one in pictures if before.get(one.name) is None] if can_read() else []
    found = dict(read_all({one.source: folder / one.source for one in unread}))
    return tuple(
        msgspec.structs.replace(one, reading=_kept(found.get(one.source)) or before.get(one.name))
        for one in pictures
    )


def _kept(found: Reading | PictureError | None) -> Reading | None:
    return found if isinstance(found, Reading) else None


def look(folder: Path) -> tuple[Picture, ...]:
    """Return what intake finds now in the covers of a folder, in the order of their file names."""
    return tuple(unpack(LIST, folder).pictures.values())


def as_text(found: Iterable[Picture]) -> bytes:
    """Return what was found as JSON, a picture a line."""
    return b"[\n" + b",\n".join(map(msgspec.json.encode, found)) + b"\n]\n"


def differences(said: Iterable[Picture], seen: Iterable[Picture]) -> list[str]:
    """Return what pictures were said to be and are not seen to be, a sentence each.

    What is read in them is not compared: it takes a second a picture, and an extra.
    """
    before = {picture.name: picture for picture in said}
    found = []
    for now in seen:
        then = before.pop(now.name, None)
        if then is None:
            found.append(f"{now.source}: nothing is said of it as it is now")
            continue
        found += [
            f"{now.source}: {field} was {getattr(then, field)}, is {getattr(now, field)}"
            for field in then.__struct_fields__
            if field != "reading" and not _alike(field, getattr(then, field), getattr(now, field))
        ]
    return found + [f"{gone.source}: said to be what no file is" for gone in before.values()]


def _alike(field: str, one: object, other: object) -> bool:
    if field not in WITHIN:
        return one == other
    ours, theirs = tuple(_numbers(one)), tuple(_numbers(other))
    return len(ours) == len(theirs) and all(
        abs(a - b) <= WITHIN[field] for a, b in zip(ours, theirs, strict=True)
    )


def _numbers(found: object) -> Iterator[float]:
    """Yield what can be measured of a field, a colour as its levels."""
    if isinstance(found, str):
        yield from bytes.fromhex(found.removeprefix("#"))
    elif isinstance(found, tuple):
        for part in found:
            yield from _numbers(part)
    elif isinstance(found, float):
        yield found
