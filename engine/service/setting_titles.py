"""How titles are set for the whole collection, checked before it is taken."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

import msgspec

from engine.cases import CaseKind
from engine.cases.library import known_kind
from engine.lettering import edgemarks
from engine.model import Game, columns
from engine.model.errors import InputError
from engine.model.settings import Lettering

_LIMITS = {
    "mode": "is even or free",
    "lines": "is 1 or 2",
    "smallest": "is from 3 to 72 pt",
    "largest": "is from 3 to 72 pt",
    "narrowest": "is from 0.7 to 1",
    "distance": "is from 100 to 10000 mm",
    "mark_room": "is from 2 to 40 mm",
    "mark_end": "is head or foot",
    "stripe_room": "is from 0.5 to 20 mm",
}
"""What each setting may be, after its name."""


def changed(
    present: Lettering,
    kinds: Mapping[str, CaseKind],
    games: Iterable[Game],
    fields: Mapping[str, object],
) -> Lettering:
    """Return the lettering with ``fields`` changed, which go by their names.

    ``upright`` are kinds by id or name, "" all of them; ``dictionary`` are short forms by the
    words they stand for, an empty form taking one back; ``mark`` and ``stripe`` are columns of
    the list. Raises InputError or CaseError.
    """
    wanted = dict(fields)
    if isinstance(upright := wanted.get("upright"), list | tuple | set | frozenset):
        wanted["upright"] = sorted({known_kind(kinds, said) if said else "" for said in upright})
    if isinstance(forms := wanted.get("dictionary"), Mapping):
        wanted["dictionary"] = {
            word: form for word, form in {**present.dictionary, **forms}.items() if form
        }
    for name in ("mark", "stripe"):
        said = str(wanted.get(name) or "")
        own = name == "mark" and said.removeprefix(edgemarks.SAME).strip()
        if said and not (own and said.startswith(edgemarks.SAME)):
            wanted[name] = _known_column(str(wanted[name]), games)
    try:
        new = msgspec.convert({**msgspec.to_builtins(present), **wanted}, Lettering)
    except msgspec.ValidationError as error:
        raise _refusal(error) from error
    if new.smallest > new.largest:
        raise InputError("smallest", "is larger than the largest size", "Give another value")
    return new


def _known_column(said: str, games: Iterable[Game]) -> str:
    known = {name.strip().casefold(): name for name in columns.columns(games)}
    if said.strip().casefold() not in known:
        raise InputError(said, "no such column", f"Columns are {', '.join(known.values())}")
    return known[said.strip().casefold()]


def _refusal(error: msgspec.ValidationError) -> InputError:
    """Return a sentence that says which setting is wrong and what it may be."""
    found = re.search(r"`\$\.(\w+)|field `(\w+)`", str(error))
    name = (found[1] or found[2]) if found else ""
    if name in _LIMITS:
        return InputError(name.replace("_", " "), f"it {_LIMITS[name]}", "Give another value")
    return InputError("lettering", str(error), "Give another value")
