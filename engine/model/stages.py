"""Where each game stands, read off what happened; nothing here is ever stored."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import datetime
from enum import Enum, auto
from typing import NamedTuple

from engine.model import Accepted, Design, Game, Placement, Sheet, Stage


class Place(Enum):
    """Where a game's insert is. Every game is in exactly one of them."""

    BACKLOG = auto()
    """Decisions are still open."""
    QUEUE = auto()
    """Finished, waiting for a sheet."""
    PRESSED = auto()
    """On a sheet that was pressed and not yet settled."""
    DONE = auto()
    """Printed as designed."""
    ASIDE = auto()
    """Declared printed, fitted or not wanted: nothing is to be done for it here."""


class Standing(NamedTuple):
    """Where one game stands."""

    stage: Stage
    place: Place
    design: Design | None
    """The whole design, once every decision is taken."""
    reprint: bool
    """A good print of an earlier design exists, and this one is another."""
    since: datetime | None
    """When the last decision was taken."""


def accepted_design(accepted: Accepted) -> Design | None:
    """Return the design if every decision is taken, else None."""
    a = accepted
    if a.case is None or a.art is None or a.colours is None or a.title is None:
        return None
    return Design(
        case=a.case,
        art=a.art,
        colours=a.colours,
        title=a.title,
        left_out=a.left_out or (),
        ink=a.ink,
    )


class OnPaper(NamedTuple):
    """What sheets that were not withdrawn carry of each game."""

    prints: Mapping[str, frozenset[str]]
    """The designs of its good prints on settled sheets, by game."""
    pressed: frozenset[str]
    """Games whose insert is on a sheet that is pressed and not settled."""
    held: Mapping[str, frozenset[str]]
    """The designs that are or may yet turn out to be on paper: all that are not spoiled."""

    @classmethod
    def of(cls, sheets: Iterable[Sheet]) -> OnPaper:
        """Look through sheets."""
        live = [sheet for sheet in sheets if sheet.withdrawn_at is None]
        own = {(p.game, p.design) for sheet in live for p in sheet.placements if not p.spare}
        prints: dict[str, set[str]] = {}
        held: dict[str, set[str]] = {}
        pressed: set[str] = set()
        for sheet in live:
            for placement in sheet.placements:
                if not placement.spoiled:
                    held.setdefault(placement.game, set()).add(placement.design)
                if sheet.settled_at is None:
                    # Where the insert itself is, a spare does not tell.
                    if not placement.spare:
                        pressed.add(placement.game)
                elif not placement.spoiled and (placement.game, placement.design) in own:
                    # A good spare stands in for the print it is a second of; a label does not.
                    prints.setdefault(placement.game, set()).add(placement.design)
        return cls(
            {game: frozenset(designs) for game, designs in prints.items()},
            frozenset(pressed),
            {game: frozenset(designs) for game, designs in held.items()},
        )

    def holds(self, game: Game) -> bool:
        """Return whether a game's insert is on paper just as it was accepted."""
        held = self.held.get(game.id)
        if not held:
            return False
        design = accepted_design(game.accepted)
        return design is not None and design.fingerprint in held

    def differing(self, other: OnPaper) -> set[str]:
        """Return the games of which other designs are on paper, or that are pressed, in one."""
        return {
            game
            for mine, theirs in ((self.prints, other.prints), (self.held, other.held))
            for game in mine.keys() | theirs.keys()
            if mine.get(game) != theirs.get(game)
        } | (self.pressed ^ other.pressed)

    def standing(self, game: Game) -> Standing:
        """Return where one game stands."""
        return _standing(
            game, self.prints.get(game.id, frozenset()), pressed=game.id in self.pressed
        )


def standings(games: Iterable[Game], sheets: Iterable[Sheet]) -> dict[str, Standing]:
    """Return the standing of every game by its id."""
    paper = OnPaper.of(sheets)
    return {game.id: paper.standing(game) for game in games}


def _standing(game: Game, prints: Collection[str], *, pressed: bool) -> Standing:
    """Return one game's standing; ``prints`` are the designs of its good prints."""
    design = accepted_design(game.accepted)
    a = game.accepted
    since = max((at for at in (a.art_at, a.title_at) if at is not None), default=None)
    if game.declared is not None:
        return Standing(game.declared.stage, Place.ASIDE, design, reprint=False, since=since)
    if design is None:
        stage = Stage.LISTED if a.art is None else Stage.ART_CHOSEN
        place = Place.PRESSED if pressed else Place.BACKLOG
        return Standing(stage, place, None, bool(prints), since)
    if prints and design.fingerprint in prints:
        fitted = game.fitted is not None and game.fitted.design == design.fingerprint
        return Standing(
            Stage.FITTED if fitted else Stage.PRINTED,
            Place.DONE,
            design,
            reprint=False,
            since=since,
        )
    place = Place.PRESSED if pressed else Place.QUEUE
    return Standing(Stage.TITLE_SET, place, design, bool(prints), since)


def stage_counts(standing: Mapping[str, Standing]) -> dict[Stage, int]:
    """Return how many games stand at each stage, every stage present, in order."""
    counts = dict.fromkeys(Stage, 0)
    for one in standing.values():
        counts[one.stage] += 1
    return counts


def outdated(sheet: Sheet, standing: Mapping[str, Standing]) -> tuple[Placement, ...]:
    """Return the placements whose game's design is no longer the one on the sheet."""

    def current(game: str) -> str | None:
        one = standing.get(game)
        return one.design.fingerprint if one and one.design else None

    return tuple(p for p in sheet.placements if not p.spare and current(p.game) != p.design)
