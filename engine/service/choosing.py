"""What a person looks at while choosing: pictures, neighbours, a title as it prints."""

from __future__ import annotations

from typing import NamedTuple

import msgspec

from engine import artwork, intake, press, shelf
from engine.artwork.opening import open_wholly
from engine.cases import taking
from engine.lettering.results import EdgeReport
from engine.lettering.titler import edges_of
from engine.model import Colours, Game, PictureRole, Value
from engine.service import deciding
from engine.service.proofs import Proofs
from engine.service.session import Session

LONGEST = 600
"""Pixels on the longer side of a picture that is looked at before it is chosen."""


class PictureChoice(Value, frozen=True):
    """A picture of the collection, and what it is known to show."""

    name: str
    """In the collection's ``pictures/``."""
    source: str
    """The file name it came with."""
    role: PictureRole | None
    """The side of its game that it shows; None where it is no game's."""
    owner: str
    """The title of that game; empty for none."""
    width: int
    """In pixels, as ``height``."""
    height: int


class Neighbour(Value, frozen=True):
    """A game beside another on the shelf."""

    title: str
    colours: Colours


class Neighbours(Value, frozen=True):
    """The games beside one on the shelf, from left to right."""

    before: tuple[Neighbour, ...]
    after: tuple[Neighbour, ...]


class SetTitle(NamedTuple):
    """A title as it would print."""

    picture: bytes
    """A PNG of the edge, level; empty for a case kind without one."""
    edges: tuple[EdgeReport, ...]
    """What it measures on each."""


class Choosing:
    """Shows what could be chosen; nothing is changed here."""

    def __init__(self, session: Session, proofs: Proofs) -> None:
        """Look in ``session``, and draw as ``proofs`` does."""
        self._session = session
        self._proofs = proofs

    def pictures(self, query: str = "") -> tuple[PictureChoice, ...]:
        """Return the pictures of the collection, most like the query first."""
        snapshot = self._session.snapshot
        owners = {
            one.picture: (game.title, one.role)
            for game in snapshot.games.values()
            for one in taking.pictures_of(game)
        }
        found = snapshot.pictures
        names = intake.search(query, {name: one.source for name, one in found.items()})
        return tuple(
            PictureChoice(
                name=name,
                source=found[name].source,
                role=owner[1] if (owner := owners.get(name)) else None,
                owner=owner[0] if owner else "",
                width=found[name].width,
                height=found[name].height,
            )
            for name in names
        )

    def picture(self, name: str, longest: int = LONGEST) -> bytes:
        """Return a JPEG of a picture, at most ``longest`` pixels a side.

        Raises InputError, or PictureError for a file that cannot be opened.
        """
        picture = self._session.snapshot.picture(name)
        path = self._session.collection.picture_path(picture.name)
        image = open_wholly(path, source=picture.source, enough=longest).image
        image.thumbnail((longest, longest))
        return artwork.encode(image)

    def neighbours(self, game: str, of_each: int = 4) -> Neighbours:
        """Return at most so many games on each side of one on the shelf. Raises InputError."""
        with self._session.lock:
            snapshot = self._session.snapshot
            found = snapshot.game(game)
            # Found without the colours that are about to be chosen, which an order may go by.
            order = snapshot.settings.order
            by = msgspec.structs.replace(
                snapshot.settings, order="title" if order == "colour" else order
            )
            row = shelf.in_order(snapshot.games.values(), by)
            at = next((n for n, one in enumerate(row) if one.id == found.id), len(row))
            return Neighbours(
                before=tuple(map(self._neighbour, row[max(0, at - of_each) : at])),
                after=tuple(map(self._neighbour, row[at + 1 : at + 1 + of_each])),
            )

    def titled(self, game: str, text: str, *, closely: bool = False) -> SetTitle:
        """Return the title of a game in other words as it would print on its first edge.

        ``closely`` leaves out the bare ends, where there are few dots to show it with.
        Raises InputError for an empty title.
        """
        lines = deciding.title_lines(text)
        with self._session.lock:
            snapshot = self._session.snapshot
            found = snapshot.game(game)
            net = snapshot.casing.net_of(found)
            edges = snapshot.proposer.set_title(found, lines)
            accepted = msgspec.structs.replace(found.accepted, title=edges)
            said = snapshot.proposer.titler.titled(
                msgspec.structs.replace(found, accepted=accepted), net
            )
            edge = next((panel.name for panel in edges_of(net)), "")
            design = msgspec.structs.replace(snapshot.proposal(found.id).design, title=edges)
            insert = self._proofs.composed(design)
        drawn = press.panel_picture(insert, edge, closely=closely) if edge else b""
        return SetTitle(drawn, said.edges)

    def _neighbour(self, game: Game) -> Neighbour:
        design = self._session.snapshot.proposal(game.id).design
        return Neighbour(game.title, design.colours)
