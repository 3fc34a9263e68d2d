"""How many inserts of each kind a full sheet of each paper holds, by where its bars stand.

    python -m tests.bench.strips [PAPER ...]

With a check bar each way, as every sheet had once, and as the program lays sheets out; what differs
is marked, and where the bar stands then. Trimmer rule, usual margins, bleed and gutter.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from engine.cases import flatten, load_kinds
from engine.ganging.fullness import Fullness, Problem
from engine.ganging.inserts import Coming
from engine.ganging.strips import roomy
from engine.model import Forme, Stock
from engine.model.stocks import STOCKS

_PAPERS = (
    "a4-card",
    "letter-card",
    "legal-card",
    "a3-card",
    "a5-card",
    "tabloid-card",
    "photo-13x19",
    "photo-4x6",
)
"""One of each size."""
_MANY = 999


def main() -> None:
    """Print a line for each kind and paper."""
    papers = sys.argv[1:] or _PAPERS
    print(f"{'paper':14} {'kind':22} both  now  strips")
    for paper in papers:
        for kind, size, both, now, way in _counts(STOCKS[paper]):
            mark = "" if both == now else f"+{now - both}, {way}"
            print(f"{paper:14} {kind:22} {both:4} {now:4}  {mark}".rstrip(), f"({size})")


def _counts(stock: Stock) -> Iterator[tuple[str, str, int, int, str]]:
    usual = Forme(stock)
    for kind, case in load_kinds().items():
        inserts = [Coming(kind, *flatten(case, stock.caliper).size, True, _MANY)]
        now = roomy(usual, inserts)
        size = f"{inserts[0].width:.1f} × {inserts[0].height:.1f}"
        way = "both" if now.has_both_strips else "foot alone" if now.foot else "side alone"
        yield kind, size, _most(_once(usual, inserts), inserts), _most(now, inserts), way


def _once(usual: Forme, inserts: list[Coming]) -> Forme:
    """Return the layout before: names up the side where an insert needs the height of the foot."""
    foot, side = (
        sum(way.holds(one.width, one.height, turns=one.turns) for one in inserts)
        for way in usual.with_bars
    )
    return usual.with_bars[1] if side > foot else usual


def _most(forme: Forme, inserts: list[Coming]) -> int:
    problem = Problem.of(inserts, forme)
    if not problem.sizes:
        return 0
    return max(sum(full) for full in Fullness(problem).every((_MANY,)))


if __name__ == "__main__":
    main()
