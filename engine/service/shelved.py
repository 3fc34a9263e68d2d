"""The shelf of one state of the collection, worked out as far as it is asked for."""

from __future__ import annotations

from contextlib import AbstractContextManager
from functools import cached_property
from typing import Annotated, Any

import msgspec

from engine.cases import Pose
from engine.model import Colours, EdgeTitle, Game, Size, Stage, Value
from engine.model.settings import POSES, Settings
from engine.model.stages import Place
from engine.model.units import SPREAD, Mm, Points
from engine.service.places import edge_colours
from engine.service.proofs import Proofs
from engine.shelf import laying
from engine.shelf.clashes import Seen
from engine.shelf.drawing import Look, Part, Stood
from engine.shelf.facing import Faced, faced
from engine.shelf.filing import Group, in_groups
from engine.shelf.laying import Item, Laid, Section, Steps
from engine.state import Proposal, Snapshot

ASPECT = 1.6
"""Width to height of a picture where nobody says how long a row is."""


class EdgeLine(Value, frozen=True):
    """A game on the shelf, and the edge of its that faces the person."""

    game: str
    title: str
    sort_title: str
    """What it is filed under; empty for its title."""
    group: str
    """Behind which divider it stands."""
    case: str
    pose: Pose = msgspec.field(name="stored")
    stage: Stage
    printed: bool
    """Its insert is on paper as it is designed."""
    colours: Annotated[Colours, SPREAD]
    width: Mm
    """Of the edge as it is seen."""
    height: Mm
    lines: tuple[str, ...]
    """Its title as it is set."""
    size: Points
    """Of its type; 0 without one."""


