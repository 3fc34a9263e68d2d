"""What is decided for a game."""

from __future__ import annotations

from enum import StrEnum
from hashlib import sha256

import msgspec

from engine.model.art import Art, Colours, InkMode
from engine.model.base import Instant, Value
from engine.model.title import EdgeTitle


class Decision(StrEnum):
    """What has to be decided for a game before its insert can be printed."""

    CASE = "case"
    ART = "art"
    COLOUR = "colour"
    TITLE = "title"


class Design(Value, frozen=True):
    """Everything that decides what an insert looks like."""

    case: str
    art: Art
    colours: Colours
    title: tuple[EdgeTitle, ...]
    left_out: tuple[str, ...] = ()
    """Panels of the net that this insert goes without, by name, sorted."""
    ink: InkMode = InkMode.FULL

    @property
    def fingerprint(self) -> str:
        """Sixteen hex digits that change when anything about the design does."""
        return sha256(msgspec.json.encode(self, order="deterministic")).hexdigest()[:16]


class Accepted(Value, frozen=True):
    """The decisions a person has taken for a game, and when; None is not yet taken."""

    case: str | None = None
    art: Art | None = None
    art_at: Instant | None = None
    colours: Colours | None = None
    title: tuple[EdgeTitle, ...] | None = None
    title_at: Instant | None = None
    left_out: tuple[str, ...] | None = None
    """Panels left out of this game's insert; None leaves it to the setup."""
    colours_by: str = ""
    """The column whose group the colours were taken from. They follow the group until the insert
    is printed; empty where they are the game's own."""
    ink: InkMode = InkMode.FULL
    shown: dict[str, str] = {}
    """Pictures that a person chose for other panels than the main one, by panel; an empty name is
    for none."""
    own_ink: bool = False
    """``ink`` was chosen for this game. Otherwise it follows the setup until it is printed."""

    @property
    def pictures(self) -> tuple[str, ...]:
        """The names of all pictures that were accepted, on whatever panel; some perhaps twice."""
        art = self.art.pictures if self.art else ()
        logos = [title.logo.picture for title in self.title or () if title.logo]
        return (*filter(None, self.shown.values()), *art, *logos)
