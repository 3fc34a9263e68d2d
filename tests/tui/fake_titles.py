"""The titles of the workshop in memory: real settings, made-up wordings and distances."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from msgspec.structs import replace as altered

from engine import FarTitle, Help, Legibility, Proposal, Wording
from engine.model import Decision, FontRef
from engine.model.errors import RefusedError
from engine.model.settings import Lettering
from engine.service import setting_titles
from tests.tui.made_up import State


class FakeTitles:
    """What the workshop in memory knows of titles."""

    _state: State

    def _deed(self, words: str, change: Any) -> None:
        raise NotImplementedError

    def set_lettering(
        self, *, font: Path | None = None, face: int = 0, usual_font: bool = False, **fields: Any
    ) -> Lettering:
        settings = self._state.settings
        kinds: Any = self._kinds  # type: ignore[attr-defined]
        new = setting_titles.changed(settings.lettering, kinds, (), fields)
        if font is not None or usual_font:
            new = altered(new, font=FontRef(font.name, face) if font else None)
        changed = altered(settings, lettering=new)
        named = ", ".join(f"{name} {value}" for name, value in fields.items())
        self._deed(
            f"lettering {named or (font.name if font else 'usual font')}",
            lambda state: replace(state, settings=changed),
        )
        return new

    def fonts(self, words: str = "") -> tuple[tuple[str, int, str], ...]:
        known = (("fonts/sturdy.ttf", 0, "Sturdy Bold"), ("fonts/plain.ttf", 1, "Plain Regular"))
        return tuple(font for font in known if words.casefold() in font[2].casefold())

    def columns(self) -> tuple[str, ...]:
        return ("series", "maker", "genre", "year", "notes")

    def titles(self, ids: Sequence[str] | None = None, *, helps: bool = True) -> Legibility:
        game = next(iter(self._state.games.values()))
        far = FarTitle(
            game=game.id,
            title=game.title,
            case=game.case,
            edge=game.proposal.edges[0],
            helps=(Help("Set it in two lines", 610.0, reaches=True),),
        )
        return Legibility(distance=500.0, titles=120, short=(far,))

    def wordings(self, game_id: str) -> tuple[Wording, ...]:
        game = self._state.games[game_id]
        first, *_ = game.title.split()
        texts = dict.fromkeys((game.title, first))
        now = " ".join(game.lines or (game.title,))
        return tuple(Wording(text=text, now=text == now) for text in texts)

    def next_wording(self, game_id: str) -> Proposal:
        wordings = self.wordings(game_id)
        now = next((at for at, one in enumerate(wordings) if one.now), -1)
        if len(wordings) < 2:
            raise RefusedError(wordings[0].text, "nothing shortens it", "Edit it instead")
        game = self._state.games[game_id]
        text = wordings[(now + 1) % len(wordings)].text
        changed = replace(game, lines=(text,), accepted=game.accepted | {Decision.TITLE})
        self._deed(
            f"worded {text}",
            lambda state: replace(state, games={**state.games, game_id: changed}),
        )
        return changed.proposal
