"""The pages of sheets follow their records."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from engine.collection.folders import BACKUPS, SHEETS, job_of, sheet_of
from engine.model import Sheet


def keep_pages(folder: Path, sheets: Iterable[Sheet]) -> None:
    """Move pages of sheets that are withdrawn or gone to the backups, and live ones back.

    A sheet that is withdrawn, or whose pressing was undone, must not be printed by
    mistake; undoing that brings the very page back. A page that cannot be moved stays:
    the health check tells of it.
    """
    live = {sheet.number for sheet in sheets if sheet.withdrawn_at is None}
    shown, kept = folder / SHEETS, folder / BACKUPS
    for source, target, wanted in ((shown, kept, False), (kept, shown, True)):
        for path in sorted((*source.glob("sheet-*.*"), *source.glob("job-*.pdf"))):
            number, job = sheet_of(path), job_of(path)
            numbers = set(job or ()) if number is None else {number}
            if not numbers or (numbers <= live) is not wanted:
                continue
            try:
                if not wanted or not (target / path.name).exists():
                    path.replace(target / path.name)
            except OSError:
                continue
