"""Changing a decision of the game in hand: its art, its colour, its title."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Sequence
from typing import TypeVar

from engine import Art, ColourChoice, InkReport, Proposal, Workshop
from tui.screens.art import CROP_STEP, ArtDialog, Change
from tui.screens.base import Snapshot
from tui.screens.choosers import Colour, Line, Search
from tui.screens.games import GamesScreen
from tui.widgets.table import Column, Row

S = TypeVar("S", bound=Snapshot)


ART_PAUSE = 0.06
"""How long the keys rest, in seconds, before the proof follows them."""

INK_PAUSE = 0.6
"""How long the keys rest, in seconds, before the ink is weighed in every mode."""


class DecidingScreen(GamesScreen[S]):
    """A screen with one game in hand."""

    @property
    @abstractmethod
    def game(self) -> Proposal | None:
        """The game in hand."""

    @abstractmethod
    def neighbours(self) -> Sequence[Proposal]:
        """Return the games whose colours are offered for the one in hand."""

    def action_change_art(self) -> None:
        """Fit the art in the next way."""
        self._change(lambda workshop, game: workshop.art.next_fit(game))

    def action_crop_left(self) -> None:
        """Keep more of the left."""
        self._change(lambda workshop, game: workshop.art.move_crop(game, -CROP_STEP, 0))

    def action_crop_right(self) -> None:
        """Keep more of the right."""
        self._change(lambda workshop, game: workshop.art.move_crop(game, CROP_STEP, 0))

    def action_crop_up(self) -> None:
        """Keep more of the head."""
        self._change(lambda workshop, game: workshop.art.move_crop(game, 0, -CROP_STEP))

    def action_crop_down(self) -> None:
        """Keep more of the foot."""
        self._change(lambda workshop, game: workshop.art.move_crop(game, 0, CROP_STEP))

    def action_go_plain(self) -> None:
        """Use no picture."""
        self._change(lambda workshop, game: workshop.designs.change_art(game, Art(picture=None)))

    def _change(self, change: Callable[[Workshop, str], object]) -> None:
        game = self.game
        if game is not None:
            self.spinery.deed(lambda workshop: change(workshop, game.game))

    def action_change_picture(self) -> None:
        """Choose another picture by a few letters of its name."""
        game, workshop = self.game, self.spinery.workshop
        if game is None:
            return

        def find(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            self.spinery.fetch(
                lambda: [Row(name, (source,)) for name, source in workshop.games.pictures(words)],
                then,
                group="pictures",
            )

        def chosen(name: str | None) -> None:
            if name is not None:
                self.spinery.deed(lambda workshop: workshop.designs.swap_picture(game.game, name))

        self.app.push_screen(Search("Picture", (Column("file"),), find, game.title), chosen)

    def action_edit_art(self) -> None:
        """Work on the art beside its proof."""
        game, spinery = self.game, self.spinery
        if game is None:
            return
        workshop = spinery.workshop

        def work(change: Change, then: Callable[[Proposal], None]) -> None:
            spinery.deed(lambda workshop: change(workshop, game.game), then)

        def draw(then: Callable[[bytes], None]) -> None:
            spinery.fetch(
                lambda: workshop.proofs.proof(game.game), then, group="art", pause=ART_PAUSE
            )

        def weigh(then: Callable[[InkReport], None]) -> None:
            spinery.fetch(
                lambda: workshop.ink.report([game.game]).inserts[0],
                then,
                group="ink",
                pause=INK_PAUSE,
            )

        self.app.push_screen(ArtDialog(game, work, draw, weigh, read_only=workshop.read_only))

    def action_change_colour(self) -> None:
        """Choose the base colour: the group's, the picture's, a neighbour's, or one typed."""
        game, workshop = self.game, self.spinery.workshop
        if game is not None:
            self.spinery.fetch(
                lambda: workshop.colours.choices(game.game),
                lambda choices: self._ask_colour(game, choices),
                group="colours",
            )

    def _ask_colour(self, game: Proposal, choices: Sequence[ColourChoice]) -> None:
        swatches: dict[str, list[str]] = {one.base: [one.words] for one in choices}
        for other in (game, *self.neighbours()):
            swatches.setdefault(other.design.colours.base, []).append(other.title)

        def chosen(base: str | None) -> None:
            if base is not None:
                self.spinery.deed(lambda workshop: workshop.designs.change_colour(game.game, base))

        self.app.push_screen(
            Colour(
                "Base colour",
                game.design.colours.base,
                [(base, ", ".join(dict.fromkeys(words))) for base, words in swatches.items()],
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
                self.spinery.deed(lambda workshop: workshop.designs.change_title(game.game, text))

        self.app.push_screen(
            Line(
                "Title on the edges",
                " / ".join(lines),
                "A slash begins a new line. The type is made as large as the edge allows.",
                lambda text: "\n".join(f"│ {line.strip()}" for line in text.split("/")),
            ),
            chosen,
        )
