"""Proofs: the page that prints, as a picture."""

from __future__ import annotations

from pathlib import Path

from engine import (
    press,
)
from engine.collection import write_out
from engine.model.errors import InputError
from engine.service.session import Bench


class Proofs(Bench):
    """Pictures of inserts."""

    def proof(self, game: str, ppi: float = 150) -> bytes:
        """Return a PNG of the page of one insert as it would be printed now."""
        with self._lock:
            insert = self._insert(self._snapshot.game(game).id)
        return press.proof(insert, ppi)

    def write_proof(self, game: str, path: Path, ppi: float = 150) -> None:
        """Write the proof of an insert as a PNG. Raises InputError."""
        if path.suffix.lower() != ".png":
            raise InputError(str(path), "a proof is a PNG", "Let the name end in .png")
        write_out(path, self.proof(game, ppi))