class Shelved:
    """The shelf of one snapshot, worked out as far as it is asked for."""

    def __init__(
        self,
        snapshot: Snapshot,
        proofs: Proofs,
        lock: AbstractContextManager[Any],
        caption: str = "",
    ) -> None:
        """Look at ``snapshot``, holding ``lock`` while it is asked; ``caption`` heads it."""
        self._snapshot = snapshot
        self._proofs = proofs
        self._lock = lock
        self._faced: dict[tuple[str, frozenset[str]], Faced] = {}
        self._stood: dict[str, Stood] = {}
        self._laid: tuple[Size, Laid, dict[str, Steps]] | None = None
        self._caption = caption

    @property
    def settings(self) -> Settings:
        """What is set."""
        return self._snapshot.settings

    def pose_of(self, game: str) -> Pose:
        """Return how a game is stored."""
        return self.faced_of(game).pose

    def faced_of(self, game: str) -> Faced:
        """Return the edge of a game's case that faces the person, by the game's id."""
        return self.faced(self._snapshot.games[game])

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """The games in their order."""
        colours = edge_colours(self._snapshot, self.proposal)
        return in_groups(self._snapshot.games.values(), self._snapshot.settings, colours)

    @cached_property
    def order(self) -> tuple[str, ...]:
        """The games by id, those that are stored alike together."""
        return tuple(item.game for s in self.sections for item in s.items if item.game)

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """What is stored alike, in order: the shelf, the drawer, the stack."""
        dividers = self._snapshot.settings.dividers
        items: dict[Pose, list[Item]] = {pose: [] for pose in Pose}
        for group in self.groups:
            begun: set[Pose] = set()
            for game in group.games:
                one = self.faced(game)
                if dividers and group.name and one.pose not in begun:
                    size = laying.DIVIDER
                    items[one.pose].append(Item("", Size(size, size), group.name))
                begun.add(one.pose)
                items[one.pose].append(Item(game.id, one.size, group.name))
        used = [pose for pose in Pose if items[pose]]
        several = len(used) > 1
        said = [POSES[pose.value].capitalize() if several else "" for pose in used]
        said[:1] = [". ".join(filter(None, (self._caption, one))) for one in said[:1]]
        return tuple(
            Section(pose, tuple(items[pose]), words) for pose, words in zip(used, said, strict=True)
        )

    @property
    def poses(self) -> dict[int, Pose]:
        """How each section is stored, by its number."""
        return {number: section.pose for number, section in enumerate(self.sections)}

    def faced(self, game: Game) -> Faced:
        """Return the edge of a game's case that faces the person."""
        casing = self._snapshot.casing
        key = casing.case_of(game), casing.left_out(game)
        if key not in self._faced:
            with self._lock:
                pose = casing.pose(key[0])
                self._faced[key] = faced(casing.net(*key), casing.folded(*key), pose)
        return self._faced[key]

    def proposal(self, game: str) -> Proposal:
        """Return a game's design as it would be printed now."""
        with self._lock:
            return self._snapshot.proposal(game)

    def printed(self, game: str) -> bool:
        """Return whether a game's insert is printed as it is designed."""
        return self._snapshot.standing[game].place in {Place.DONE, Place.ASIDE}

    def stood(self, game: str) -> Stood:
        """Return a game's insert, and how its edge is seen."""
        if game not in self._stood:
            design = self.proposal(game).design
            insert = self._proofs.composed(design, self._snapshot.casing)
            seen = self.faced(self._snapshot.games[game])
            self._stood[game] = Stood(insert, seen, self.printed(game))
        return self._stood[game]

    def laid(self, length: float | None = None) -> Laid:
        """Return where all stand, in rows or piles of a length in mm, or as a picture suits."""
        return laying.lay_out(
            self.sections, lambda section: length or laying.best_length(section, ASPECT)
        )

    def laid_in(self, window: Size) -> Laid:
        """Return where all stand in rows and piles as long as a window."""

        def long(section: Section) -> float:
            row = section.pose is Pose.SHELF
            return (window.width if row else window.height - laying.BOARD) - 2 * laying.CLOSE

        if self._laid is None or self._laid[0] != window:
            laid = laying.lay_out(self.sections, long, laying.CLOSE)
            self._laid = window, laid, laying.steps(laid, self.poses)
        return self._laid[1]

    def steps_in(self, window: Size) -> dict[str, Steps]:
        """Return where one comes to from each game, laid out as ``laid_in`` does."""
        self.laid_in(window)
        return self._laid[2] if self._laid else {}

    def part(self, laid: Laid) -> Part:
        """Return it as it is drawn."""
        names = " ".join((*dict.fromkeys(group.name for group in self.groups), self._caption))
        with self._lock:
            fonts = self._snapshot.proposer.titler.fonts.large(names)
        look = Look(self._proofs.fallbacks(fonts))
        return Part(laid, self.stood, self.poses, look)

    def seen(self, key: str) -> Seen:
        """Return what is seen of a game's edge beside others."""
        game, proposal, one = (
            self._snapshot.games[key],
            self.proposal(key),
            self.faced(self._snapshot.games[key]),
        )
        title = _title_on(proposal, one)
        return Seen(
            game=key,
            title=game.title,
            series=game.series,
            group=proposal.group,
            line=f"{one.pose} {proposal.case} {one.panel.name}",
            colour=proposal.design.colours.base,
            size=title.size if title else 0.0,
        )

    def lines(self) -> tuple[EdgeLine, ...]:
        """Return all games in their order."""
        return tuple(map(self.line, self.order))

    @cached_property
    def _group_names(self) -> dict[str, str]:
        return {game.id: group.name for group in self.groups for game in group.games}

    def line(self, key: str) -> EdgeLine:
        """Return a game as it stands."""
        game, proposal = self._snapshot.games[key], self.proposal(key)
        one = self.faced(game)
        title = _title_on(proposal, one)
        return EdgeLine(
            game=key,
            title=game.title,
            sort_title=game.sort_title,
            group=self._group_names[key],
            case=proposal.case,
            pose=one.pose,
            stage=proposal.stage,
            printed=self.printed(key),
            colours=proposal.design.colours,
            width=one.size.width,
            height=one.size.height,
            lines=title.lines if title else (),
            size=title.size if title else 0.0,
        )


def _title_on(proposal: Proposal, one: Faced) -> EdgeTitle | None:
    """Return the title on the edge that faces the person."""
    return next((t for t in proposal.design.title if t.panel == one.panel.name), None)
