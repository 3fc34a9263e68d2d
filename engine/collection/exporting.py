"""A collection as one JSON file that any program reads, and back: all of it but what undo needs."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

import msgspec

from engine.collection import schema
from engine.collection.collection import Collection
from engine.collection.reading import read_tables
from engine.collection.storage import Raw, texts
from engine.model import Game, Picture, Sheet
from engine.model.errors import CollectionError, ListError
from engine.model.settings import Settings

MARK = "spinery_schema"
"""The key that tells an export, and in which form it is."""

_LISTS = ("games", "pictures", "sheets")


class Exported(NamedTuple):
    """What an export holds."""

    games: tuple[Game, ...]
    pictures: tuple[Picture, ...]
    sheets: tuple[Sheet, ...]
    settings: Settings | None
    files: Mapping[str, str]
    """The files of the pictures beside it, by the pictures' names; without those that are gone."""


def as_json(collection: Collection, files: Mapping[str, str]) -> bytes:
    """Return all records of a collection as JSON.

    ``files`` are those of the pictures, by name, without those that are gone.
    """
    pictures: list[dict[str, Any]] = msgspec.to_builtins([*collection.pictures.values()])
    whole = {
        MARK: schema.SCHEMA,
        "settings": collection.settings,
        "games": [*collection.games.values()],
        "pictures": [{"file": files.get(one["name"]), **one} for one in pictures],
        "sheets": [*collection.sheets.values()],
    }
    return msgspec.json.format(msgspec.json.encode(whole), indent=2) + b"\n"


def is_export(data: bytes) -> bool:
    """Return whether a file begins as ``as_json`` writes it."""
    return data.lstrip(b"\xef\xbb\xbf \t\r\n{").startswith(b'"%b"' % MARK.encode())


def read_json(data: bytes, where: Path) -> Exported:
    """Return what an export holds, of whatever earlier schema. Raises ListError."""
    again = "Export it again"
    try:
        whole = msgspec.json.decode(data.removeprefix(b"\xef\xbb\xbf"), type=dict[str, Any])
        tables: Raw = {
            name: {str(number): row for number, row in enumerate(whole.get(name, ()), start=1)}
            for name in _LISTS
        }
        named = {row["name"]: row.pop("file") for row in tables["pictures"].values()}
        files = msgspec.convert(
            {name: file for name, file in named.items() if file}, dict[str, str]
        )
        settings = {"1": whole["settings"]} if "settings" in whole else {}
        number = whole[MARK]
    except (msgspec.MsgspecError, LookupError, TypeError, AttributeError, RecursionError) as error:
        raise ListError(str(where), "it is no whole export", again) from error
    if isinstance(number, int) and number > schema.SCHEMA:
        what = "it was exported by a newer Spinery than this one"
        raise ListError(str(where), what, "Install the newer program")
    raw: Raw = {"meta": {"1": {"schema": number}}, "settings": settings, **tables}
    try:
        read, faults = read_tables(texts(schema.migrate(raw, where)))
    except CollectionError as error:
        raise ListError(error.where, error.what, again) from error
    if faults:
        raise ListError(str(where), f"some of it cannot be read: {faults[0]}", again)
    return Exported(
        tuple(read.games.records.values()),
        tuple(read.pictures.records.values()),
        tuple(read.sheets.records.values()),
        next(iter(read.settings.records.values()), None),
        files,
    )
