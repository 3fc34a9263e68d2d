"""Proofs: the page that prints, as a picture."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from engine import press
from engine.cases.casing import Casing
from engine.collection import write_out
from engine.lettering import default_font
from engine.model import Design, FontRef
from engine.model.errors import InputError, PictureError
from engine.press import Insert
from engine.press.edges import Kept
from engine.press.foldedview import folded_picture
from engine.service.session import Session

COARSEST, FINEST = 10, 1200
"""In pixels to the inch: finer than any printer's page, it would only fill the memory."""


class Proofs:
    """Inserts as they would be printed now, and their pictures."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def insert(self, game: str) -> Insert:
        """Compose the insert of a game. Raises InputError."""
        with self._session.lock:
            snapshot = self._session.snapshot
            return self.composed(snapshot.proposal(snapshot.game(game).id).design)

    def composed(self, design: Design, casing: Casing | None = None) -> Insert:
        """Compose the insert of a design, under another setup than the present where one is given.

        Raises what ``Casing.net`` and ``press.compose`` raise.
        """
        collection = self._session.collection
        casing = casing or self._session.snapshot.casing
        picture = design.art.picture
        others = [one.art.picture for one in design.art.others if one.art.picture]
        logos = [title.logo.picture for title in design.title if title.logo]
        try:
            return press.compose(
                design,
                casing.net_for(design),
                collection.picture_path(picture) if picture else None,
                default_font(),
                fonts=collection.font_folder,
                logos={name: collection.picture_path(name) for name in logos},
                others={name: collection.picture_path(name) for name in others},
            )
        except PictureError as fault:
            known = self._session.snapshot.pictures.get(fault.where)
            if known is None:
                raise
            where = f"{known.source}, pictures/{known.name}"
            raise PictureError(where, fault.what, fault.mend) from fault

    def fallbacks(self, stand_ins: Iterable[FontRef]) -> tuple[FontRef, ...]:
        """Return the fonts to ask for what the one that ships lacks. Raises FontError."""
        kept = Kept(default_font(), self._session.collection.font_folder)
        return kept.fallbacks(default_font(), stand_ins)

    def proof(self, game: str, ppi: float = 150) -> bytes:
        """Return a PNG of the page of one insert as it would be printed now."""
        return press.proof(self.insert(game), ppi)

    def folded(self, game: str, ppi: float = 150) -> bytes:
        """Return a PNG of a game's insert folded, its art and titles on it."""
        with self._session.lock:
            insert = self.insert(game)
            design = insert.design
            casing = self._session.snapshot.casing
            folded = casing.folded(design.case, frozenset(design.left_out))
        return folded_picture(folded, insert.net, insert, ppi)

    def write(
        self,
        game: str,
        path: Path,
        ppi: float = 150,
        *,
        folded: bool = False,
        replace: bool = False,
    ) -> None:
        """Write the proof of an insert, flat or folded, as a PNG, over another file if told to.

        Raises InputError.
        """
        if not COARSEST <= ppi <= FINEST:
            raise InputError("ppi", f"it is from {COARSEST} to {FINEST}", "Give another value")
        if path.suffix.lower() != ".png":
            raise InputError(str(path), "a proof is a PNG", "Let the name end in .png")
        drawn = self.folded(game, ppi) if folded else self.proof(game, ppi)
        write_out(path, drawn, replace=replace)
