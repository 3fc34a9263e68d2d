"""The pictures of a game by the side that they show, and which panel takes which."""

from __future__ import annotations

from pathlib import Path

import msgspec

from engine import artwork
from engine.cases import Panel, taking
from engine.model import Art, Decision, Game, Match, PictureRole, SidePicture, Value
from engine.model.errors import InputError
from engine.service import deciding
from engine.service.designs import Designs
from engine.service.session import Session


class OwnPicture(Value, frozen=True):
    """A picture of a game."""

    picture: str
    """A name in the collection's ``pictures/``."""
    source: str
    """The file name it came with."""
    role: PictureRole
    confidence: float
    """That it is this game's: 0 to 1."""
    words: str
    """What speaks for that, part of a sentence; empty where it was told with another."""


class PanelPicture(Value, frozen=True):
    """What an art panel takes of a game."""

    panel: str
    takes: tuple[PictureRole, ...]
    """The sides that it may show, the first that there is."""
    picture: str
    """Empty where it takes none."""
    source: str
    chosen: bool
    """A person chose it, or chose none."""


class SidesReport(Value, frozen=True):
    """A game's pictures, and what its art panels take of them."""

    game: str
    title: str
    pictures: tuple[OwnPicture, ...]
    panels: tuple[PanelPicture, ...]


class Sides:
    """The pictures that games own besides the one that is proposed."""

    def __init__(self, session: Session, designs: Designs) -> None:
        """Work in ``session``, through ``designs``."""
        self._session = session
        self._designs = designs

    def of(self, game: str) -> SidesReport:
        """Return the pictures of a game, by side and by panel. Raises InputError."""
        with self._session.lock:
            snapshot = self._session.snapshot
            found = snapshot.game(game)
            pictures = [one for one in taking.pictures_of(found) if one.picture in self._sources]
            return SidesReport(
                game=found.id,
                title=found.title,
                pictures=tuple(
                    OwnPicture(
                        one.picture, self._sources[one.picture], one.role, one.confidence, one.words
                    )
                    for one in pictures
                ),
                panels=self._panels(found),
            )

    def give(self, game: str, picture: str, role: PictureRole) -> SidesReport:
        """Say that a picture, by name or file name, shows this side of a game, and no other game.

        It stays so whatever is found later. Raises InputError.
        """
        with self._session.lock:
            found, name = self._session.snapshot.game(game), self._name(picture)
            games = [
                _without(one, name)
                for one in self._session.snapshot.games.values()
                if one.id != found.id and name in _owned(one)
            ]
            mine = _without(found, name)
            mine = msgspec.structs.replace(
                mine, sides=(SidePicture(name, role, chosen=True), *mine.sides)
            )
            self._session.keep_games("changed", [mine, *games])
            return self.of(found.id)

    def show(self, game: str, panel: str, picture: str | None) -> SidesReport:
        """Show a picture, by name or file name, on one art panel; None shows none there.

        On the main panel that is the game's art. Raises InputError.
        """
        with self._session.lock:
            found = self._session.snapshot.game(game)
            names = [one.name for one in self._session.snapshot.casing.art_panels(found)]
            if panel not in names:
                mend = f"Give one of these: {', '.join(names)}" if names else "It shows no picture"
                raise InputError(panel, f"is no art panel of {found.title}", mend)
            name = None if picture is None else self._name(picture)
            if panel == names[0]:
                self._show_first(found, name)
            else:
                self._show_beside(found, panel, name or "")
            return self.of(found.id)

    def bring(self, game: str, file: Path, role: PictureRole) -> SidesReport:
        """Take a picture file in, and say that it shows this side of a game, as ``give`` does.

        Raises PictureError where it cannot be opened, InputError, CollectionError.
        """
        looked_at = artwork.inspect(file, file.name)
        with self._session.change():
            name = self._session.files.picture(file)
            if name not in self._session.snapshot.pictures:
                picture = msgspec.structs.replace(looked_at, name=name)
                self._session.keep(f"took in {file.name}", pictures=[picture])
            return self.give(game, name, role)

    def drop(self, game: str, picture: str) -> SidesReport:
        """Take a picture, by name or file name, from a game; art that shows it is open again.

        It stays in the collection, and is given to no game again unless a person does. Raises
        InputError.
        """
        with self._session.change():
            found, name = self._session.snapshot.game(game), self._name(picture)
            changed = _without(found, name)
            shown = {panel: one for panel, one in changed.accepted.shown.items() if one != name}
            accepted = msgspec.structs.replace(changed.accepted, shown=shown)
            dropped = tuple(dict.fromkeys((*changed.dropped, name)))
            changed = msgspec.structs.replace(changed, accepted=accepted, dropped=dropped)
            art = accepted.art
            if art is not None and name in art.pictures:
                changed = deciding.reopen(changed, {Decision.ART})
            self._session.keep_games("took a picture from", [changed])
            return self.of(found.id)

    @property
    def _sources(self) -> dict[str, str]:
        return {name: one.source for name, one in self._session.snapshot.pictures.items()}

    def _name(self, said: str) -> str:
        """Return the name of a picture that is given by it or by its file name."""
        pictures = self._session.snapshot.pictures
        found = [key for key, one in pictures.items() if said in {key, one.source, *one.names}]
        if len(found) > 1:
            raise InputError(said, f"could be {len(found)} pictures", "Give its folder as well")
        return found[0] if found else self._session.snapshot.picture(said).name

    def _show_first(self, game: Game, name: str | None) -> None:
        if name is None:
            others = self._designs.proposal(game.id).design.art.others
            self._designs.change_art(game.id, Art(others=others))
        else:
            self._designs.swap_picture(game.id, name)

    def _show_beside(self, game: Game, panel: str, name: str) -> None:
        """Take a picture, by name, for another panel than the main one; '' for none.

        Art that was accepted changes with it.
        """
        now = {**game.accepted.shown, panel: name}
        accepted = msgspec.structs.replace(game.accepted, shown=now)
        changed = msgspec.structs.replace(game, accepted=accepted)
        art = self._session.snapshot.proposer.shown_anew(changed, panel)
        if art is not None:
            changed = deciding.change_art(
                changed, art, self._session.snapshot.casing.case_of(game), self._session.now()
            )
        self._session.keep_games("changed", [changed])

    def _panels(self, game: Game) -> tuple[PanelPicture, ...]:
        """Return what each art panel takes; the main one first."""
        snapshot = self._session.snapshot
        art = snapshot.proposal(game.id).design.art
        found: list[PanelPicture] = []
        for panel in snapshot.casing.art_panels(game):
            takes, name = taking.taken_by(panel), art.picture or ""
            chosen = game.accepted.art is not None
            if found:
                name, chosen = _beside(art, panel) or "", panel.name in game.accepted.shown
            found.append(PanelPicture(panel.name, takes, name, self._sources.get(name, ""), chosen))
        return tuple(found)


def _beside(art: Art, panel: Panel) -> str | None:
    """Return the picture that another panel than the main one shows."""
    own = art.on(panel.name)
    if own is not None:
        return own.picture
    return art.picture if art.split is not None and panel.part else None


def _owned(game: Game) -> set[str]:
    return {one.picture for one in taking.pictures_of(game)}


def _without(game: Game, picture: str) -> Game:
    """Return a game that does not own a picture; accepted art stays."""
    match: Match | None = game.match
    if match and match.picture == picture:
        match = None
    sides = tuple(one for one in game.sides if one.picture != picture)
    return msgspec.structs.replace(game, match=match, sides=sides)
