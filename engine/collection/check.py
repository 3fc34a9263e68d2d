"""The health of a collection: what its file names against what its folder holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from engine.collection import backups, fonts
from engine.collection import pictures as picture_files
from engine.collection.schema import migrate
from engine.collection.storage import AtomicStorage
from engine.model import Game, Picture, Sheet
from engine.model.errors import CollectionError
from engine.model.settings import Settings


class Fault(NamedTuple):
    """Something that is wrong in a collection."""

    what: str
    where: str
    mend: str


class Contents(NamedTuple):
    """A collection as it is checked."""

    folder: Path
    sheet_folder: Path
    games: Mapping[str, Game]
    sheets: Mapping[int, Sheet]
    pictures: Mapping[str, Picture]
    settings: Settings
    sheet_files: Mapping[int, Path]
    recallable: frozenset[str]
    """Pictures without a record that undo can bring back."""


_AGAIN = "Take the list in again with the folder of pictures"


def check_collection(held: Contents) -> Iterator[Fault]:
    """Yield every fault; nothing is changed. Each picture is read wholly."""
    yield from _picture_files(held)
    yield from _stray_files(held)
    yield from _font_files(held)
    yield from _references(held)
    yield from _twice_pressed(held.sheets)
    yield from _sheet_files(held)
    yield from _backup_files(held.folder)


def _picture_files(held: Contents) -> Iterator[Fault]:
    for name, picture in held.pictures.items():
        path = held.folder / picture_files.FOLDER / name
        if not path.is_file():
            yield Fault(f"the picture of {picture.source} is gone", str(path), _AGAIN)
        elif not _is_whole(path):
            mend = f"Delete the file. {_AGAIN}"
            yield Fault(f"the picture of {picture.source} is damaged", str(path), mend)


def _is_whole(path: Path) -> bool:
    try:
        return picture_files.digest_of(path) == path.stem
    except OSError:
        return False


def _stray_files(held: Contents) -> Iterator[Fault]:
    for path in _files_in(held.folder / picture_files.FOLDER):
        if path.name not in held.pictures and path.name not in held.recallable:
            mend = "Delete it, or take it in with a list"
            yield Fault("no record knows this picture", str(path), mend)


def _font_files(held: Contents) -> Iterator[Fault]:
    """Yield the fonts that titles are set in, and that stand in on them, gone or damaged."""
    stood_in: dict[str, str] = {}
    wanted: dict[str, str] = {}
    for game in held.games.values():
        a = game.accepted
        for title in a.title or ():
            if title.font is not None:
                wanted.setdefault(title.font.path, game.id)
        for one in (a.art, *(a.title or ())):
            for font in one.stand_ins if one else ():
                stood_in.setdefault(font.path, game.id)
    if held.settings.lettering.font is not None:
        wanted[held.settings.lettering.font.path] = "the setup"
    again = "Put the file back, or reopen the titles it stands in on and accept them anew"
    for name, where in {**stood_in, **wanted}.items():
        path = held.folder / fonts.FOLDER / name
        mend = "Set up the font anew from its file" if name in wanted else again
        if not path.is_file():
            yield Fault(f"the font of titles of {where} is gone", str(path), mend)
        elif not _is_whole(path):
            yield Fault(f"the font of titles of {where} is damaged", str(path), mend)


def _references(held: Contents) -> Iterator[Fault]:
    for game in held.games.values():
        named = [game.match.picture] if game.match else []
        if game.accepted.art and game.accepted.art.picture:
            named.append(game.accepted.art.picture)
        for name in dict.fromkeys(named):
            if name not in held.pictures:
                mend = f"Choose another picture for it, or plain. Or: {_AGAIN.lower()}"
                yield Fault(f"its picture {name} is not in the collection", game.id, mend)
    for sheet in held.sheets.values():
        for game_id in dict.fromkeys(place.game for place in sheet.placements):
            if game_id not in held.games:
                mend = "Withdraw the sheet if it is not settled; else nothing is lost by it"
                yield Fault(f"the game {game_id} is not known", f"sheet {sheet.number}", mend)
    for game_id in held.settings.batch:
        if game_id not in held.games:
            mend = "Choose the batch anew"
            yield Fault(f"the game {game_id} is not known", "today's batch", mend)


def _twice_pressed(sheets: Mapping[int, Sheet]) -> Iterator[Fault]:
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
            yield Fault(f"it is on the pressed sheets {listed} at once", game_id, mend)


def _sheet_files(held: Contents) -> Iterator[Fault]:
    for number, sheet in held.sheets.items():
        pressed = sheet.settled_at is None and sheet.withdrawn_at is None
        if pressed and not held.sheet_files[number].is_file():
            mend = "Withdraw the sheet and press again"
            yield Fault("the PDF is gone", str(held.sheet_files[number]), mend)
    known = set(held.sheet_files.values())
    for path in _files_in(held.sheet_folder):
        if path not in known and not _is_trial(path):
            yield Fault("no sheet of the collection is in this file", str(path), "Delete it")


def _is_trial(path: Path) -> bool:
    """Return whether a page is a trial cut of a case: no record knows it, nor has to."""
    return path.name.startswith("trial-") and path.suffix == ".pdf"


def _backup_files(folder: Path) -> Iterator[Fault]:
    for path in backups.backups(folder):
        try:
            raw = AtomicStorage(path).read()
            migrate(raw or {}, path)
        except CollectionError as error:
            yield Fault(f"the backup cannot be used: {error.what}", str(path), "Delete it")


def _files_in(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    return sorted(path for path in folder.iterdir() if path.is_file() and _is_wanted(path.name))


def _is_wanted(name: str) -> bool:
    """Return whether a file is not one that systems leave in every folder."""
    return not name.startswith(".") and name.lower() not in {"thumbs.db", "desktop.ini"}
