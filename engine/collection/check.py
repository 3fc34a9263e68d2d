"""The health of a collection: what its file names against what its folder holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from pathlib import Path

from engine.collection.backups import backups
from engine.collection.copying import is_whole
from engine.collection.folders import (
    FONTS,
    PICTURES,
    SHEETS,
    is_trial,
    job_of,
    sheet_of,
    sheet_page,
)
from engine.collection.reading import Tables
from engine.collection.storage import AtomicStorage
from engine.collection.store import Store
from engine.model import Sheet, Value
from engine.model.errors import CollectionError


class Finding(Value, frozen=True):
    """Something that is wrong in a collection."""

    what: str
    where: str
    mend: str
    mends: bool = False
    """``mend`` does it: nothing of the person's is lost or decided by it."""


_AGAIN = "Take the list in again with the folder of pictures"


def check_collection(folder: Path, tables: Tables) -> Iterator[Finding]:
    """Yield every finding; nothing is changed. Each picture and backup is read wholly."""
    yield from _picture_files(folder, tables)
    yield from _stray_pictures(folder, tables)
    yield from _font_files(folder, tables)
    yield from _references(tables)
    yield from _twice_pressed(tables.sheets.records)
    yield from _sheet_files(folder / SHEETS, tables.sheets.records)
    yield from _backup_files(folder)


def _picture_files(folder: Path, tables: Tables) -> Iterator[Finding]:
    for name, picture in tables.pictures.records.items():
        path = folder / PICTURES / name
        if not path.is_file():
            yield Finding(f"the picture of {picture.source} is gone", str(path), _AGAIN)
        elif not is_whole(path):
            yield Finding(f"the picture of {picture.source} is damaged", str(path), _AGAIN)


def _stray_pictures(folder: Path, tables: Tables) -> Iterator[Finding]:
    """Yield the pictures that no record knows and none will that undo can bring back."""
    known = set(tables.pictures.records)
    for change in tables.history.changes.values():
        known.update(old.name for old in change.before.pictures.values() if old)
    for path in _files_in(folder / PICTURES):
        if path.name not in known:
            mend = "Delete it, or take it in with a list"
            yield Finding("no record knows this picture", str(path), mend, mends=True)


def _font_files(folder: Path, tables: Tables) -> Iterator[Finding]:
    """Yield the fonts that titles are set in, and that stand in on them, gone or damaged."""
    again = "Put the file back, or reopen the titles it stands in on and accept them anew"
    anew = "Set up the font anew from its file"
    for mend, fonts in ((again, _stand_ins(tables)), (anew, _chosen_fonts(tables))):
        for name, where in fonts.items():
            path = folder / FONTS / name
            if not path.is_file():
                yield Finding(f"the font of titles of {where} is gone", str(path), mend)
            elif not is_whole(path):
                yield Finding(f"the font of titles of {where} is damaged", str(path), mend)


def _stand_ins(tables: Tables) -> dict[str, str]:
    """Return the fonts that stand in only, each with a game that it does so for."""
    found: dict[str, str] = {}
    for game in tables.games.records.values():
        for one in (game.accepted.art, *(game.accepted.title or ())):
            for font in one.stand_ins if one else ():
                found.setdefault(font.path, game.id)
    chosen = _chosen_fonts(tables)
    return {name: where for name, where in found.items() if name not in chosen}


def _chosen_fonts(tables: Tables) -> dict[str, str]:
    """Return the fonts that titles name, each with a game that does, or the setup."""
    found: dict[str, str] = {}
    for game in tables.games.records.values():
        for title in game.accepted.title or ():
            if title.font is not None:
                found.setdefault(title.font.path, game.id)
    for settings in tables.settings.records.values():
        if settings.lettering.font is not None:
            found[settings.lettering.font.path] = "the setup"
    return found


def _references(tables: Tables) -> Iterator[Finding]:
    """Yield what names a picture or a game that is not known."""
    for game in tables.games.records.values():
        for name in dict.fromkeys(game.pictures):
            if name not in tables.pictures.records:
                mend = f"Choose another picture for it, or plain. Or: {_AGAIN.lower()}"
                what = f"its picture {name} is not in the collection"
                yield Finding(what, game.id, mend, mends=name not in game.accepted.pictures)
    yield from _unknown_games(tables)


def _unknown_games(tables: Tables) -> Iterator[Finding]:
    games = tables.games.records
    # Of a withdrawn sheet nothing is on paper: its games may have been deleted since.
    for sheet in (one for one in tables.sheets.records.values() if one.withdrawn_at is None):
        for game_id in dict.fromkeys(place.game for place in sheet.placements):
            if game_id not in games:
                mend = "Withdraw the sheet if it is not settled; else nothing is lost by it"
                yield Finding(f"the game {game_id} is not known", f"sheet {sheet.number}", mend)
    for settings in tables.settings.records.values():
        for game_id in settings.batch:
            if game_id not in games:
                mend = "Choose the batch anew"
                yield Finding(f"the game {game_id} is not known", BATCH, mend, mends=True)


BATCH = "today's batch"


def _twice_pressed(sheets: Mapping[int, Sheet]) -> Iterator[Finding]:
    where: dict[str, list[int]] = defaultdict(list)
    for sheet in sheets.values():
        if sheet.settled_at is None and sheet.withdrawn_at is None:
            placed = (place.game for place in sheet.placements if not place.spare)
            for game_id in dict.fromkeys(placed):
                where[game_id].append(sheet.number)
    for game_id, numbers in where.items():
        if len(numbers) > 1:
            listed = " and ".join(str(number) for number in numbers)
            mend = "Settle the one that is printed, withdraw the other"
            yield Finding(f"it is on the pressed sheets {listed} at once", game_id, mend)


def _sheet_files(folder: Path, sheets: Mapping[int, Sheet]) -> Iterator[Finding]:
    for number, sheet in sheets.items():
        path = folder / sheet_page(number)
        if sheet.settled_at is None and sheet.withdrawn_at is None and not path.is_file():
            again = f"spinery press --again {number}"
            yield Finding("the PDF is gone", str(path), f"Write it again with {again}", mends=True)
    for path in _files_in(folder):
        shown, job = sheets.get(sheet_of(path) or 0), job_of(path)
        if shown is None and not is_trial(path) and not (job and set(job) <= sheets.keys()):
            what = "no sheet of the collection is in this file"
            yield Finding(what, str(path), "Delete it", mends=True)
        elif shown is not None and shown.withdrawn_at is not None:
            what = f"sheet {shown.number} was withdrawn"
            yield Finding(what, str(path), "Delete its page", mends=True)


def _backup_files(folder: Path) -> Iterator[Finding]:
    for path in backups(folder):
        try:
            Store(AtomicStorage(path))
        except CollectionError as error:
            what = f"the backup cannot be used: {error.what}"
            yield Finding(what, str(path), "Delete it", mends=True)


def _files_in(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    return sorted(path for path in folder.iterdir() if path.is_file() and _is_wanted(path.name))


def _is_wanted(name: str) -> bool:
    """Return whether a file is not one that systems leave in every folder."""
    return not name.startswith(".") and name.lower() not in {"thumbs.db", "desktop.ini"}
