"""What it means to accept, to change and to reopen a decision: a game in, a game out."""

from __future__ import annotations

import re
from collections.abc import Collection
from datetime import datetime

import msgspec

from engine.colours import ink_on
from engine.model import (
    Accepted,
    Art,
    Colours,
    Decision,
    Declared,
    Design,
    EdgeTitle,
    Fitted,
    FontRef,
    Game,
    InkMode,
    Stage,
)
from engine.model.errors import InputError

ALL = frozenset(Decision)
"""Every decision."""

BRINGS = {
    Decision.ART: (Decision.CASE,),
    Decision.TITLE: (Decision.CASE, Decision.COLOUR),
}
"""Decisions that rest on others: art is fitted to a case's panel, a title to its edges and in
an ink for its colour. Accepting one accepts what it rests on."""


def accept(
    game: Game, design: Design, decisions: Collection[Decision], now: datetime, by: str = ""
) -> Game:
    """Return the game with these decisions taken from ``design``; what was taken stays.

    ``by`` is the column whose group gave the design its colours; empty for none.
    """
    wanted = set(decisions)
    for decision in decisions:
        wanted.update(BRINGS.get(decision, ()))
    a = game.accepted
    if Decision.CASE in wanted and a.case is None:
        a = msgspec.structs.replace(a, case=design.case, left_out=design.left_out)
    if Decision.ART in wanted and a.art is None:
        a = msgspec.structs.replace(a, art=design.art, art_at=now)
    if Decision.COLOUR in wanted and a.colours is None:
        a = msgspec.structs.replace(a, colours=design.colours, colours_by=by)
    if Decision.TITLE in wanted and a.title is None:
        a = msgspec.structs.replace(a, title=design.title, title_at=now)
    return _with(game, a)


def reopen(game: Game, decisions: Collection[Decision]) -> Game:
    """Return the game with these decisions open again, and those that rest on them."""
    wanted = set(decisions)
    wanted.update(d for d, rests_on in BRINGS.items() if wanted.intersection(rests_on))
    a = game.accepted
    if Decision.CASE in wanted:
        a = msgspec.structs.replace(a, case=None, left_out=None)
    if Decision.ART in wanted:
        a = msgspec.structs.replace(a, art=None, art_at=None)
    if Decision.COLOUR in wanted:
        a = msgspec.structs.replace(a, colours=None, colours_by="")
    if Decision.TITLE in wanted:
        a = msgspec.structs.replace(a, title=None, title_at=None)
    return _with(game, a)


def change_case(game: Game, kind: str) -> Game:
    """Return the game in another case kind, its title open again since the edges are others."""
    if game.accepted.case == kind:
        return game
    accepted = msgspec.structs.replace(
        game.accepted, case=kind, left_out=None, title=None, title_at=None
    )
    return _with(game, accepted)


def change_panels(game: Game, case: str, left_out: Collection[str]) -> Game:
    """Return the game going without these panels, its title open again for the edges it has."""
    wanted = tuple(sorted(left_out))
    if game.accepted.case == case and game.accepted.left_out == wanted:
        return game
    accepted = msgspec.structs.replace(
        game.accepted, case=case, left_out=wanted, title=None, title_at=None
    )
    return _with(game, accepted)


def change_art(game: Game, art: Art, case: str, now: datetime) -> Game:
    """Return the game with this art, and the case kind that it was fitted to, taken."""
    return _with(
        game,
        msgspec.structs.replace(
            game.accepted, case=game.accepted.case or case, art=art, art_at=now
        ),
    )


def change_colours(game: Game, colours: Colours, by: str = "") -> Game:
    """Return the game with these colours taken; ``by`` as for ``accept``."""
    return _with(game, msgspec.structs.replace(game.accepted, colours=colours, colours_by=by))


def change_ink(game: Game, mode: InkMode | None) -> Game:
    """Return the game printed in its own ink mode, or with None as the setup says."""
    a = game.accepted
    return _with(
        game, msgspec.structs.replace(a, ink=a.ink if mode is None else mode, own_ink=bool(mode))
    )


def change_title(
    game: Game, design: Design, edges: tuple[EdgeTitle, ...], now: datetime, by: str = ""
) -> Game:
    """Return the game with its title set so, and what that rests on taken from ``design``.

    ``by`` as for ``accept``.
    """
    a = msgspec.structs.replace(game.accepted, title=edges, title_at=now)
    return accept(_with(game, a), design, (Decision.TITLE,), now, by)


def change_large(game: Game, words: str, stand_ins: tuple[FontRef, ...]) -> Game:
    """Return the game with these words set large as its art, if its title is."""
    art = game.accepted.art
    if art is None or not art.words:
        return game
    art = msgspec.structs.replace(art, words=words, stand_ins=stand_ins)
    return _with(game, msgspec.structs.replace(game.accepted, art=art))


def fit(game: Game, design: Design | None, now: datetime) -> Game:
    """Return a printed game with its insert in its case; one declared printed has no ``design``."""
    if game.declared is not None or design is None:
        return declare(game, Stage.FITTED, now)
    return msgspec.structs.replace(game, fitted=Fitted(design=design.fingerprint, at=now))


def declare(game: Game, stage: Stage | None, now: datetime) -> Game:
    """Return the game standing where a person says; with None where it stood before."""
    if stage is (game.declared.stage if game.declared else None):
        return game
    declared = None if stage is None else Declared(stage=stage, at=now)
    return msgspec.structs.replace(game, declared=declared)


def colours(base: str) -> Colours:
    """Return the base colour with the ink that reads on it. Raises InputError."""
    found = re.fullmatch(r"#?([0-9a-fA-F]{3}|[0-9a-fA-F]{6})", base.strip())
    if not found:
        raise InputError(f"colour {base}", "is no colour", "Write it as #rrggbb")
    digits = found[1].lower()
    if len(digits) == 3:
        digits = "".join(2 * digit for digit in digits)
    return Colours(base=f"#{digits}", text=ink_on(f"#{digits}"))


def title_lines(text: str) -> tuple[str, ...]:
    """Return the lines of a title as a person types them. Raises InputError for none."""
    lines = tuple(line.strip() for line in re.split(r"[\n/]", text) if line.strip())
    if not lines:
        raise InputError("title", "is empty", "Give at least one letter")
    return lines


def _with(game: Game, accepted: Accepted) -> Game:
    return msgspec.structs.replace(game, accepted=accepted)
