"""Mending what the health check found, where nothing has to be decided and nothing is lost.

A file that no record knows is moved to the backups, a name that leads nowhere is taken out of
its record: one change, which undo takes back.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

import msgspec

from engine.collection.check import BATCH, Finding
from engine.collection.files import not_written
from engine.collection.folders import BACKUPS, sheet_of
from engine.collection.leavings import set_aside
from engine.collection.reading import Tables
from engine.model import Game
from engine.model.settings import Settings

UNUSABLE = "unusable"
"""The folder among the backups for copies that cannot be read."""


def put_away(folder: Path, findings: Iterable[Finding]) -> Iterator[str]:
    """Move the files of ``findings`` to the backups; yield a sentence for each.

    Raises CollectionError where one cannot be moved.
    """
    kept = folder / BACKUPS
    for one in findings:
        path = Path(one.where)
        if not (one.mends and path.is_absolute() and path.is_file()):
            continue
        shelf = kept / (UNUSABLE if path.parent == kept else path.parent.name)
        try:
            if sheet_of(path) is not None:  # where its sheet finds it again, if it comes back
                path.replace(kept / path.name)
                target = kept / path.name
            else:
                target = set_aside(path, shelf)
        except OSError as error:
            raise not_written(path, error) from error
        yield f"{path.relative_to(folder)}: moved to {target.relative_to(folder)}."


def settled(
    tables: Tables, findings: Iterable[Finding]
) -> tuple[list[Game], Settings | None, list[str]]:
    """Return games and settings without the names that lead nowhere, and a sentence for each."""
    wheres = [one.where for one in findings if one.mends]
    games = [
        game.found_among(tables.pictures.records)
        for game in (tables.games.records.get(where) for where in dict.fromkeys(wheres))
        if game is not None
    ]
    said = [f"{game.id}: it names no picture any more that is not there." for game in games]
    settings = next(iter(tables.settings.records.values()), None)
    if settings is None or BATCH not in wheres:
        return games, None, said
    batch = tuple(key for key in settings.batch if key in tables.games.records)
    said.append("Today's batch: only games that are there are left in it.")
    return games, msgspec.structs.replace(settings, batch=batch), said
