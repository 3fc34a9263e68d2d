"""Art, colours and ink of the workshop in memory: the real moves on made-up games."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import dropwhile
from typing import Any, TypeVar

from msgspec.structs import replace as altered

from engine import (
    ColourChoice,
    ColoursReport,
    GroupReport,
    InkReport,
    InkSummary,
    Proposal,
    artwork,
)
from engine import colours as colour_science
from engine.colours import Group, colouring
from engine.model import Art, Colours, Fit, InkMode, Matte, Pattern, Trim
from engine.model.errors import RefusedError
from tests.tui.made_up import FakeGame, State

T = TypeVar("T")

BORDER = Trim(0.05, 0.05, 0.05, 0.05)
BANNER = Trim(0.05, 0.2, 0.05, 0.05)


def after(choices: Sequence[T], present: T) -> T:
    rest = list(dropwhile(lambda one: one != present, choices))
    return rest[1] if len(rest) > 1 else choices[0]


class FakeArt:
    """What the workshop in memory does to art, colours and ink."""

    _state: State

    def _deed(self, words: str, change: Any) -> None:
        raise NotImplementedError

    def _game(self, game_id: str) -> FakeGame:
        raise NotImplementedError

    def proposal(self, game_id: str) -> Proposal:
        raise NotImplementedError

    def arts(self, game_id: str) -> tuple[Art, ...]:
        raise NotImplementedError

    def change_art(self, game_id: str, art: Art) -> Proposal:
        raise NotImplementedError

    # --- art ---------------------------------------------------------------------------

    def _adjust(self, game_id: str, change: Callable[[Art], Art]) -> Proposal:
        present = self._game(game_id).chosen_art
        if present.picture is None:
            raise RefusedError(game_id, "shows no picture", "Choose one first")
        art = change(present)
        art = altered(art, focus=tuple(round(at, 4) for at in art.focus))
        return self.change_art(game_id, art) if art != present else self.proposal(game_id)

    def next_fit(self, game_id: str) -> Proposal:
        ways = self.arts(game_id)
        present = self._game(game_id).chosen_art
        looks = [(art.picture, art.fit if art.picture else None) for art in ways]
        now = (present.picture, present.fit if present.picture else None)
        place = looks.index(now) if now in looks else -1
        return self.change_art(game_id, ways[(place + 1) % len(ways)])

    def move_crop(self, game_id: str, right: float, down: float) -> Proposal:
        return self._adjust(game_id, lambda art: artwork.move_focus(art, right, down))

    def move_trim(self, game_id: str, side: Any, by: float) -> Proposal:
        return self._adjust(game_id, lambda art: artwork.move_trim(art, side, by))

    def next_trim(self, game_id: str) -> Proposal:
        found = (Trim(), BORDER, BANNER)
        return self._adjust(game_id, lambda art: altered(art, trim=after(found, art.trim)))

    def move_split(self, game_id: str, begins: float = 0.0, ends: float = 0.0) -> Proposal:
        return self._adjust(game_id, lambda art: artwork.move_split(art, begins, ends))

    def split_or_join(self, game_id: str) -> Proposal:
        return self._adjust(
            game_id, lambda art: artwork.join(art) if art.split else artwork.move_split(art)
        )

    def turn(self, game_id: str, degrees: float) -> Proposal:
        return self._adjust(game_id, lambda art: artwork.turn_by(art, degrees))

    def next_matte(self, game_id: str) -> Proposal:
        def change(art: Art) -> Art:
            if art.fit is not Fit.MATTE:
                return altered(art, fit=Fit.MATTE)
            return altered(art, matte=after(tuple(Matte), art.matte))

        return self._adjust(game_id, change)

    def next_pattern(self, game_id: str) -> Proposal:
        art = self._game(game_id).chosen_art
        present = art.pattern if art.picture is None else Pattern.TITLE
        return self.change_art(game_id, Art(pattern=after(tuple(Pattern), present)))

    # --- ink ---------------------------------------------------------------------------

    def next_ink(self, game_id: str) -> Proposal:
        game = self._game(game_id)
        mode = after(tuple(InkMode), game.ink)
        changed = replace(game, ink=mode)
        self._deed(
            f"ink of {game.title}: {mode}",
            lambda state: replace(state, games={**state.games, game_id: changed}),
        )
        return changed.proposal

    def ink(self, ids: Sequence[str] = (), sheets: Sequence[Any] = ()) -> InkSummary:
        inks = {"cyan": 20.0, "magenta": 10.0, "yellow": 5.0, "black": 40.0}
        saving = dict(zip(InkMode, (0.0, 0.3, 0.7, 0.9, 0.5), strict=True))
        return InkSummary(
            model="Ideal inks.",
            mode=self._state.settings.ink,
            inserts=tuple(
                InkReport(game.id, game.title, game.ink, inks, saving)
                for game in map(self._game, ids)
            ),
            sheets=(),
        )

    # --- colours -----------------------------------------------------------------------

    def _groups(self) -> dict[str, list[FakeGame]]:
        column = self._state.settings.colour_by
        found: dict[str, list[FakeGame]] = {}
        if column != colouring.PICTURE:
            for game in self._state.games.values():
                if name := getattr(game, column):
                    found.setdefault(name, []).append(game)
        return found

    def colours(self) -> ColoursReport:
        settings = self._state.settings
        pins = settings.pins.get(settings.colour_by, {})
        groups = self._groups()
        palette = colour_science.choose_colours(
            [Group(name, (), pins.get(name, "")) for name in groups]
        )
        return ColoursReport(
            by=settings.colour_by,
            columns=(colouring.PICTURE, "series", "maker"),
            groups=tuple(
                GroupReport(
                    name=one.name,
                    games=tuple(game.id for game in groups[one.name]),
                    colours=Colours(one.colour, colour_science.ink_on(one.colour), one.sign),
                    origin="pinned" if one.name in pins else "chosen",
                    printed=0,
                    reprint=(),
                )
                for one in palette.groups
            ),
            smallest=palette.smallest if len(groups) > 1 else None,
            closest=palette.closest,
            seen={"normal": 30.0, "protan": 21.0, "deutan": 20.0, "tritan": 25.0},
            note=palette.note,
            own=0,
            printed_sheets=0,
            reprint_sheets=0,
        )

    def pin_colours(self, pins: Mapping[str, str | None]) -> ColoursReport:
        settings = self._state.settings
        column = settings.colour_by
        given = {name: base for name, base in pins.items() if base}
        kept = {n: b for n, b in settings.pins.get(column, {}).items() if n not in pins}
        new = altered(settings, pins={**settings.pins, column: {**kept, **given}})
        self._deed(f"pinned {pins}", lambda state: replace(state, settings=new))
        return self.colours()

    def colour_choices(self, game_id: str) -> tuple[ColourChoice, ...]:
        game = self._game(game_id)
        return (
            ColourChoice("#0b6e4f", f"maker: {game.maker}"),
            ColourChoice("#a33b20", "its picture"),
        )
