"""Where the files of a collection lie."""

from __future__ import annotations

from pathlib import Path

from engine.collection import folders
from engine.model.errors import CollectionError


class Paths:
    """A folder that a collection is kept in."""

    def __init__(self, folder: Path) -> None:
        """Lie in ``folder``."""
        self.folder = folder

    def machine_path(self, number: int, form: str) -> Path:
        """Return where the svg or dxf for the machine that cuts a sheet lies or will lie."""
        return self.folder / folders.SHEETS / folders.machine_file(number, form)

    def job_path(self, first: int, last: int) -> Path:
        """Return where the PDF of a pressing of these sheets lies or will lie."""
        return self.folder / folders.SHEETS / folders.job_page(first, last)

    def picture_path(self, name: str) -> Path:
        """Return where the picture ``name`` lies.

        Raises CollectionError if that is no file name, or leads out of the collection.
        """
        if Path(name).name != name or name in {"", ".."}:
            raise CollectionError(name, "this is no name of a picture", "Choose one of the list")
        return folders.within(self.folder, self.folder / folders.PICTURES / name)

    def sheet_path(self, number: int) -> Path:
        """Return where the PDF of sheet ``number`` lies or will lie.

        Raises CollectionError where that leads out of the collection.
        """
        page = self.folder / folders.SHEETS / folders.sheet_page(number)
        return folders.within(self.folder, page)

    @property
    def font_folder(self) -> Path:
        """Where the fonts of titles lie."""
        return self.folder / folders.FONTS

    @property
    def case_folder(self) -> Path:
        """Where the person's own case kinds lie."""
        return self.folder / folders.CASES
