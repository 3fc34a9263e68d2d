"""What came of changing titles."""

from __future__ import annotations

from engine.model import Value
from engine.state import Proposal


class LogoReport(Value, frozen=True):
    """What came of a logo on the edges of a game."""

    proposal: Proposal
    words: tuple[str, ...]
    """How high its letters are on each edge and what was made of it, a sentence each."""
