"""The schema number of a collection's file, and how an older file becomes a newer one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from engine.collection.storage import Raw
from engine.model.errors import CollectionError

SCHEMA = 3
"""What this program writes."""

META_ROW = "1"
SETTINGS_ROW = "1"

Migration = Callable[[Raw], Raw]


def _keep_titles_free(raw: Raw) -> Raw:
    """Titles are even unless the setup says otherwise; till now they were free, and stay so."""

    def stated(rows: Mapping[str, Any]) -> dict[str, Any]:
        settings = rows.get(SETTINGS_ROW) or {}
        lettering = {"mode": "free", **settings.get("lettering", {})}
        return {**rows, SETTINGS_ROW: {**settings, "lettering": lettering}}

    def earlier(change: Any) -> dict[str, Any]:
        before = change["before"]
        if "settings" in before:
            before = {**before, "settings": stated(before["settings"])}
        return {**change, "before": before}

    history = {number: earlier(change) for number, change in raw.get("history", {}).items()}
    return {**raw, "settings": stated(raw.get("settings", {})), "history": history}


def _as_it_is(raw: Raw) -> Raw:
    """Leave all as it is: records have more fields, with defaults, so none could be read before."""
    return raw


MIGRATIONS: Mapping[int, Migration] = {1: _keep_titles_free, 2: _as_it_is}
"""From the schema number that is the key to the next one. A migration takes the tables as
they stand in the file and returns new ones, what can be undone among them: brought up too, or
emptied. It is not called twice on the same file."""


def meta() -> dict[str, object]:
    """Return the row of this program's schema."""
    return {"schema": SCHEMA}


def number_of(rows: Mapping[str, object], path: Path) -> int:
    """Return the schema number of a file with these rows of ``meta``.

    Raises CollectionError if it is missing.
    """
    row = rows.get(META_ROW)
    number = row.get("schema") if isinstance(row, dict) else None
    if not isinstance(number, int) or isinstance(number, bool) or number < 1:
        raise CollectionError(str(path), "meta, row 1, field schema: a number from 1 is expected")
    return number


def migrate(raw: Raw, path: Path, migrations: Mapping[int, Migration] | None = None) -> Raw:
    """Return the tables of ``path`` in this program's schema; the same object if they are.

    Raises CollectionError if the number is missing or has no way up.
    """
    migrations = MIGRATIONS if migrations is None else migrations
    number = number_of(raw.get("meta", {}), path)
    while number < SCHEMA:
        if number not in migrations:
            raise CollectionError(str(path), f"nothing turns schema {number} into {number + 1}")
        try:
            raw = migrations[number](raw)
        except (LookupError, TypeError, ValueError, AttributeError) as error:
            what = f"its records are not those of schema {number} ({error})"
            raise CollectionError(str(path), what) from error
        number += 1
        raw = {**raw, "meta": {META_ROW: {"schema": number}}}
    return raw
