"""The files that belong to a change: written before its record, removed if it has none."""

from __future__ import annotations

from pathlib import Path
from threading import RLock
from typing import Self

from engine.collection.copying import FONT, PICTURE, Sort, copy_in
from engine.collection.files import discard, force, write_in
from engine.collection.folders import (
    FONTS,
    PICTURES,
    SHEETS,
    cut_page,
    job_page,
    machine_file,
    sheet_page,
)


class NewFiles:
    """Pictures, fonts and pages that one change brings into a collection's folder.

    Each is there whole as soon as it is brought. ``Collection.record`` forces them to the disk
    before the record that names them; those that were new and are not recorded when the
    ``with`` ends are removed.
    """

    def __init__(self, folder: Path, turn: RLock) -> None:
        """Bring files into a collection's ``folder``; other changes wait for their ``turn``."""
        self._folder = folder
        self._turn = turn
        self._brought: list[Path] = []
        self._new: list[Path] = []

    def picture(self, path: Path, suffix: str = "") -> str:
        """Copy a picture in, named by its content; return the name.

        ``suffix`` is that of its true format; without one the file's own is taken. Raises
        PictureError if ``path`` cannot be read, CollectionError if it cannot be copied.
        """
        return self._copy(PICTURE, path, self._folder / PICTURES, suffix)

    def font(self, path: Path) -> str:
        """Copy a font file in, named by its content; return the name.

        Raises FontError if ``path`` cannot be read, CollectionError if it cannot be copied.
        """
        return self._copy(FONT, path, self._folder / FONTS)

    def sheet_page(self, number: int, page: bytes) -> None:
        """Write the PDF of a sheet that has no record yet. Raises CollectionError."""
        self._write(sheet_page(number), page)

    def cut_page(self, number: int, page: bytes) -> None:
        """Write the PDF that tells how such a sheet is cut. Raises CollectionError."""
        self._write(cut_page(number), page)

    def machine_file(self, number: int, form: str, file: bytes) -> None:
        """Write what tells a machine how such a sheet is cut, as svg or dxf.

        Raises CollectionError.
        """
        self._write(machine_file(number, form), file)

    def job_page(self, first: int, last: int, page: bytes) -> None:
        """Write the PDF of all sheets of one pressing. Raises CollectionError."""
        self._write(job_page(first, last), page)

    def page(self, path: Path) -> None:
        """Write any page, or machine file, that lies elsewhere under the name it has there.

        Raises CollectionError where it cannot be written, OSError where it cannot be read.
        """
        self._write(path.name, path.read_bytes())

    def force(self) -> None:
        """Force all that was brought to the disk. Raises CollectionError."""
        force(self._brought)
        self._brought.clear()

    def keep(self) -> list[Path]:
        """Leave in the folder what was brought: it is about to be recorded. Return what is new."""
        new, self._new = self._new, []
        return new

    def give_up(self, new: list[Path]) -> None:
        """Remove at the end after all what ``keep`` returned: it is not recorded."""
        self._new += new

    def __enter__(self) -> Self:
        self._turn.acquire()
        return self

    def __exit__(self, *_: object) -> None:
        try:
            for path in self._new:
                discard(path)
        finally:
            self._turn.release()

    def _copy(self, sort: Sort, path: Path, folder: Path, suffix: str = "") -> str:
        target, is_new = copy_in(sort, path, folder, suffix)
        self._brought.append(target)
        if is_new:
            self._new.append(target)
        return target.name

    def _write(self, name: str, page: bytes) -> None:
        target = self._folder / SHEETS / name
        self._new.append(target)
        write_in(target, (page,), forced=False)
        self._brought.append(target)
