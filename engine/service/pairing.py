"""Which pictures are which game's: found by name when they are taken in, by what they say later."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import msgspec

from engine import intake
from engine.intake import FileMatch, Shown
from engine.model import Game, Match, Picture, SidePicture


class File(NamedTuple):
    """A name that a picture came with."""

    name: str
    picture: Picture


def files_of(pictures: Iterable[Picture]) -> list[File]:
    """Return every name that pictures came with, 2 before 10."""
    from natsort import natsorted, ns

    found = [File(name, one) for one in pictures for name in (one.source, *one.names)]
    return natsorted(found, key=lambda file: file.name, alg=ns.IGNORECASE | ns.PATH)


def paired(games: Sequence[Game], files: Sequence[File]) -> dict[str, Game]:
    """Return the games whose pictures were found, with them, by id; no other is changed.

    Games whose art was accepted keep it, and what a person said of a picture stays.
    """
    kept = {side.picture for game in games for side in game.sides if side.chosen}
    kept.update(name for game in games for name in game.dropped)
    files = [file for file in files if file.picture.name not in kept]
    places = {file.picture.name: place for place, file in reversed(list(enumerate(files)))}
    found = intake.match_pictures(
        {game.id: game.title for game in games if not game.labels},
        [file.name for file in files],
        [_shown(file.picture) for file in files],
        {
            game.id: places[chosen]
            for game in games
            if (chosen := _chosen(game)) is not None and chosen in places
        },
    )
    return {game.id: _with(game, found.get(game.id), files) for game in games}


def _chosen(game: Game) -> str | None:
    """Return the picture that a person accepted for a game."""
    return game.accepted.art.picture if game.accepted.art else None


def _with(game: Game, found: FileMatch | None, files: Sequence[File]) -> Game:
    """Return a game with what was found for it."""
    chosen = tuple(side for side in game.sides if side.chosen)
    if found is None:
        match = game.match if game.accepted.art else None
        return msgspec.structs.replace(game, match=match, sides=chosen)
    main = files[found.at].picture.name
    sides = {
        side.picture: side
        for one in found.sides
        if (side := SidePicture(files[one.at].picture.name, one.role, one.confidence)).picture
        != main
    }
    sides |= {side.picture: side for side in chosen}
    match = game.match
    if game.accepted.art is None:
        match = Match(main, found.confidence, found.words, found.role)
    return msgspec.structs.replace(game, match=match, sides=tuple(sides.values()))


def _shown(picture: Picture) -> Shown:
    return Shown(
        picture.width,
        picture.height,
        picture.reading,
        split=picture.split is not None,
        dot=picture.dot,
        content=picture.name,
    )
