"""Random backlogs as a collector has them: a few kinds of inserts, and many of each."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import product
from random import Random
from statistics import median
from time import process_time
from typing import NamedTuple

from engine.ganging import Coming, plan
from engine.model import Forme, Margins, Rule, Stock
from tests.bench.ganging import heuristics

STOCKS = {
    "A4": Stock("a4", "A4", 210, 297, margins=Margins(5, 5, 5, 5)),
    "Letter": Stock("letter", "Letter", 215.9, 279.4, margins=Margins(5, 5, 5, 5)),
}
GUTTER = 2
KINDS = range(2, 11)
INSERTS = (50, 200, 1000, 5000)
SEEDS = range(336)
SHORTEST, LONGEST = 30, 150
"""Sides of an insert, in mm."""
_SETTINGS = {
    50: heuristics.SETTINGS,
    200: heuristics.USUAL,
    1000: heuristics.USUAL[:2],
    5000: heuristics.USUAL[:1],
}
"""Of rectpack, by the number of inserts: its time grows with the square of that."""


class Backlog(NamedTuple):
    """Inserts that are left to print, on one stock under one cutting rule."""

    seed: int
    sizes: tuple[tuple[int, int], ...]
    """In mm."""
    counts: tuple[int, ...]
    stock: str
    rule: Rule

    @property
    def coming(self) -> list[Coming]:
        return [
            Coming(f"kind {n}", width, height, turns=True, count=count)
            for n, ((width, height), count) in enumerate(zip(self.sizes, self.counts, strict=True))
        ]

    @property
    def forme(self) -> Forme:
        stock = STOCKS[self.stock]
        return Forme(stock, rule=self.rule, bleed=0, gutter=GUTTER, foot=0, side=0)


def backlogs(*, every: int = 1) -> Iterator[Backlog]:
    """Yield each backlog, or one in ``every``, on each stock under each rule."""
    for seed in SEEDS[::every]:
        sizes, counts = _drawn(seed)
        for stock, rule in product(STOCKS, Rule):
            yield Backlog(seed, sizes, counts, stock, rule)


def measured(backlog: Backlog) -> dict[str, object]:
    """Return how few sheets it takes, what was proven, and what rectpack needs at best."""
    start = process_time()
    fewest = plan(backlog.coming, backlog.forme)
    seconds = process_time() - start
    return {
        "sizes": len(backlog.sizes),
        "inserts": sum(backlog.counts),
        "stock": backlog.stock,
        "rule": backlog.rule.value,
        "sheets": fewest.sheets,
        "bound": fewest.bound,
        "proven": fewest.proven,
        "seconds": round(seconds, 4),
        "rectpack": _rectpack(backlog.sizes, backlog.counts, backlog.stock),
        "seed": backlog.seed,
    }


def summary(rows: Iterable[dict[str, object]]) -> Iterator[dict[str, object]]:
    """Yield a row for each stock, rule and number of inserts, and for each stock and rule."""
    groups = defaultdict(list)
    for row in rows:
        for inserts in (row["inserts"], "any"):
            groups[row["stock"], row["rule"], inserts].append(row)
    for (stock, rule, inserts), some in groups.items():
        times = [row["seconds"] for row in some]
        yield {
            "stock": stock,
            "rule": rule,
            "inserts": inserts,
            "backlogs": len(some),
            "proven": sum(row["proven"] for row in some),
            "median s": round(median(times), 3),
            "worst s": round(max(times), 2),
            "sheets": sum(row["sheets"] for row in some),
            "rectpack": sum(row["rectpack"] for row in some),
            "rectpack fewer": sum(row["rectpack"] < row["sheets"] for row in some),
        }


@cache
def _drawn(seed: int) -> tuple[tuple[tuple[int, int], ...], tuple[int, ...]]:
    random = Random(seed)
    many = KINDS[seed % len(KINDS)]
    inserts = INSERTS[seed // len(KINDS) % len(INSERTS)]
    sizes: set[tuple[int, int]] = set()
    while len(sizes) < many:
        one, other = (random.randint(SHORTEST, LONGEST) for _ in range(2))
        sizes.add((max(one, other), min(one, other)))
    shares = [random.random() + 0.1 for _ in range(many)]
    counts = [max(round(inserts * share / sum(shares)), 1) for share in shares]
    counts[0] += inserts - sum(counts)
    ordered = sorted(sizes)
    random.shuffle(ordered)
    return tuple(ordered), tuple(counts)


@cache
def _rectpack(sizes: tuple[tuple[int, int], ...], counts: tuple[int, ...], stock: str) -> int:
    """Return the fewest sheets of the settings tried, in tenths of a millimetre."""
    field = Forme(STOCKS[stock], bleed=0, gutter=GUTTER, foot=0, side=0).field
    room = int((field.width + GUTTER) * 10 + 0.01), int((field.height + GUTTER) * 10 + 0.01)
    inserts = [
        ((w + GUTTER) * 10, (h + GUTTER) * 10)
        for (w, h), count in zip(sizes, counts, strict=True)
        for _ in range(count)
    ]
    settings = _SETTINGS[sum(counts)]
    return min(heuristics.bins(setting, room, inserts, turns=True) for setting in settings)
