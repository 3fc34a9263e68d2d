"""Games, their pictures, and where they stand."""

from __future__ import annotations

from collections.abc import Container
from enum import StrEnum
from typing import Literal

import msgspec

from engine.model.art import Trim
from engine.model.base import Hex, Instant, Value, make_plain
from engine.model.design import Accepted
from engine.model.reading import Reading


class PictureRole(StrEnum):
    """What a picture shows of its game."""

    FRONT = "front"
    BACK = "back"
    WRAP = "wrap"
    """Back, spine and front in one, as they lie flat."""
    SPINE = "spine"
    SCREEN = "screen"
    """The title screen, or a screenshot."""
    LOGO = "logo"
    CARTRIDGE = "cartridge"
    """The cartridge itself, or its label."""
    OTHER = "other"
    """A manual, a map, a poster."""


class Match(Value, frozen=True):
    """The picture that was found for a game, the one its art is proposed from."""

    picture: str
    """A name in the collection's ``pictures/``."""
    confidence: float
    """0 to 1; see ``intake.matching``."""
    words: str = ""
    """What speaks for it or against it, part of a sentence: 'it is named like it'."""
    role: PictureRole = PictureRole.FRONT


class SidePicture(Value, frozen=True):
    """A picture that a game owns besides its match."""

    picture: str
    """A name in the collection's ``pictures/``."""
    role: PictureRole
    confidence: float = 1.0
    """That it is this game's: 0 to 1."""
    chosen: bool = False
    """A person said so: it is never found otherwise."""


class Fitted(Value, frozen=True):
    """An insert was put into its case."""

    design: str
    """The fingerprint of the design that was fitted."""
    at: Instant


class Stage(StrEnum):
    """Where a game stands, in order; derived, never stored but as a person declared it."""

    LISTED = "listed"
    ART_CHOSEN = "art chosen"
    TITLE_SET = "title set"
    PRINTED = "printed"
    FITTED = "fitted"
    UNWANTED = "not wanted"
    """Nothing is to be printed for it; only ever declared."""

    @property
    def undecided(self) -> bool:
        """Whether a decision is still to be taken."""
        return self in {Stage.LISTED, Stage.ART_CHOSEN}


DECLARABLE = (Stage.PRINTED, Stage.FITTED, Stage.UNWANTED)
"""What a person can declare of a game without a sheet of the collection."""


class Declared(Value, frozen=True):
    """A person said where a game stands: printed or cased otherwise, or not wanted."""

    stage: Stage
    at: Instant


LABEL_KINDS = {"group": "divider", "container": "shelf-label"}
"""The case kinds that dividers and labels are cut as, at first. No cartridge goes into one."""


class Game(Value, frozen=True):
    """One cartridge to be cased."""

    id: str
    """Short and stable, made from the title: what a person types on the command line."""
    title: str
    added_at: Instant
    series: str = ""
    maker: str = ""
    genre: str = ""
    year: str = ""
    notes: str = ""
    case: str = ""
    """The case kind the list asks for; empty where it does not say."""
    extra: dict[str, str] = {}
    """Other columns of the list, as they came."""
    match: Match | None = None
    sides: tuple[SidePicture, ...] = ()
    """Its pictures besides, the surest first."""
    sort_title: str = ""
    """What it is filed under where that is not its title; empty for its title."""
    accepted: Accepted = Accepted()
    fitted: Fitted | None = None
    home: str = ""
    """The container that it is kept in, by name; '' where that was not settled."""
    labels: Literal["", "group", "container"] = ""
    """What it names on the shelf, where it is a divider or a label and no cartridge."""
    dropped: tuple[str, ...] = ()
    """Pictures that a person took from it: no game is given them by what they are called or say."""
    declared: Declared | None = None
    """Goes before all that follows from decisions and sheets, until it is taken back."""

    @property
    def unwanted(self) -> bool:
        """Whether a person declared that nothing is to be printed for it."""
        return self.declared is not None and self.declared.stage is Stage.UNWANTED

    @property
    def pictures(self) -> tuple[str, ...]:
        """The names of all pictures that it hangs on, found or accepted; some perhaps twice."""
        match = (self.match.picture,) if self.match else ()
        return (*match, *(side.picture for side in self.sides), *self.accepted.pictures)

    def found_among(self, pictures: Container[str]) -> Game:
        """Return it without the pictures found for it that are not among these."""
        return msgspec.structs.replace(
            self,
            match=self.match if self.match and self.match.picture in pictures else None,
            sides=tuple(side for side in self.sides if side.picture in pictures),
        )

    def __post_init__(self) -> None:
        make_plain(self, "title", "series", "maker", "genre", "year", several=("notes", "extra"))


class Picture(Value, frozen=True):
    """A picture of the collection, as found when it was taken in."""

    name: str
    """Its file in ``pictures/``: the content's hash and the format's suffix."""
    source: str
    """The file name it came with."""
    width: int
    """In pixels, the right way up."""
    height: int
    side: Hex
    """The colour of its left edge strip, ``#rrggbb``."""
    notes: tuple[str, ...] = ()
    """What opening it had to say: 'first of 3 pages'."""
    turn: float = 0.0
    """What straightens it, in degrees counter-clockwise; 0 where it is straight."""
    trim: Trim = Trim()
    """The uniform border or scanner background around it, after it is straightened."""
    askew: bool = False
    """What it shows lies slanted on a ground that is seen around it, as no turn straightens."""
    bars: tuple[Trim, ...] = ()
    """Trims that also cut a side bar or a banner off, each with the border in it."""
    split: tuple[float, float] | None = None
    """Where the spine of a flat cover scan begins and ends, as fractions of the trimmed width;
    None where it is no such scan."""
    palette: tuple[Hex, ...] = ()
    """Its main colours as ``#rrggbb``, the most striking first."""
    dot: int = 0
    """Pixels to a side of one dot of a screenshot; 0 where it is no pixel art."""
    reading: Reading | None = None
    """What it says and shows; None until it was read."""
    names: tuple[str, ...] = ()
    """Further file names that the same content came with, besides ``source``."""

    def __post_init__(self) -> None:
        make_plain(self, "source", "names")
