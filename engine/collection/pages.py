"""The pages of sheets follow their records."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

from engine.collection import backups
from engine.collection.opening import SHEETS

_PAGE = re.compile(r"sheet-(\d+)(?:-cuts)?\.pdf")


def keep_pages(folder: Path, live: Collection[int]) -> None:
    """Move pages of sheets that are not ``live`` to the backups, and live ones back.

    A sheet that is withdrawn, or whose pressing was undone, must not be printed by
    mistake; undoing that brings the very page back. A page that cannot be moved stays:
    the health check tells of it.
    """
    sheets, kept = folder / SHEETS, folder / backups.FOLDER
    for source, target, wanted in ((sheets, kept, False), (kept, sheets, True)):
        for path in sorted(source.glob("sheet-*.pdf")):
            found = _PAGE.fullmatch(path.name)
            if not found or (int(found[1]) in live) is not wanted:
                continue
            try:
                if not wanted or not (target / path.name).exists():
                    path.replace(target / path.name)
            except OSError:
                continue
