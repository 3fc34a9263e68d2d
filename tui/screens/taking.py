"""Taking in a list or pictures: a path, a look at what was understood, then the change."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import NamedTuple

from textual.app import App

from engine import (
    Cancel,
    Delivery,
    GameList,
    IntakeLook,
    IntakeReport,
    Sought,
    Workshop,
    look_at_path,
    read_titles,
    sheets_of,
    unpack,
)
from tui.screens.choosers import Pick
from tui.screens.dialogs import Confirm
from tui.screens.paths import Look, PathDialog
from tui.widgets.table import Column, Row
from tui.words import look_lines, taken_lines
from tui.work import Ended, Tell, Then, Work, nothing

INTAKE = "intake"
"""The group of the work that looks at lists and pictures."""

LIST_WORDS = (
    "CSV, XLSX, ODS or text with a title a line. Or paste a column of titles here, as it is."
)
PICTURES_WORDS = "A folder of covers, with the folders in it. They are copied, and matched by name."


class Seen(NamedTuple):
    """A delivery, and what it would bring."""

    delivery: Delivery
    look: IntakeLook


class Taking:
    """Takes lists and pictures in, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work, brought: Callable[[], None]) -> None:
        """Call ``brought`` where there are new pictures."""
        self._app = app
        self._work = work
        self._brought = brought

    def take_list(self, then: Then = nothing, typed: str = "") -> None:
        """Ask for a list and take it in; ``then`` hears whether anything came of it.

        The line begins with what was ``typed``, as where that was refused.
        """

        def chosen(said: Path | str | None) -> None:
            again = partial(self.take_list, then, dialog.typed)
            if isinstance(said, Path):
                self._work.fetch(
                    self._app,
                    lambda _: sheets_of(said),
                    partial(self._ask_sheet, said, then, again),
                    group=INTAKE,
                    failed=again,
                )
            elif said is not None:
                self._unpack(lambda: read_titles(said), None, then, again)
            else:
                then(Ended.LEFT)

        dialog = self._path_dialog("Take in a list", LIST_WORDS, Sought.LIST, typed)
        self._app.push_screen(dialog, chosen)

    def take_pictures(self, then: Then = nothing, typed: str = "") -> None:
        """Ask for a folder of pictures and take it in, as ``take_list`` does a list."""

        def chosen(said: Path | str | None) -> None:
            if isinstance(said, Path):
                again = partial(self.take_pictures, then, dialog.typed)
                self._unpack(lambda: None, said, then, again)
            else:
                then(Ended.LEFT)

        dialog = self._path_dialog("Take in pictures", PICTURES_WORDS, Sought.PICTURES, typed)
        self._app.push_screen(dialog, chosen)

    def _path_dialog(self, title: str, words: str, sought: Sought, typed: str) -> PathDialog:
        look = path_look(self._app, self._work, sought)
        return PathDialog(title, words, sought, look, text=typed, choice="Look")

    def _ask_sheet(
        self, path: Path, then: Then, again: Callable[[], None], sheets: tuple[str, ...]
    ) -> None:
        """Ask which sheet of a spreadsheet holds the list, where there are several."""
        if len(sheets) < 2:
            self._unpack(lambda: path, None, then, again)
            return

        def chosen(sheet: str | None) -> None:
            if sheet is None:
                again()
            else:
                self._unpack(lambda: path, None, then, again, sheet=sheet)

        rows = [Row(sheet, (sheet,)) for sheet in sheets]
        self._app.push_screen(Pick(f"Sheet of {path.name}", (Column("sheet"),), rows), chosen)

    def _unpack(
        self,
        listed: Callable[[], Path | GameList | None],
        pictures: Path | None,
        then: Then,
        again: Callable[[], None],
        *,
        sheet: str = "",
    ) -> None:
        """Look at a delivery from end to end, and show what it would bring.

        Where it is refused, ``again`` asks for another.
        """

        def look(workshop: Workshop, tell: Tell, cancel: Cancel) -> Seen:
            delivery = unpack(
                listed(),
                pictures,
                sheet=sheet,
                known=workshop.readings.found(),
                skip_broken=True,
                progress=lambda done, of: tell(f"Looking at picture {done} of {of}"),
                cancel=cancel,
            )
            return Seen(delivery, workshop.games.look(delivery))

        self._work.told_fetch(
            self._app,
            look,
            partial(self._show, then),
            group=INTAKE,
            words="Looking",
            stopped=partial(then, Ended.LEFT),
            failed=again,
        )

    def _show(self, then: Then, seen: Seen) -> None:
        def answered(taken: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if taken:
                self._work.change(
                    lambda workshop: workshop.games.take_in(seen.delivery),
                    partial(self._taken, then, seen),
                    failed=partial(then, Ended.LEFT),
                    words="Taking in",
                )
            else:
                then(Ended.LEFT)

        self._app.push_screen(
            Confirm(f"What {seen.delivery.name} brings", look_lines(seen.look), "Take in"), answered
        )

    def _taken(self, then: Then, seen: Seen, report: IntakeReport) -> None:
        if then is nothing:  # else what follows says what it came to
            title = f"{seen.delivery.name} is taken in"
            self._app.notify("\n".join(taken_lines(report)), title=title, markup=False)
        if seen.look.pictures:
            self._brought()
        then(Ended.DONE)


def path_look(app: App[None], work: Work, sought: Sought) -> Look:
    """Return what looks at paths for a dialog."""
    return lambda typed, then: work.fetch(
        app, lambda _: look_at_path(typed, sought), then, group="path"
    )
