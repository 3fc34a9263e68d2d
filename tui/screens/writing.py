"""Files that are written of a collection: a path, a question where one is there, the file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

from textual.app import App

from engine import Cancel, ExportReport, Sought, Workshop, look_at_path
from tui.screens.choosers import Pick
from tui.screens.dialogs import Confirm, Report
from tui.screens.paths import PathDialog
from tui.screens.taking import path_look
from tui.widgets.table import Column, Row
from tui.words import export_words
from tui.work import Work

WRITING = "writing"
"""The group of the work on what is to be written."""

AS = {
    "index": "A name that ends in .pdf is to print, in .csv for other programs.",
    "shelf": "A name that ends in .png is a picture, in .pdf true to size.",
    "png": "A picture: a name that ends in .png.",
    "net": "A name that ends in .svg, .dxf, .pdf or .png.",
    "export": "A new folder. Taking it in again gives back the same collection.",
}
"""How what is written may be called."""

VIEWS = {"flat": "Flat", "folded": "Folded, as it looks in the case"}


class Wanted(NamedTuple):
    """A file that is to be written."""

    title: str
    words: str
    name: str
    """Proposed for it."""
    write: Callable[[Workshop, Path, bool, Cancel], object]
    """Writes it, over a file of others where it may. Called in a thread."""


class Writing:
    """Writes files of a collection, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work

    # --- what is written ---------------------------------------------------------------

    def index(self) -> None:
        """Write the index."""
        self._ask(
            Wanted(
                "Write the index",
                AS["index"],
                "index.pdf",
                lambda workshop, path, over, _: workshop.index.write(path, replace=over),
            )
        )

    def shelf(self) -> None:
        """Write the picture of the shelf."""
        views = {"now": "As it is: what is planned is lighter", "done": "As if all were printed"}

        def chosen(view: str) -> None:
            self._ask(
                Wanted(
                    "Write the shelf",
                    AS["shelf"],
                    "shelf.png",
                    lambda workshop, path, over, cancel: workshop.shelf.write(
                        path, finished=view == "done", replace=over, cancel=cancel
                    ),
                )
            )

        self._pick("The shelf", views, chosen)

    def proof(self, game: str) -> None:
        """Write the picture of a game's insert."""

        def chosen(view: str) -> None:
            self._ask(
                Wanted(
                    "Write the proof",
                    AS["png"],
                    f"{game}.png",
                    lambda workshop, path, over, _: workshop.proofs.write(
                        game, path, folded=view == "folded", replace=over
                    ),
                )
            )

        self._pick("The proof", VIEWS, chosen)

    def net(self) -> None:
        """Write the net of a case kind."""
        self._work.fetch(
            self._app,
            lambda workshop: workshop.kinds.names(),
            lambda kinds: self._pick("The net of", kinds, self._net_of),
            group=WRITING,
        )

    def _net_of(self, kind: str) -> None:
        nets = {
            "flat": Wanted(
                "Write the net",
                AS["net"],
                f"{kind}.svg",
                lambda workshop, path, over, _: workshop.kinds.write_net(kind, path, replace=over),
            ),
            "folded": Wanted(
                "Write the net folded",
                AS["png"],
                f"{kind}.png",
                lambda workshop, path, over, _: workshop.kinds.write_folded(
                    kind, path, replace=over
                ),
            ),
        }
        self._pick("The net", VIEWS, lambda view: self._ask(nets[view]))

    def export(self) -> None:
        """Write the collection out into a new folder."""
        self._ask_path(
            Wanted(
                "Export the collection",
                AS["export"],
                f"{self._work.name}-export",
                lambda workshop, path, *_: workshop.export(path),
            ),
            Sought.EMPTY,
            self._exported,
        )

    def _exported(self, path: Path, report: Any) -> None:
        if isinstance(report, ExportReport):
            lines = [f"{path}", f"{export_words(report)}.", *report.notes]
            self._app.push_screen(Report("The collection is written out", lines))

    # --- where it is written -----------------------------------------------------------

    def _pick(self, title: str, choices: Mapping[str, str], then: Callable[[str], None]) -> None:
        rows = [Row(key, (words,)) for key, words in choices.items()]
        self._app.push_screen(
            Pick(title, (Column(""),), rows),
            lambda chosen: then(chosen) if chosen is not None else None,
        )

    def _ask(self, wanted: Wanted) -> None:
        self._ask_path(wanted, Sought.WRITTEN, self._told)

    def _told(self, path: Path, _: object) -> None:
        self._app.notify(f"{path}", title="Written", markup=False)

    def _ask_path(
        self, wanted: Wanted, sought: Sought, then: Callable[[Path, object], None]
    ) -> None:
        def again(path: Path) -> None:
            self._ask_path(wanted._replace(name=str(path)), sought, then)

        def write(path: Path, *, over: bool) -> None:
            self._work.long_change(
                lambda workshop, cancel: wanted.write(workshop, path, over, cancel),
                partial(then, path),
                failed=partial(again, path),
                words="Writing",
            )

        def confirm(path: Path, *, taken: bool) -> None:
            if not taken:
                write(path, over=False)
                return
            lines = (f"{path} is there already.", "What is in it is lost, whoever made it.")
            self._app.push_screen(
                Confirm("Write over it?", lines, "Write over"),
                lambda over: write(path, over=True) if over else again(path),
            )

        def chosen(said: Path | str | None) -> None:
            if isinstance(said, Path):
                self._work.fetch(
                    self._app,
                    lambda _: look_at_path(str(said), sought).is_taken,
                    lambda taken: confirm(said, taken=taken),
                    group=WRITING,
                )

        look = path_look(self._app, self._work, sought)
        dialog = PathDialog(
            wanted.title, wanted.words, sought, look, text=wanted.name, choice="Write"
        )
        self._app.push_screen(dialog, chosen)
