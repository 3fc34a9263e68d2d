"""The pages of sheets follow their records."""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path

from engine.collection.folders import BACKUPS, SHEETS, job_of, sheet_of, sheet_page
from engine.model import Sheet


def keep_pages(folder: Path, sheets: Iterable[Sheet]) -> None:
    """Move pages of sheets that are withdrawn or gone to the backups, and live ones back.

    A sheet that is withdrawn, or whose pressing was undone, must not be printed by
    mistake; undoing that brings the very page back, and no other that was left there under its
    name. A page that cannot be moved stays: the health check tells of it.
    """
    live = {sheet.number: sheet for sheet in sheets if sheet.withdrawn_at is None}
    shown, kept = folder / SHEETS, folder / BACKUPS
    for source, target, wanted in ((shown, kept, False), (kept, shown, True)):
        for path in _pages_in(source):
            number, job = sheet_of(path), job_of(path)
            numbers = set(job or ()) if number is None else {number}
            if not numbers or (numbers <= live.keys()) is not wanted:
                continue
            try:
                if not wanted or _is_missing(target / path.name, path, live.get(number or 0)):
                    path.replace(target / path.name)
            except OSError:
                continue


def _pages_in(folder: Path) -> list[Path]:
    """Return the pages in a folder; none where it cannot be looked into."""
    try:
        return sorted((*folder.glob("sheet-*.*"), *folder.glob("job-*.pdf")))
    except OSError:
        return []


def _is_missing(page: Path, kept: Path, sheet: Sheet | None) -> bool:
    """Return whether a page is not there, and what is kept of that name is the very page."""
    if page.exists():
        return False
    if sheet is None or sheet.printed is None or page.name != sheet_page(sheet.number):
        return True
    return sha256(kept.read_bytes()).hexdigest() == sheet.printed.digest
