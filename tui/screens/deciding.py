"""Changing a decision of the game in hand: its art, its colour, its title."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Sequence
from typing import TypeVar

from msgspec.structs import replace

from engine import Art, Proposal, Workshop
from tui.screens.base import Snapshot
from tui.screens.choosers import Colour, Line, Search
from tui.screens.games import GamesScreen
from tui.widgets.table import Column, Row

S = TypeVar("S", bound=Snapshot)

CROP_STEP = 0.1
"""How far one key moves the crop, as a fraction of the picture."""


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
        self._change(next_fit)

    def action_crop_left(self) -> None:
        """Keep more of the left."""
        self._change(lambda workshop, game: move_crop(workshop, game, -CROP_STEP, 0))

    def action_crop_right(self) -> None:
        """Keep more of the right."""
        self._change(lambda workshop, game: move_crop(workshop, game, CROP_STEP, 0))

    def action_crop_up(self) -> None:
        """Keep more of the head."""
        self._change(lambda workshop, game: move_crop(workshop, game, 0, -CROP_STEP))

    def action_crop_down(self) -> None:
        """Keep more of the foot."""
        self._change(lambda workshop, game: move_crop(workshop, game, 0, CROP_STEP))

    def action_go_plain(self) -> None:
        """Use no picture."""
        self._change(lambda workshop, game: workshop.change_art(game, Art(picture=None)))

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
                lambda: [Row(name, (source,)) for name, source in workshop.pictures(words)],
                then,
                group="pictures",
            )

        def chosen(name: str | None) -> None:
            if name is not None:
                self.spinery.deed(lambda workshop: workshop.swap_picture(game.game, name))

        self.app.push_screen(Search("Picture", (Column("file"),), find, game.title), chosen)

    def action_change_colour(self) -> None:
        """Choose the base colour."""
        game = self.game
        if game is None:
            return
        swatches: dict[str, list[str]] = {game.design.colours.base: [game.title]}
        for other in self.neighbours():
            swatches.setdefault(other.design.colours.base, []).append(other.title)

        def chosen(base: str | None) -> None:
            if base is not None:
                self.spinery.deed(lambda workshop: workshop.change_colour(game.game, base))

        self.app.push_screen(
            Colour(
                "Base colour",
                game.design.colours.base,
                [(base, ", ".join(dict.fromkeys(titles))) for base, titles in swatches.items()],
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
                self.spinery.deed(lambda workshop: workshop.change_title(game.game, text))

        self.app.push_screen(
            Line(
                "Title on the edges",
                " / ".join(lines),
                "A slash begins a new line. The type is made as large as the edge allows.",
                lambda text: "\n".join(f"│ {line.strip()}" for line in text.split("/")),
            ),
            chosen,
        )


def next_fit(workshop: Workshop, game: str) -> None:
    """Fit a game's art in the way after the present one."""
    present, ways = workshop.proposal(game).design.art, workshop.arts(game)
    place = next(
        (
            n
            for n, art in enumerate(ways)
            if (art.picture, art.fit) == (present.picture, present.fit)
        ),
        next((n for n, art in enumerate(ways) if art.picture == present.picture), -1),
    )
    workshop.change_art(game, ways[(place + 1) % len(ways)])


def move_crop(workshop: Workshop, game: str, right: float, down: float) -> None:
    """Move what is kept in sight of a cropped picture, by fractions of the picture."""
    art = workshop.proposal(game).design.art
    x, y = art.focus
    focus = (round(min(1.0, max(0.0, x + right)), 3), round(min(1.0, max(0.0, y + down)), 3))
    if focus != art.focus:
        workshop.change_art(game, replace(art, focus=focus))
