"""Changing a decision of the current game: its art, its colour, its title."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeVar

from engine import (
    ColourChoice,
    InkReport,
    Neighbours,
    Proposal,
    SetTitle,
    SidesReport,
    Workshop,
)
from tui.artchanges import CHANGES, ArtChange
from tui.picturekind import SHARP
from tui.screens.art import ArtDialog
from tui.screens.base import View
from tui.screens.choosers import Pick
from tui.screens.dialogs import Closeup
from tui.screens.fitting import FittingKeys
from tui.screens.games import GamesScreen
from tui.screens.looking import BARE, PictureSearch, ShelfColour, TitleDialog, picture_row
from tui.widgets.table import Column, Row

S = TypeVar("S", bound=View)

ART_REST = 0.06
"""How long the keys rest, in seconds, before the proof follows them."""

LARGE = 300
"""Pixels to the inch of an insert that fills the screen."""

INK_REST = 0.6
"""How long the keys rest, in seconds, before the ink is weighed in every mode."""


class DecidingScreen(FittingKeys, GamesScreen[S]):
    """A screen with a current game, of which the decisions are changed."""

    @property
    @abstractmethod
    def game(self) -> Proposal | None:
        """The game under the cursor."""

    @abstractmethod
    def neighbours(self) -> Sequence[Proposal]:
        """Return the games whose colours are offered for the current one."""

    def change_it(self, change: ArtChange) -> None:
        """Make a change to the current game."""
        game = self.game
        if game is not None:
            self.work.change(lambda workshop: change(workshop, game.game))

    def action_zoom(self) -> None:
        """Show the insert as large as the screen."""
        game = self.game
        if game is not None:
            self.app.push_screen(
                Closeup(
                    game.title,
                    lambda then: self.fetch(
                        lambda workshop: self.large(workshop, game.game), then, group="closeup"
                    ),
                )
            )

    def large(self, workshop: Workshop, game: str) -> bytes:
        """Draw the insert of a game as large as a screen shows. Called in a thread."""
        return workshop.proofs.proof(game, LARGE)

    # --- art ---------------------------------------------------------------------------

    def action_go_plain(self) -> None:
        """Use no picture."""
        self.change_it(CHANGES["go_plain"])

    def action_change_picture(self) -> None:
        """Choose another picture by a few letters of its name."""
        game = self.game
        if game is None:
            return

        def chosen(name: str | None) -> None:
            if name is not None:
                self.work.change(lambda workshop: workshop.designs.swap_picture(game.game, name))

        self.app.push_screen(self._search("Picture", game.title), chosen)

    def _search(self, title: str, words: str, *, bare: bool = False) -> PictureSearch:
        """Return the dialog in which a picture is chosen; ``bare`` offers none, too, last."""
        none = [BARE] if bare else []

        def find(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            self.fetch(
                lambda workshop: [
                    *map(picture_row, workshop.choosing.pictures(words)),
                    *none,
                ],
                then,
                group="pictures",
            )

        def look(name: str, then: Callable[[bytes], None]) -> None:
            self.fetch(
                lambda workshop: workshop.choosing.picture(name), then, group="look", rest=ART_REST
            )

        return PictureSearch(title, find, look, words)

    def action_edit_art(self) -> None:
        """Work on the art beside its proof."""
        game, work = self.game, self.work
        if game is None:
            return

        def make(change: ArtChange, then: Callable[[Proposal], None]) -> None:
            work.change(lambda workshop: change(workshop, game.game), then)

        def draw(then: Callable[[bytes], None]) -> None:
            self.fetch(
                lambda workshop: workshop.proofs.proof(game.game), then, group="art", rest=ART_REST
            )

        def weigh(then: Callable[[InkReport], None]) -> None:
            self.fetch(
                lambda workshop: workshop.ink.report([game.game]).inserts[0],
                then,
                group="ink",
                rest=INK_REST,
            )

        self.app.push_screen(ArtDialog(game, make, draw, weigh, read_only=work.read_only))

    def action_panel_art(self) -> None:
        """Choose what a panel besides the main one shows."""
        game = self.game
        if game is not None:
            self.fetch(
                lambda workshop: workshop.sides.of(game.game),
                partial(self._ask_panel, game),
                group="sides",
            )

    def _ask_panel(self, game: Proposal, sides: SidesReport) -> None:
        if not sides.panels:
            self.notify("Its case kind has no panel for a picture.")
            return
        rows = [Row(one.panel, (one.panel, one.source or "no picture")) for one in sides.panels]

        def chosen(panel: str | None) -> None:
            if panel is not None:
                self._ask_picture(game, panel)

        columns = (Column("panel", 16), Column("shows"))
        self.app.push_screen(Pick("Panel", columns, rows), chosen)

    def _ask_picture(self, game: Proposal, panel: str) -> None:
        def chosen(name: str | None) -> None:
            if name is not None:
                self.work.change(
                    lambda workshop: workshop.sides.show(game.game, panel, name or None)
                )

        search = self._search(f"Picture on {panel}", game.title, bare=True)
        self.app.push_screen(search, chosen)

    # --- colour and title --------------------------------------------------------------

    def action_change_colour(self) -> None:
        """Choose the base colour: the group's, the picture's, a neighbour's, or one typed."""
        game = self.game
        if game is not None:
            self.fetch(
                lambda workshop: (
                    workshop.colours.choices(game.game),
                    workshop.choosing.neighbours(game.game),
                ),
                lambda found: self._ask_colour(game, *found),
                group="colours",
            )

    def _ask_colour(
        self, game: Proposal, choices: Sequence[ColourChoice], beside: Neighbours
    ) -> None:
        swatches: dict[str, list[str]] = {one.base: [one.words] for one in choices}
        for other in (game, *self.neighbours()):
            swatches.setdefault(other.design.colours.base, []).append(other.title)

        def chosen(base: str | None) -> None:
            if base is not None:
                self.work.change(lambda workshop: workshop.designs.change_colour(game.game, base))

        self.app.push_screen(
            ShelfColour(
                "Base colour",
                game.design.colours.base,
                [(base, ", ".join(dict.fromkeys(words))) for base, words in swatches.items()],
                game.title,
                beside,
            ),
            chosen,
        )

    def action_change_title(self) -> None:
        """Edit the title on the edges."""
        game = self.game
        if game is None:
            return
        lines = game.edges[0].lines if game.edges else (game.title,)

        def chosen(text: str | None) -> None:
            if text is not None:
                self.work.change(lambda workshop: workshop.designs.change_title(game.game, text))

        def draw(text: str, then: Callable[[SetTitle], None]) -> None:
            self.fetch(
                lambda workshop: workshop.choosing.titled(game.game, text, closely=not SHARP),
                then,
                group="title",
                rest=ART_REST,
            )

        self.app.push_screen(TitleDialog(" / ".join(lines), draw), chosen)

    def action_next_wording(self) -> None:
        """Word the title in the next way."""
        self.change_it(lambda workshop, game: workshop.titles.next_wording(game))
