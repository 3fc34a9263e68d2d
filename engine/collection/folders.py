"""What lies where in a collection's folder."""

from __future__ import annotations

import re
from pathlib import Path

from engine.model.errors import CollectionError

FILE = "collection.json"
LOCK = ".collection.lock"
PICTURES = "pictures"
FONTS = "fonts"
SHEETS = "sheets"
CASES = "cases"
BACKUPS = "backups"

FOLDERS = (PICTURES, FONTS, SHEETS, CASES, BACKUPS)


def collection_name(folder: Path) -> str:
    """Return what to call the collection in a folder: the folder's name."""
    return folder.expanduser().resolve().name


def within(folder: Path, path: Path) -> Path:
    """Return ``path``, which lies in a collection's ``folder``.

    Raises CollectionError where it leads out of it, by its name or by a link: a collection from
    someone else could name any file of the person's.
    """
    if not path.resolve().is_relative_to(folder.resolve()):
        raise CollectionError(str(path), "leads out of the collection", "Put the file itself there")
    return path


def refuse_links(folder: Path) -> None:
    """Raise CollectionError where a part of a collection is a link to somewhere else."""
    for name in (FILE, LOCK, *FOLDERS):
        if (folder / name).is_symlink():
            what = "is a link, and nothing of a collection may lie elsewhere"
            raise CollectionError(str(folder / name), what, "Put what it leads to in its place")


_PAGE = re.compile(r"sheet-(\d+)(?:-cuts)?\.(?:pdf|svg|dxf)")

_JOB = re.compile(r"job-(\d+)-(\d+)\.pdf")


def sheet_page(number: int) -> str:
    """Return the name of the PDF of a sheet."""
    return f"sheet-{number:04d}.pdf"


def cut_page(number: int) -> str:
    """Return the name of the PDF that tells how a sheet is cut."""
    return f"sheet-{number:04d}-cuts.pdf"


def machine_file(number: int, form: str) -> str:
    """Return the name of what tells a machine how a sheet is cut: ``form`` is svg or dxf."""
    return f"sheet-{number:04d}.{form}"


def sheet_of(path: Path) -> int | None:
    """Return the number of the sheet whose page or cuts these are; None for other files."""
    found = _PAGE.fullmatch(path.name)
    return int(found[1]) if found else None


def job_page(first: int, last: int) -> str:
    """Return the name of the PDF of all sheets of one pressing."""
    return f"job-{first:04d}-{last:04d}.pdf"


def job_of(path: Path) -> range | None:
    """Return the numbers of the sheets of a pressing whose PDF this is; None for other files."""
    found = _JOB.fullmatch(path.name)
    return range(int(found[1]), int(found[2]) + 1) if found else None


def trial_page(kind: str) -> str:
    """Return the name of the PDF of a case kind's trial cut."""
    return f"trial-{kind}.pdf"


def check_page(stock: str) -> str:
    """Return the name of the PDF that tells what a printer does to a stock."""
    return f"check-{stock}.pdf"


def is_trial(path: Path) -> bool:
    """Return whether a page is a trial cut or a check page: no record knows it, nor has to."""
    return path.name.startswith(("trial-", "check-")) and path.suffix == ".pdf"
