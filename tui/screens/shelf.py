"""Shelf: all edges side by side, as they stand or as they would."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, NamedTuple

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Static

from engine import (
    ORDERS,
    SETTINGS,
    ClashLine,
    EdgeLine,
    Proposal,
    Settings,
    ShelfReport,
    Sight,
    There,
    Workshop,
)
from tui.actions import BENCH, SHELF, bindings
from tui.screens.base import View
from tui.screens.choosers import LineDialog, Pick, Search
from tui.screens.deciding import DecidingScreen
from tui.screens.dialogs import Closeup
from tui.widgets.shelf import ShelfPicture
from tui.widgets.table import Column, Row
from tui.words import clash_words

SIGHT = "sight"
"""The group of the work on the picture."""

SIGHT_REST = 0.03
"""How long the keys rest, in seconds, before the picture follows them."""

ROWS = (0.5, 1.0, 2.0, 3.0, 4.0, 6.0)
"""How many rows are in sight at a time, or what part of one."""

TRIED = ("order", "colour_by", "mode")
"""The settings of which another value is tried."""

AS_IT_IS = "as it is"

WhatIf = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class ShelfState(View):
    """All games in their order."""

    report: ShelfReport
    proposals: Mapping[str, Proposal]
    """By game."""

    @property
    def games(self) -> tuple[EdgeLine, ...]:
        """The games in their order."""
        return self.report.games


class Choices(NamedTuple):
    """What can be set."""

    settings: Settings
    there: There


class ShelfScreen(DecidingScreen[ShelfState]):
    """The screen on which the shelf is looked at as a whole."""

    PLACE = SHELF
    CSS_PATH = "shelf.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(SHELF)]
    AUTO_FOCUS = "ShelfPicture"

    def __init__(self) -> None:
        super().__init__()
        self._at = ""
        """The game that is looked at."""
        self._rows = ROWS.index(1.0)
        """The place in ``ROWS`` of how many are in sight."""
        self._what_if: WhatIf = {}
        self._tried = ""
        """What is tried, in words."""
        self._sight: Sight | None = None

    def body(self) -> ComposeResult:
        """Lay out the picture, and what there is to say of the game."""
        yield ShelfPicture()
        yield Static(id="about", classes="note")

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> ShelfState:
        """Read all games in their order."""
        report = workshop.shelf.report()
        found = workshop.designs.proposals([one.game for one in report.games])
        return ShelfState(
            progress=workshop.progress(),
            kinds=workshop.kinds.names(),
            report=report,
            proposals={one.game: one for one in found},
        )

    def on_screen_resume(self) -> None:
        """Look at the game that the screen before was at."""
        self._at = self.app.looked_at or self._at

    def show(self, state: ShelfState) -> None:
        """Show the shelf, at the game that was looked at."""
        if self._at not in state.proposals:
            self._at = state.games[0].game if state.games else ""
        self._look()

    @property
    def current_game(self) -> str:
        """The game that is looked at."""
        return self._at

    def on_shelf_picture_resized(self) -> None:
        """Draw what fits."""
        if self.state is not None:
            self._look()

    def _go(self, game: str) -> None:
        self._at = game
        self._look()
        self.refresh_bindings()

    def _look(self) -> None:
        """Say what there is to say of the game, and draw the shelf around it."""
        picture = self.query_one(ShelfPicture)
        self.query_one("#about", Static).update(self._about())
        if not self._at:
            words = "" if self.state is None else "No games yet. Take in a list."
            picture.show(None, words)
            return
        if picture.of != SHELF:
            picture.show(None, "Drawing the shelf…", of=SHELF)
        game, rows, tried, dots = self._at, ROWS[self._rows], self._what_if, picture.dots
        self.fetch(
            lambda workshop: workshop.shelf.sight(game, dots, rows, tried),
            self._seen,
            group=SIGHT,
            rest=SIGHT_REST,
            failed=self._not_seen,
        )

    def _seen(self, sight: Sight) -> None:
        self._sight = sight
        picture = self.query_one(ShelfPicture)
        picture.spots = sight.spots
        picture.show(sight.png, of=SHELF)

    def _not_seen(self) -> None:
        self.query_one(ShelfPicture).show(None, "The shelf cannot be drawn.", of=SHELF)

    def _about(self) -> Content:
        state = self.state
        place = self._place
        if state is None or place is None:
            return Content("")
        one = state.games[place]
        parts = [
            one.group,
            f"{place + 1} of {len(state.games)}",
            state.kinds.get(one.case, one.case),
            f"■ {one.stage}" if one.printed else f"□ {one.stage}",
            f"{one.size:g} pt" if one.size else "no title",
            one.colours.base,
        ]
        if one.sort_title:
            parts.append(f"filed as {one.sort_title}")
        head = Content.from_markup(
            f"[on {one.colours.base}]  [/] [bold]$title[/]  $said",
            title=one.title,
            said=" · ".join(filter(None, parts)),
        )
        mine = [Content(f"! {clash_words(clash)}") for clash in self._clashes]
        found = len(state.report.clashes)
        below = [ORDERS[state.report.order]]
        below.append(f"{found or 'no'} {'clash' if found == 1 else 'clashes'}")
        if self._tried:
            below.append(f"below: {self._tried}")
        return Content("\n").join([head, *(mine[:2] or [Content("")]), Content(" · ".join(below))])

    # --- where it is looked at ---------------------------------------------------------

    @property
    def _place(self) -> int | None:
        games = self.state.games if self.state else ()
        return next((n for n, one in enumerate(games) if one.game == self._at), None)

    @property
    def _clashes(self) -> list[ClashLine]:
        """What clashes in the game that is looked at."""
        found = self.state.report.clashes if self.state else ()
        return [one for one in found if one.games[0] == self._at]

    def on_shelf_picture_gone(self, message: ShelfPicture.Gone) -> None:
        """Go to the game at that side; before anything is drawn, along the order."""
        steps = self._sight.steps.get(self._at) if self._sight else None
        if steps is not None:
            self._go(getattr(steps, message.way))
        else:
            self._jump({"left": -1, "right": 1}.get(message.way, 0))

    def on_shelf_picture_jumped(self, message: ShelfPicture.Jumped) -> None:
        """Go so many games on."""
        self._jump(message.places)

    def _jump(self, places: int) -> None:
        if self.state and self._place is not None:
            last = len(self.state.games) - 1
            self._go(self.state.games[max(0, min(self._place + places, last))].game)

    def on_shelf_picture_game_clicked(self, message: ShelfPicture.GameClicked) -> None:
        """Look at the game that was clicked."""
        self._go(message.game)

    def action_filter(self) -> None:
        """Find a game by a few letters of its title, and go there."""
        if self.state is None:
            return
        lines = {one.game: one for one in self.state.games}

        def rows(found: Sequence[str]) -> list[Row]:
            return [Row(key, (lines[key].title, lines[key].group)) for key in found if key in lines]

        def find(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            self.fetch(
                lambda workshop: rows(workshop.shelf.find(words) if words else tuple(lines)),
                then,
                group="find",
            )

        self._ask(Search("Search", (Column("game"), Column("stands under", 20)), find), self._go)

    def action_next_clash(self) -> None:
        """Go to the next game that clashes, going round."""
        if self.state is None or self._place is None:
            return
        places = {one.game: n for n, one in enumerate(self.state.games)}
        found = sorted({places[one.games[0]] for one in self.state.report.clashes})
        if found:
            at = next((n for n in found if n > self._place), found[0])
            self._go(self.state.games[at].game)

    def action_closer(self) -> None:
        """Show fewer rows."""
        self._show_rows(self._rows - 1)

    def action_farther(self) -> None:
        """Show more rows."""
        self._show_rows(self._rows + 1)

    def _show_rows(self, rows: int) -> None:
        self._rows = max(0, min(rows, len(ROWS) - 1))
        self._look()
        self.refresh_bindings()

    def action_zoom(self) -> None:
        """Show the insert as large as the screen."""
        game = self.game
        if game is not None:
            self.app.push_screen(
                Closeup(
                    game.title,
                    lambda then: self.fetch(
                        lambda workshop: workshop.proofs.proof(game.game, 300),
                        then,
                        group="closeup",
                    ),
                )
            )

    # --- what is decided ---------------------------------------------------------------

    @property
    def game(self) -> Proposal | None:
        """The game that is looked at."""
        return self.state.proposals.get(self._at) if self.state else None

    def neighbours(self) -> Sequence[Proposal]:
        """Return the games at both sides."""
        if self.state is None or self._place is None:
            return ()
        around = self.state.games[max(0, self._place - 2) : self._place + 3]
        return [self.state.proposals[one.game] for one in around]

    def targets(self) -> tuple[str, ...]:
        """Return the game that is looked at."""
        return (self._at,) if self._at else ()

    def case_of(self, game: str) -> str:
        """Return the case kind of a game."""
        found = self.state.proposals.get(game) if self.state else None
        return found.case if found else ""

    def possible(self, act: str) -> bool:
        """Leave out what does nothing now."""
        if not self._at:
            return False
        if act == "closer":
            return self._rows > 0
        if act == "farther":
            return self._rows < len(ROWS) - 1
        return act != "next_clash" or bool(self.state and self.state.report.clashes)

    def action_to_bench(self) -> None:
        """Bring the game into the batch and go to it."""
        game = self._at
        if game:
            self.app.looked_at = game
            self.work.change(
                lambda workshop: workshop.batch.add([game]),
                lambda _: self.app.switch_mode(BENCH),
            )

    # --- how it stands -----------------------------------------------------------------

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
            self._what_if, self._tried = offered[key]
            self._look()

        self._ask(Pick("What if", (Column("setting"),), rows), chosen)

    def action_arrange(self) -> None:
        """Choose the order."""
        self._choices(self._ask_order)

    def _ask_order(self, present: Choices) -> None:
        one = SETTINGS["order"]
        choices = one.takes.choices(present.there)
        rows = [Row(str(value), (said,)) for value, said in choices.items()]
        pick = Pick(one.title, (Column(""),), rows, at=str(one.value(present.settings)))
        self._ask(pick, lambda order: self._set(order=order))

    def action_dividers(self) -> None:
        """Put dividers before the groups, or take them away."""
        self.work.change(
            lambda workshop: workshop.setup.change(dividers=not workshop.setup.settings().dividers)
        )

    def _set(self, **fields: Any) -> None:
        self.work.change(lambda workshop: workshop.setup.change(**fields))

    def action_file_under(self) -> None:
        """Type what the game is filed under."""
        place = self._place
        if self.state is None or place is None:
            return
        one = self.state.games[place]
        dialog = LineDialog(
            f"File {one.title} under",
            one.sort_title or one.title,
            "Its own title files it by the rules again.",
            str.strip,
        )
        self._ask(
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
        game = self._at
        if game:
            self.work.change(lambda workshop: workshop.shelf.move(game, places))

    def _ask(self, dialog: Pick | LineDialog, then: Callable[[str], None]) -> None:
        self.app.push_screen(dialog, lambda chosen: then(chosen) if chosen is not None else None)
