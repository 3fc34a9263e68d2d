"""The index of the shelf: every title with its place, as a list, a PDF or a table."""

from __future__ import annotations

from pathlib import Path

import msgspec

from engine.collection import write_out
from engine.model import Value
from engine.model.errors import InputError
from engine.service.places import room_report
from engine.service.session import Session
from engine.shelf import by_letter
from engine.shelf.index import Entry, as_csv, numbered
from engine.shelf.indexpages import draw_index, pages_of


class IndexReport(Value, frozen=True):
    """Every title, under its letter."""

    entries: tuple[Entry, ...]
    file: str | None = None
    """What was written."""


class Index:
    """The index of the shelf, by title whatever the order on the shelf."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def report(self) -> IndexReport:
        """Return every title with its letter, its place, and its page on the usual paper."""
        with self._session.lock:
            snapshot = self._session.snapshot
            places = {
                place.game: place.words
                for place in room_report(snapshot, self._session.kinds).places
            }
        entries = tuple(
            Entry(game.id, game.title, group.name, places.get(game.id, ""))
            for group in by_letter(snapshot.games.values(), snapshot.settings)
            for game in group.games
        )
        pages = numbered(pages_of(entries, snapshot.settings.stock))
        return IndexReport(
            tuple(msgspec.structs.replace(one, page=pages[one.game]) for one in entries)
        )

    def write(self, path: Path, *, replace: bool = False) -> IndexReport:
        """Write the index as a PDF or as CSV, as the name ends; return it. Raises InputError."""
        report, snapshot = self.report(), self._session.snapshot
        match path.suffix.lower():
            case ".csv":
                data = as_csv(report.entries)
            case ".pdf":
                name = self._session.folder.resolve().name
                titles = " ".join(one.title for one in report.entries)
                fonts = snapshot.proposer.titler.fonts.large(titles)
                data = draw_index(
                    f"Index of {name}", report.entries, snapshot.settings.stock, fonts
                )
            case _:
                raise InputError(str(path), "an index is a PDF or CSV", "Let the name end in one")
        write_out(path, data, replace=replace)
        return msgspec.structs.replace(report, file=str(path))
