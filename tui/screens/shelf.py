"""Shelf: all edges side by side, as they stand or as they would."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Static

from engine import (
    ORDERS,
    ClashLine,
    EdgeLine,
    Proposal,
    Sight,
    Workshop,
)
from tui.actions import BENCH, SHELF, bindings
from tui.screens.arranging import ArrangingKeys
from tui.screens.base import View
from tui.screens.choosers import Search
from tui.screens.deciding import DecidingScreen
from tui.widgets.shelf import ShelfPicture
from tui.widgets.table import Column, Row
from tui.words import clash_words

SIGHT = "sight"
"""The group of the work on the picture."""

SIGHT_REST = 0.03
"""How long the keys rest, in seconds, before the picture follows them."""

ROWS = (0.5, 1.0, 2.0, 3.0, 4.0, 6.0)
"""How many rows are in sight at a time, or what part of one."""


@dataclass(frozen=True, slots=True)
class ShelfState(View):
    """All games in their order."""

    order: tuple[str, ...]
    """The games by id, as they stand."""
    titles: Mapping[str, str]
    """Theirs, by id."""
    by: str
    """What they are ordered by."""


class Looked(NamedTuple):
    """The game that is looked at, and what stands around it."""

    sight: Sight
    edge: EdgeLine
    around: tuple[Proposal, ...]
    """Of the game and those at both sides."""


class ShelfScreen(ArrangingKeys, DecidingScreen[ShelfState]):
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
        self._looked: Looked | None = None
        self._clashing: tuple[ClashLine, ...] | None = None
        """What clashes on the shelf; None while that is worked out."""

    def body(self) -> ComposeResult:
        """Lay out the picture, and what there is to say of the game."""
        yield ShelfPicture()
        yield Static(id="about", classes="note")

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> ShelfState:
        """Read all games in their order."""
        return ShelfState(
            progress=workshop.progress(),
            kinds=workshop.kinds.names(),
            order=workshop.shelf.order(),
            titles=workshop.games.titles(),
            by=workshop.setup.settings().order,
        )

    def on_screen_resume(self) -> None:
        """Look at the game that the screen before was at."""
        self._at, self.app.looked_at = self.app.looked_at or self._at, ""

    def show(self, state: ShelfState) -> None:
        """Show the shelf, at the game that was looked at."""
        if self._at not in state.titles:
            self._at = state.order[0] if state.order else ""
        self.look()
        if self._at:
            self.long_fetch(
                lambda workshop, cancel: workshop.shelf.clashes(cancel),
                self._compared,
                group="clashes",
                words="Comparing",
            )

    def _compared(self, clashes: tuple[ClashLine, ...]) -> None:
        self._clashing = clashes
        self.query_one("#about", Static).update(self._about())
        self.refresh_bindings()

    @property
    def current_game(self) -> str:
        """The game that is looked at."""
        return self._at

    def on_shelf_picture_resized(self) -> None:
        """Draw what fits."""
        if self.state is not None:
            self.look()

    def go_to(self, game: str) -> None:
        """Look at a game."""
        self._at = game
        self.look()
        self.refresh_bindings()

    def look(self) -> None:
        """Say what there is to say of the game, and draw the shelf around it."""
        picture = self.query_one(ShelfPicture)
        self.query_one("#about", Static).update(self._about())
        if not self._at:
            words = "" if self.state is None else "No games yet. Take in a list."
            picture.show(None, words)
            return
        if picture.of != SHELF:
            picture.show(None, "Drawing the shelf…", of=SHELF)
        game, rows, tried, dots = self._at, ROWS[self._rows], self.what_if, picture.dots
        near = self._near()
        self.fetch(
            lambda workshop: Looked(
                workshop.shelf.sight(game, dots, rows, tried),
                workshop.shelf.edge(game),
                workshop.designs.proposals(near),
            ),
            self._seen,
            group=SIGHT,
            rest=SIGHT_REST,
            failed=self._not_seen,
        )

    def _near(self) -> tuple[str, ...]:
        """Return the game that is looked at and those at both sides."""
        place = self._place
        if self.state is None or place is None:
            return ()
        return self.state.order[max(0, place - 2) : place + 3]

    def _seen(self, looked: Looked) -> None:
        self._looked = looked
        picture = self.query_one(ShelfPicture)
        picture.spots = looked.sight.spots
        picture.show(looked.sight.png, of=SHELF)
        self.query_one("#about", Static).update(self._about())
        self.refresh_bindings()

    def _not_seen(self) -> None:
        self.query_one(ShelfPicture).show(None, "The shelf cannot be drawn.", of=SHELF)

    def _about(self) -> Content:
        state, place = self.state, self._place
        if state is None or place is None:
            return Content("")
        head = Content.from_markup(
            "[bold]$title[/]  $said",
            title=state.titles[self._at],
            said=" · ".join([f"{place + 1} of {len(state.order)}", *self._said()]),
        )
        mine = [Content(f"! {clash_words(clash)}") for clash in self._clashes]
        return Content("\n").join(
            [head, *(mine[:2] or [Content("")]), Content(" · ".join(self._below()))]
        )

    def _said(self) -> list[str]:
        """Return what there is to say of the game, once it was looked at."""
        looked, state = self._looked, self.state
        if looked is None or state is None or looked.edge.game != self._at:
            return []
        one = looked.edge
        said = [
            one.group,
            state.kinds.get(one.case, one.case),
            f"■ {one.stage}" if one.printed else f"□ {one.stage}",
            f"{one.size:g} pt" if one.size else "no title",
            one.colours.base,
            f"filed as {one.sort_title}" if one.sort_title else "",
        ]
        return [part for part in said if part]

    def _below(self) -> list[str]:
        found = self._clashing
        said = [ORDERS[self.state.by]] if self.state else []
        if found is not None:
            said.append(f"{len(found) or 'no'} {'clash' if len(found) == 1 else 'clashes'}")
        if self.tried:
            said.append(f"below: {self.tried}")
        return said

    # --- where it is looked at ---------------------------------------------------------

    @property
    def _place(self) -> int | None:
        order = self.state.order if self.state else ()
        return order.index(self._at) if self._at in order else None

    @property
    def _clashes(self) -> list[ClashLine]:
        """What clashes in the game that is looked at."""
        return [one for one in self._clashing or () if one.games[0] == self._at]

    def on_shelf_picture_gone(self, message: ShelfPicture.Gone) -> None:
        """Go to the game at that side; before anything is drawn, along the order."""
        steps = self._looked.sight.steps.get(self._at) if self._looked else None
        if steps is not None:
            self.go_to(getattr(steps, message.way))
        else:
            self._jump({"left": -1, "right": 1}.get(message.way, 0))

    def on_shelf_picture_jumped(self, message: ShelfPicture.Jumped) -> None:
        """Go so many games on."""
        self._jump(message.places)

    def _jump(self, places: int) -> None:
        if self.state and self._place is not None:
            last = len(self.state.order) - 1
            self.go_to(self.state.order[max(0, min(self._place + places, last))])

    def on_shelf_picture_game_clicked(self, message: ShelfPicture.GameClicked) -> None:
        """Look at the game that was clicked."""
        self.go_to(message.game)

    def action_filter(self) -> None:
        """Find a game by a few letters of its title, and go there."""
        if self.state is None:
            return
        titles, order = self.state.titles, self.state.order

        def find(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            self.fetch(
                lambda workshop: [
                    Row(key, (titles[key],))
                    for key in (workshop.shelf.find(words) if words else order)
                    if key in titles
                ],
                then,
                group="find",
            )

        self.ask(Search("Search", (Column("game"),), find), self.go_to)

    def action_next_clash(self) -> None:
        """Go to the next game that clashes, going round."""
        if self.state is None or self._place is None:
            return
        places = {game: place for place, game in enumerate(self.state.order)}
        found = sorted({places[one.games[0]] for one in self._clashing or ()})
        if found:
            self.go_to(self.state.order[next((n for n in found if n > self._place), found[0])])

    def action_closer(self) -> None:
        """Show fewer rows."""
        self._show_rows(self._rows - 1)

    def action_farther(self) -> None:
        """Show more rows."""
        self._show_rows(self._rows + 1)

    def _show_rows(self, rows: int) -> None:
        self._rows = max(0, min(rows, len(ROWS) - 1))
        self.look()
        self.refresh_bindings()

    # --- what is decided ---------------------------------------------------------------

    @property
    def game(self) -> Proposal | None:
        """The game that is looked at."""
        return next((one for one in self.neighbours() if one.game == self._at), None)

    def neighbours(self) -> Sequence[Proposal]:
        """Return the game and those at both sides."""
        return self._looked.around if self._looked else ()

    def targets(self) -> tuple[str, ...]:
        """Return the game that is looked at."""
        return (self._at,) if self._at else ()

    def case_of(self, game: str) -> str:
        """Return the case kind of a game."""
        return next((one.case for one in self.neighbours() if one.game == game), "")

    def possible(self, act: str) -> bool:
        """Leave out what does nothing now."""
        if not self._at:
            return False
        if act == "closer":
            return self._rows > 0
        if act == "farther":
            return self._rows < len(ROWS) - 1
        return act != "next_clash" or bool(self._clashing)

    def action_to_bench(self) -> None:
        """Bring the game into the batch and go to it."""
        game = self._at
        if game:
            self.app.looked_at = game
            self.work.change(
                lambda workshop: workshop.batch.add([game]),
                lambda _: self.app.switch_mode(BENCH),
            )
