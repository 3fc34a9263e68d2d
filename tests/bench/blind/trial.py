"""The covers taken in by the program's front door, and its proposals judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import msgspec
from msgspec import Struct

from engine import Picture, Proposal, Workshop, open_workshop, unpack
from engine.cases import FlatNet, Role
from engine.model import Trim
from tests.bench.blind import better, printed
from tests.bench.blind.judging import Fault, Sight, faults
from tests.bench.blind.truth import Cover

KINDS = ("snap-shell", "soft-cassette", "keep-case-short", "jewel-front", "cartridge-label")
"""Portrait, tall, large, square, and wider than tall; the last two have no edge for a title."""

MARGINS = (4.0, 4.0, 4.0, 4.0)
"""In mm: what a printer leaves that takes the largest of these on A4."""


class Row(Struct, frozen=True):
    """One proposal and what is to be said of it."""

    number: int
    """Of the cover."""
    sort: str
    kind: str
    title: str
    file: str
    sure: bool
    stated: float
    """How sure the program says it is, 0 to 1: of whose the picture is and how it lies."""
    doubts: tuple[str, ...]
    fit: str
    focus: tuple[float, float]
    trim: Trim
    split: tuple[float, float] | None
    turn: float
    faults: tuple[Fault, ...]
    mendable: bool
    """Wrong, though some crop or stretch would have been right."""
    seen: tuple[tuple[float, float, float, float], ...]
    """What is in sight on each panel: boxes in pixels of the straightened picture."""

    @property
    def right(self) -> bool:
        return not self.faults

    def has(self, aspect: str) -> bool:
        """Whether that is wrong with it."""
        return any(fault.aspect == aspect for fault in self.faults)


def taken_in(
    folder: Path,
    list_file: Path,
    pictures: Path,
    known: Path | None = None,
    *,
    read: bool = True,
) -> Workshop:
    """Return a new collection in ``folder`` with a list and its pictures taken in, and read.

    What was found in pictures and read in them before is in ``known``, and written there.
    """
    before: list[Picture] = []
    if known is not None and known.exists():
        before = msgspec.json.decode(known.read_bytes(), type=list[Picture])
    workshop = open_workshop(folder)
    workshop.setup.change(margins=MARGINS)
    workshop.games.take_in(unpack(list_file, pictures, known=before))
    if read:
        workshop.readings.read()
    if known is not None:
        known.write_bytes(msgspec.json.encode(workshop.readings.found()))
    return workshop


def by_title(workshop: Workshop) -> Mapping[str, str]:
    """Return the ids of the games by their titles."""
    return {line.title: line.id for line in workshop.games.lines()}


def tried(workshop: Workshop, covers: Sequence[Cover], kind: str) -> list[Row]:
    """Return the proposals for all covers in one case kind, judged."""
    workshop.setup.change(case=kind)
    games = by_title(workshop)
    net = workshop.kinds.net(kind)
    return [
        _row(number, cover, workshop.designs.proposal(games[cover.title]), net)
        for number, cover in enumerate(covers)
    ]


def at_odds(workshop: Workshop, covers: Sequence[Cover], kind: str) -> list[tuple[str, str]]:
    """Return the covers, and why, that have a fault though they are cut rightly and shown whole.

    There is none where the truth about the covers agrees with what they are judged by.
    """
    net = workshop.kinds.net(kind)
    edges = tuple(panel.name for panel in net.panels if panel.role is Role.EDGE)
    seen = ((cover, faults(better.whole(cover, net, edges))) for cover in covers)
    return [(f"{cover.title}, {cover.sort}", str(found[0])) for cover, found in seen if found]


def sight_of(cover: Cover, proposal: Proposal, net: FlatNet) -> Sight:
    """Return what would be seen of a cover."""
    art, titled = proposal.design.art, titled_panels(proposal)
    views = printed.views(art, net, cover.size, cover.dot, titled)
    return Sight(cover, proposal.art.source, art, views, bool(titled))


def titled_panels(proposal: Proposal) -> tuple[str, ...]:
    """Return the panels on which a proposal sets the title."""
    return tuple(one.panel for one in proposal.design.title if any(one.lines) or one.logo)


def _row(number: int, cover: Cover, proposal: Proposal, net: FlatNet) -> Row:
    sight, titled = sight_of(cover, proposal, net), titled_panels(proposal)
    found = faults(sight) + better.title_nowhere(sight)
    found += better.empty_without_need(sight, net, titled)
    art = sight.art
    return Row(
        number=number,
        sort=cover.sort,
        kind=net.kind,
        title=cover.title,
        file=cover.file,
        sure=proposal.sure,
        stated=proposal.art.chance * proposal.art.confidence,
        doubts=proposal.doubts,
        fit=art.fit,
        focus=art.focus,
        trim=art.trim,
        split=art.split,
        turn=art.turn,
        faults=found,
        mendable=bool(found) and better.right_fill(cover, net, titled) is not None,
        seen=tuple(tuple(view.seen) for view in sight.views),  # type: ignore[misc]
    )
