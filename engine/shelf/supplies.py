"""What the work still takes: cases, paper, ink and adhesive, less what is in the house.

Spoilage: of inserts that were settled a part *p* was spoiled, so that an insert is printed
1 / (1 - p) times on average until it is good (the mean of a geometric distribution). Paper, ink
and adhesive are counted so; a case is not spoiled.

Ink: ISO/IEC 24711 and 24712 measure the yield of cartridges on a suite of pages with about 5 %
coverage of each colour (from memory: the texts are sold). So a *page* of a colour is 5 % of an
A4 sheet wholly covered, and a cartridge with a yield of 250 holds 250 of them. What a printer
lays down is not what a page asks for (see ``artwork.ink``), and pictures are outside the scope
of these standards: an estimate.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum
from math import ceil, sqrt
from statistics import fmean, variance
from typing import NamedTuple

import msgspec

from engine.model import Value
from engine.model.house import House
from engine.model.units import Share

PAGE = 0.05 * 210.0 * 297.0
"""Fully covered paper of a page that yields are measured with, in mm2 a colour."""

ADHESIVE = "adhesive"
INKS = ("cyan", "magenta", "yellow", "black")
_WHOLE = 1e-9


class Sort(StrEnum):
    """What a supply is."""

    CASE = "case"
    PAPER = "paper"
    INK = "ink"
    ADHESIVE = "adhesive"

    @property
    def unit(self) -> str:
        """What it is counted in."""
        return {"case": "cases", "paper": "sheets", "ink": "pages", "adhesive": "cm²"}[self]


class Spoilage(Value, frozen=True):
    """The person's own: inserts of settled sheets, spares left out."""

    settled: int
    spoiled: int

    @property
    def rate(self) -> float:
        """The part that was spoiled, 0 to 1; nothing where nothing was settled."""
        return self.spoiled / self.settled if self.settled else 0.0

    @property
    def prints(self) -> float:
        """How often an insert is printed until it is good, on average.

        Where nothing was good yet, half an insert is taken for good: any figure would be a guess.
        """
        good = self.settled - self.spoiled
        return self.settled / (good or 0.5) if self.settled else 1.0


class Need(Value, frozen=True):
    """How much of one thing is needed."""

    item: str
    """By which it is named in the house."""
    sort: Sort
    name: str
    needed: float
    """Cases or sheets; of ink pages, of adhesive cm2."""
    have: float = 0.0
    """Of that, in the house."""
    missing: float = 0.0
    packs: int | None = None
    """To be bought; None for ink whose yield is not known."""
    price: float | None = None
    """Of those packs; None where none was said."""


class InkSample(Value, frozen=True):
    """How the ink of all inserts was told from that of some."""

    measured: int
    inserts: int
    """All that are to be printed."""
    error: Share
    """What the sum of all colours may be off by, twice its standard error; 0 where all were
    measured."""


class Inked(NamedTuple):
    """Inserts of one kind: how many there are, and the ink of those that were measured."""

    inserts: int
    measured: Sequence[Mapping[str, float]]
    """Fully covered paper in mm2 by colour, of each."""


def bought(need: Need, house: House) -> Need:
    """Return what is to be bought of something, less what is in the house."""
    pack = house.packs.get(need.item)
    have = house.have.get(need.item, 0.0)
    if need.sort is Sort.INK:
        # What is in a cartridge is told in pages only where its yield is known.
        have *= pack.holds if pack else 0.0
    missing = max(0.0, need.needed - have)
    holds = pack.holds if pack else None if need.sort in (Sort.INK, Sort.ADHESIVE) else 1.0
    packs = ceil(missing / holds - _WHOLE) if holds else None
    price = packs * pack.price if pack and pack.price is not None and packs is not None else None
    return msgspec.structs.replace(need, have=have, missing=missing, packs=packs, price=price)


def sheets_needed(planned: int, spoilage: Spoilage) -> int:
    """Return how many sheets are needed where so many are planned."""
    return ceil(planned * spoilage.prints - _WHOLE)


def ink_needed(kinds: Sequence[Inked], spoilage: Spoilage) -> tuple[dict[str, float], InkSample]:
    """Return the pages of each colour that inserts take, and how well that is known.

    Inserts of a kind that were not measured are taken for the mean of those that were: a
    stratified sample, whose variance is the sum over kinds of N (N - n) s2 / n (Cochran,
    *Sampling Techniques*, 1977, 5.2).
    """
    total, spread = dict.fromkeys(INKS, 0.0), 0.0
    for kind in kinds:
        if not kind.measured:
            continue
        for ink in INKS:
            total[ink] += kind.inserts * fmean(one[ink] for one in kind.measured)
        sums, n = [sum(one.values()) for one in kind.measured], len(kind.measured)
        if n > 1:
            spread += kind.inserts * (kind.inserts - n) * variance(sums) / n
    whole = sum(total.values())
    sample = InkSample(
        measured=sum(len(kind.measured) for kind in kinds),
        inserts=sum(kind.inserts for kind in kinds),
        error=2 * sqrt(spread) / whole if whole else 0.0,
    )
    return {ink: mm2 * spoilage.prints / PAGE for ink, mm2 in total.items()}, sample


def evenly(things: Sequence[str], most: int) -> list[str]:
    """Return at most so many of some things, spread evenly over their order."""
    if len(things) <= most:
        return list(things)
    return [things[(2 * n + 1) * len(things) // (2 * most)] for n in range(most)]
