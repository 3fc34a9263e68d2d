"""What is written of a game, and its pictures: added, edited, dropped, deleted."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from engine import GameLine, PictureRole, SidesReport, Sought, Workshop
from tui.actions import BY_ID
from tui.gamewords import FIELDS
from tui.screens.base import WorkScreen
from tui.screens.choosers import Pick
from tui.screens.dialogs import Confirm
from tui.screens.forms import Form, FormLine, Outcome, Typed
from tui.screens.paths import PathDialog
from tui.screens.taking import path_look
from tui.widgets.table import Column, Row
from tui.words import count, first_of

RECORDS = "records"
"""The group of the work that reads what is written of a game."""

ADD, DROP = "+", "-"
"""Rows that stand for no picture and for no side."""

NAMED = 8
"""Games that are named before the rest is counted."""


class Records:
    """Asks what is written of games, on one screen."""

    def __init__(self, screen: WorkScreen[Any]) -> None:
        """Show dialogs over ``screen``."""
        self._screen = screen

    def open(self, *, some: bool) -> None:
        """Show what can be done; without ``some`` game only one can be added."""
        acts = ("edit_game", "own_pictures", "add_game", "delete_games") if some else ("add_game",)
        rows = [Row(act, (BY_ID[act].label,)) for act in acts]
        about = {act: BY_ID[act].help for act in acts}
        self._open(
            Pick("Game", (Column(""),), rows, about=about),
            lambda act: self._screen.call_later(self._screen.run_action, act),
        )

    def _open(self, dialog: Any, then: Callable[[Any], None]) -> None:
        self._screen.app.push_screen(
            dialog, lambda value: then(value) if value is not None else None
        )

    # --- what is written ---------------------------------------------------------------

    def add(self) -> None:
        """Add a game."""
        self._open(
            form("Add a game", {}, "Add"),
            lambda written: self._screen.work.change(
                lambda workshop: workshop.games.add(**written),
                lambda line: self._screen.notify(f"{line.title} is added.", markup=False),
            ),
        )

    def edit(self, game: str) -> None:
        """Edit what is written of a game."""
        self._screen.fetch(partial(line_of, game), self._ask, group=RECORDS)

    def _ask(self, line: GameLine) -> None:
        present = {field: getattr(line, field) for field in FIELDS}
        self._open(
            form(f"Edit {line.title}", present, "Set"),
            lambda written: self._screen.work.change(
                lambda workshop: workshop.games.edit(line.id, **written)
            ),
        )

    def delete(self, games: Sequence[str]) -> None:
        """Delete games, once the person has seen which."""

        def titles(workshop: Workshop) -> list[str]:
            return [line.title for line in workshop.games.lines() if line.id in wanted]

        def ask(found: Sequence[str]) -> None:
            undo = f"{BY_ID['undo'].shown} brings them back."
            lines = (*first_of(found, NAMED), "", undo)
            self._open(
                Confirm(f"Delete {count(len(found), 'game')}", lines, "Delete"),
                lambda _: self._screen.work.change(lambda workshop: workshop.games.delete(games)),
            )

        wanted = frozenset(games)
        self._screen.fetch(titles, ask, group=RECORDS)

    # --- pictures ----------------------------------------------------------------------

    def pictures(self, game: str) -> None:
        """Show the pictures of a game, to add one, to drop one, or to say what it shows."""
        self._screen.fetch(
            lambda workshop: workshop.sides.of(game), self._show_pictures, group=RECORDS
        )

    def _show_pictures(self, report: SidesReport) -> None:
        rows = [Row(one.picture, (one.role.value, one.source)) for one in report.pictures]
        rows.append(Row(ADD, ("add", "another picture…")))
        about = {one.picture: one.words for one in report.pictures}
        self._open(
            Pick(
                f"Pictures of {report.title}",
                (Column("side", 10), Column("file")),
                rows,
                about=about,
            ),
            lambda row: self._add(report) if row == ADD else self._ask_side(report, row),
        )

    def _add(self, report: SidesReport) -> None:
        look = path_look(self._screen.app, self._screen.work, Sought.PICTURE)
        words = f"A picture of {report.title}. It is copied into the collection."
        self._open(
            PathDialog("Add a picture", words, Sought.PICTURE, look, choice="Take"),
            lambda path: self._ask_role(report, path),
        )

    def _ask_role(self, report: SidesReport, path: Path | str) -> None:
        rows = [Row(role.value, (role.value,)) for role in PictureRole]
        self._open(
            Pick(f"What {Path(path).name} shows", (Column("side"),), rows),
            lambda role: self._screen.work.change(
                lambda workshop: workshop.sides.bring(report.game, Path(path), PictureRole(role)),
                self._show_pictures,
                words="Looking",
            ),
        )

    def _ask_side(self, report: SidesReport, picture: str) -> None:
        present = next(one for one in report.pictures if one.picture == picture)
        rows = [Row(role.value, (f"it shows the {role.value}",)) for role in PictureRole]
        rows.insert(0, Row(DROP, ("drop it: it is not of this game",)))

        def chosen(row: str) -> None:
            if row == DROP:
                self._screen.work.change(
                    lambda workshop: workshop.sides.drop(report.game, picture), self._show_pictures
                )
            else:
                self._screen.work.change(
                    lambda workshop: workshop.sides.give(report.game, picture, PictureRole(row)),
                    self._show_pictures,
                )

        self._open(Pick(present.source, (Column(""),), rows, at=present.role.value), chosen)


def form(title: str, present: Typed, choice: str) -> Form[dict[str, str]]:
    """Return the lines in which a game is described."""
    fields = [
        FormLine(field, label, present.get(field, ""), wide=True) for field, label in FIELDS.items()
    ]
    return Form(title, fields, read_record, choice=choice)


def read_record(typed: Typed) -> Outcome[dict[str, str]]:
    """Return what was typed of a game, or what lacks."""
    return Outcome(dict(typed)) if typed["title"] else Outcome(None, "Give it a title.")


def line_of(game: str, workshop: Workshop) -> GameLine:
    """Return a game as it stands in the list."""
    return next(line for line in workshop.games.lines() if line.id == game)
