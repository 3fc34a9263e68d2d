"""What every value is made of."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import cache
from typing import Annotated, Any, NamedTuple, TypeVar

import msgspec

from engine.model.plain import brief, plain, plain_lines
from engine.model.units import Mm

Instant = Annotated[datetime, msgspec.Meta(tz=True)]
"""A time with its zone: a file that leaves the zone out is faulty."""


Hex = Annotated[str, msgspec.Meta(pattern="^#[0-9A-Fa-f]{6}$")]
"""A colour of sRGB as ``#rrggbb``: what draws it counts on its form."""

NoHex = Annotated[str, msgspec.Meta(pattern="^(#[0-9A-Fa-f]{6})?$")]
"""The same, or empty for none."""


class Value(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A frozen record. Unknown fields in a file are a fault, never silently dropped."""


def make_plain(record: Value, *fields: str, several: Sequence[str] = ()) -> None:
    """Take out of these fields of a record that is being made what acts on whoever shows it.

    They are texts, or tuples of them, of which a list, a file or a collection from someone else
    may hold anything, of any length. Those named by ``several`` may have several lines, or are
    texts by name.
    """
    for field in (*fields, *several):
        value: Any = getattr(record, field)
        if not value:
            continue
        clean = brief if field in fields else plain_lines
        if isinstance(value, str):
            made: Any = clean(value)
        elif isinstance(value, tuple):
            made = tuple(map(clean, value))
        else:
            made = {plain(key): clean(text) for key, text in value.items()}
        if made != value:
            msgspec.structs.force_setattr(record, field, made)


V = TypeVar("V", bound=Value)


def bare(record: V) -> V:
    """Return a record equal to this one, whose fields are left out where they have defaults.

    Writing leaves out only what nobody set: two equal records could be written, and so
    fingerprinted, in two ways.
    """
    given = {}
    for name, default in _defaults(type(record)):
        value = getattr(record, name)
        if value != default:
            given[name] = bare(value) if isinstance(value, Value) else value
    return type(record)(**given)


@cache
def _defaults(kind: type[Value]) -> tuple[tuple[str, object], ...]:
    """Return the fields of a kind of record: reading them off its annotations takes long."""
    return tuple((field.name, field.default) for field in msgspec.structs.fields(kind))


class Size(NamedTuple):
    """A width and a height in mm."""

    width: Mm
    height: Mm


_NEAR = 1e-6


class Rect(NamedTuple):
    """A rectangle in mm, from its lower left corner; y grows upwards."""

    x: Mm
    y: Mm
    width: Mm
    height: Mm

    def inset(self, by: float) -> Rect:
        """Return the rectangle that lies ``by`` mm inside this one on each side."""
        return Rect(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)

    def overlaps(self, other: Rect) -> bool:
        """Return whether both cover paper in common, more than floating point makes up."""
        return (
            self.x < other.x + other.width - _NEAR
            and other.x < self.x + self.width - _NEAR
            and self.y < other.y + other.height - _NEAR
            and other.y < self.y + self.height - _NEAR
        )
