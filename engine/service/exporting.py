"""A collection written out for other programs, and taken in again as it was."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from engine import cases
from engine.collection import exporting, folders
from engine.collection.copying import content_name, is_whole
from engine.collection.exporting import Exported
from engine.collection.files import force, not_written, write_whole
from engine.intake import exported
from engine.model import Picture, Value
from engine.model.errors import InputError, PictureError, RefusedError
from engine.service.session import Session

JSON, CSV = "spinery.json", "games.csv"
"""All of it, and the list of games with all that is known of each."""


class ExportReport(Value, frozen=True):
    """A collection that was written out."""

    folder: str
    games: int
    labels: int
    """Dividers and labels, which are counted among no games."""
    pictures: int
    sheets: int
    """Pages that were written out with it."""
    notes: tuple[str, ...] = ()
    """Files that are not in the collection though it names them, a sentence each."""


def export(session: Session, folder: Path) -> ExportReport:
    """Write the collection out into a new folder: all of it, or no folder.

    Raises InputError for a folder that holds something, CollectionError where the disk refuses.
    """
    folder = folder.expanduser().absolute()
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise InputError(str(folder), "is there already and holds something", "Name a new folder")
    half = folder.with_name(f".{folder.name}.new")
    with session.lock:
        try:
            shutil.rmtree(half, ignore_errors=True)
            half.mkdir(parents=True)
            report = _write(session, half, str(folder))
            half.replace(folder)
        except OSError as error:
            shutil.rmtree(half, ignore_errors=True)
            raise not_written(folder, error) from error
        except BaseException:
            shutil.rmtree(half, ignore_errors=True)
            raise
    return report


def unpack(path: Path) -> Exported | None:
    """Return what an export's JSON holds, or None where a file is none. Raises ListError."""
    with suppress(OSError):  # whoever reads it as a list says why
        if path.is_file():
            with path.open("rb") as file:
                if exporting.is_export(file.read(200)):
                    return exporting.read_json(path.read_bytes(), path)
    return None


def take_in(session: Session, whole: Exported, beside: Path) -> None:
    """Take an export into a collection that is empty, as one change; its files lie ``beside`` it.

    Raises RefusedError for a collection that is not empty, CaseError or PictureError for a file
    that cannot be used, is gone or is another one, CollectionError where the disk refuses.
    """
    with session.change(f"took in {JSON}"):
        if session.snapshot.games or session.snapshot.sheets:
            what = "the collection has games, and an export takes the place of a whole collection"
            raise RefusedError(str(session.folder), what, f"Name a new folder, or take in {CSV}")
        kinds = [*_files(beside / folders.CASES)]
        for kind in kinds:
            cases.read_kind(kind)  # one that cannot be read would be in the way of every opening
        for picture in whole.pictures:
            if picture.name in whole.files:
                _bring(session, picture, beside / folders.PICTURES, whole.files[picture.name])
        for font in _files(beside / folders.FONTS):
            session.files.font(font)
        for page in _files(beside / folders.SHEETS):
            if folders.sheet_of(page) is not None or folders.job_of(page):
                session.files.page(page)
        for kind in kinds:
            session.collection.keep_kind(kind.stem, kind.read_text("utf-8"), replace=True)
        session.keep(
            f"took in {JSON}",
            games=whole.games,
            sheets=whole.sheets,
            pictures=whole.pictures,
            settings=whole.settings,
        )
    session.take_up(cases.load_kinds(session.collection.case_folder))


def _bring(session: Session, picture: Picture, folder: Path, name: str) -> None:
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()):
        raise PictureError(name, "it lies outside the export", "Export the collection again")
    try:
        is_it = Path(content_name(path)).stem == Path(picture.name).stem
    except OSError as error:
        raise PictureError(str(path), "it cannot be read", "Export the collection again") from error
    if not is_it:
        what = "it is not the picture that was exported"
        raise PictureError(str(path), what, "Export the collection again")
    session.files.picture(path, Path(picture.name).suffix)


def _write(session: Session, folder: Path, name: str) -> ExportReport:
    """Write everything into an empty ``folder``, forced to the disk. Raises OSError."""
    found, written, notes = session.collection, [], []

    def write(path: Path, data: bytes) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(path, (data,), forced=False)
        written.append(path)

    files = exported.file_names({one.name: one.source for one in found.pictures.values()})
    for picture in list(files):
        path = found.picture_path(picture)
        if is_whole(path):
            write(folder / folders.PICTURES / files[picture], path.read_bytes())
        else:
            notes.append(f"{files.pop(picture)}: it is gone or damaged, and was left out.")
    pictures = len(written)
    for place in (folders.FONTS, folders.CASES):
        for path in _files(found.folder / place):
            write(folder / place / path.name, path.read_bytes())
    before = len(written)
    for path in _files(found.folder / folders.SHEETS):
        write(folder / folders.SHEETS / path.name, path.read_bytes())
    sheets = len(written) - before
    listed = exported.games_as_csv(found.games.values(), files)
    write(folder / CSV, listed.encode("utf-8-sig"))  # spreadsheets tell UTF-8 by the mark
    write(folder / JSON, exporting.as_json(found, files))
    force(written)
    labels = sum(bool(game.labels) for game in found.games.values())
    games = len(found.games) - labels
    return ExportReport(name, games, labels, pictures, sheets, tuple(notes))


def _files(folder: Path) -> Iterator[Path]:
    if folder.is_dir():
        yield from sorted(
            path for path in folder.iterdir() if path.is_file() and path.name[0] != "."
        )
