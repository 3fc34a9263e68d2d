"""Proofs already drawn, so that going back to a game shows its proof at once."""

from __future__ import annotations

from engine import Proposal, Workshop

KEPT = 64
"""Proofs kept; one is some 50 KB."""


class KeptProofs:
    """The proofs last shown, by game and design."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], bytes] = {}

    def get(self, game: Proposal) -> bytes | None:
        """Return the proof of exactly this design, if it is kept."""
        return self._kept.get(_key(game))

    def keep(self, game: Proposal, png: bytes) -> None:
        """Keep a proof and let go of the oldest beyond the number kept."""
        self._kept.pop(_key(game), None)
        self._kept[_key(game)] = png
        while len(self._kept) > KEPT:
            del self._kept[next(iter(self._kept))]


def same_print(one: Proposal, other: Proposal) -> bool:
    """Return whether two proposals look alike on paper."""
    return _key(one) == _key(other)


def draw(workshop: Workshop, game: str, *, folded: bool = False) -> tuple[Proposal, bytes]:
    """Return a game's proof with the proposal that it shows, whatever is changed meanwhile."""
    while True:
        before = workshop.designs.proposal(game)
        png = picture(workshop, game, folded=folded)
        if same_print(before, workshop.designs.proposal(game)):
            return before, png


def picture(workshop: Workshop, game: str, ppi: float = 150, *, folded: bool) -> bytes:
    """Return a game's insert as it prints, or folded as it looks in the case."""
    return workshop.proofs.folded(game, ppi) if folded else workshop.proofs.proof(game, ppi)


def _key(game: Proposal) -> tuple[str, str]:
    return game.game, game.design.fingerprint
