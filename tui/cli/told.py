"""Results as JSON, by rule: their fields under their names, with the units of their types.

A record is an object, and so is a tuple of named figures with units of their own, as a
rectangle's; any other tuple is a list. ``width: Mm`` is told as ``width_mm``, rounded; where one
unit holds for a whole record or tuple, it is told once, with the name of that. What marks a
field stands in ``engine.model.units``.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from enum import Enum
from functools import cache
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import msgspec

Object = dict[str, Any]

Marks = Mapping[str, Any]
"""Of a field: its unit, the decimals it is told with, and the like."""


def text(data: Object) -> str:
    """Return an object as indented JSON; what acts on a terminal stands in it as an escape."""
    return _HIDDEN.sub(_escape, json.dumps(data, indent=2, ensure_ascii=False))


_HIDDEN = re.compile(
    r"[^\n -~\u00a0-\u2027\u202f-\u2065\u206a-\ud7ff\ue000-\ufefe\uff00-\ufff8\ufffc-\U000dffff]"
)
"""All but what is printed and harmless; ``json`` itself escapes only below the space."""


def _escape(found: re.Match[str]) -> str:
    return json.dumps(found[0])[1:-1]


def told(value: Any, *only: str) -> Any:
    """Return a result as JSON knows it; of a record's fields, if any are named, ``only`` those."""
    return _told(value, {}, only)


def _told(value: Any, marks: Marks, only: tuple[str, ...] = ()) -> Any:
    match value:
        case msgspec.Struct() if "by_id" in marks:
            return value.id
        case msgspec.Struct():
            return _object(value, marks, only)
        case tuple() if "unit" not in marks and _has_units(type(value)):
            return _object(value, marks, only)
        case tuple() | list():
            return [_told(one, marks) for one in value]
        case Mapping():
            return {_plain(key, {}): _told(one, marks) for key, one in value.items()}
    return _plain(value, marks)


def _plain(value: Any, marks: Marks) -> Any:
    match value:
        case Enum():
            return value.value
        case datetime():
            return value.astimezone(UTC).isoformat().replace("+00:00", "Z")
        case float() if "decimals" in marks:
            return round(value * marks.get("times", 1), marks["decimals"])
    return value


def _object(record: Any, around: Marks, only: tuple[str, ...]) -> Object:
    found: Object = {}
    for field, name, marks in _fields(type(record)):
        if only and field not in only:
            continue
        value = _told(getattr(record, field), marks)
        if "spread" in marks:
            found.update(value)
        else:
            unit = "" if "unit" in around else marks.get("unit", "")
            found[f"{name}_{unit}" if unit else name] = value
    return found


def _has_units(record: type) -> bool:
    return hasattr(record, "_fields") and any("unit" in marks for _, _, marks in _fields(record))


@cache
def _fields(record: type) -> tuple[tuple[str, str, Marks], ...]:
    """Return the fields of a record: attribute, name in JSON, and how it is marked."""
    hints = get_type_hints(record, include_extras=True)
    if issubclass(record, msgspec.Struct):
        names = [(field.name, field.encode_name) for field in msgspec.structs.fields(record)]
    else:
        names = [(name, name) for name in record._fields]
    return tuple((field, name, dict(_marks(hints[field]))) for field, name in names)


def _marks(hint: Any) -> Iterator[tuple[str, Any]]:
    if get_origin(hint) is Annotated:
        for meta in hint.__metadata__:
            yield from (meta.extra or {}).items()
    elif type(None) in get_args(hint):
        for one in get_args(hint):
            yield from _marks(one)
