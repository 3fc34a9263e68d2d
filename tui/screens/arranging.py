"""The keys that put a shelf in order, and try how it would look otherwise."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from engine import SETTINGS, EdgeLine, Settings, There
from tui.screens.base import WorkScreen
from tui.screens.choosers import LineDialog, Pick, Search
from tui.widgets.table import Column, Row

TRIED = ("order", "colour_by", "mode")
"""The settings of which another value is tried."""

AS_IT_IS = "as it is"

WhatIf = Mapping[str, Any]


class Choices(NamedTuple):
    """What can be set."""

    settings: Settings
    there: There


class ArrangingKeys(WorkScreen[Any]):
    """A screen with a shelf in sight, at one of its games."""

    what_if: WhatIf = {}
    """What is tried."""
    tried = ""
    """That in words."""

    def look(self) -> None:
        """Draw the shelf anew."""
        raise NotImplementedError

    def ask(self, dialog: Pick | LineDialog | Search, then: Callable[[str], None]) -> None:
        """Open a dialog; ``then`` takes what was chosen, unless it was left."""
        self.app.push_screen(dialog, lambda chosen: then(chosen) if chosen is not None else None)

    def action_what_if(self) -> None:
        """Choose what is tried."""
        self._choices(self._ask_what_if)

    def _choices(self, then: Callable[[Choices], None]) -> None:
        self.fetch(
            lambda workshop: Choices(workshop.setup.settings(), workshop.setup.there()),
            then,
            group="choices",
        )

    def _ask_what_if(self, present: Choices) -> None:
        offered: dict[str, tuple[WhatIf, str]] = {AS_IT_IS: ({}, "")}
        for name in TRIED:
            one = SETTINGS[name]
            for value, said in one.takes.choices(present.there).items():
                if value != one.value(present.settings):
                    words = f"{one.title}: {said}"
                    offered[f"{name}={one.takes.typed(value)}"] = ({name: value}, words)
        rows = [Row(key, (words or AS_IT_IS,)) for key, (_, words) in offered.items()]

        def chosen(key: str) -> None:
            self.what_if, self.tried = offered[key]
            self.look()

        self.ask(Pick("What if", (Column("setting"),), rows), chosen)

    def action_arrange(self) -> None:
        """Choose the order."""
        self._choices(self._ask_order)

    def _ask_order(self, present: Choices) -> None:
        one = SETTINGS["order"]
        choices = one.takes.choices(present.there)
        rows = [Row(str(value), (said,)) for value, said in choices.items()]
        pick = Pick(one.title, (Column(""),), rows, at=str(one.value(present.settings)))
        self.ask(pick, lambda order: self._set(order=order))

    def action_dividers(self) -> None:
        """Put dividers before the groups, or take them away."""
        self.work.change(
            lambda workshop: workshop.setup.change(dividers=not workshop.setup.settings().dividers)
        )

    def _set(self, **fields: Any) -> None:
        self.work.change(lambda workshop: workshop.setup.change(**fields))

    def action_file_under(self) -> None:
        """Type what the game is filed under."""
        game = self.current_game
        if game:
            self.fetch(lambda workshop: workshop.shelf.edge(game), self._ask_title, group="choices")

    def _ask_title(self, one: EdgeLine) -> None:
        dialog = LineDialog(
            f"File {one.title} under",
            one.sort_title or one.title,
            "Its own title files it by the rules again.",
            str.strip,
        )
        self.ask(
            dialog,
            lambda words: self.work.change(
                lambda workshop: workshop.shelf.file_under(one.game, words)
            ),
        )

    def action_move_back(self) -> None:
        """Move the game a place back."""
        self._move(-1)

    def action_move_on(self) -> None:
        """Move the game a place on."""
        self._move(1)

    def _move(self, places: int) -> None:
        game = self.current_game
        if game:
            self.work.change(lambda workshop: workshop.shelf.move(game, places))
