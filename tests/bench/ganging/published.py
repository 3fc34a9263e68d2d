"""The two-dimensional bin packing instances of Berkey and Wang, classes 1 to 6.

J. O. Berkey and P. Y. Wang, Journal of the Operational Research Society 38(5), 1987, 423-429:
ten instances each of 20, 40, 60, 80 and 100 rectangles, hardly two of them alike.
"""

import json
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from time import process_time
from typing import NamedTuple

from engine.ganging import Coming, plan
from engine.model import Forme, Margins, Rule, Stock
from tests.bench.ganging import heuristics

CLASSES = range(1, 7)
MANY = (20, 40, 60, 80, 100)
GROUP = 10
_FINALISTS = 40
"""Settings of rectpack that go through all instances of a class."""


class Instance(NamedTuple):
    """Rectangles for bins of one size, in whole units that count as mm."""

    room: tuple[int, int]
    """Width and height of the bin."""
    items: tuple[tuple[int, int], ...]

    def coming(self, *, turns: bool) -> list[Coming]:
        counted = Counter(self.items)
        return [Coming(f"{w} by {h}", w, h, turns, n) for (w, h), n in counted.items()]

    @property
    def forme(self) -> Forme:
        stock = Stock("bin", "Bin", *self.room, margins=Margins(0, 0, 0, 0))
        return Forme(stock, rule=Rule.TRIMMER, bleed=0, gutter=0, foot=0, side=0)


def find(folder: Path) -> Path | None:
    """Return where the instances lie: in ``folder`` or in its folder of that name."""
    for one in (folder, folder / "instances"):
        if (one / _name(1, MANY[0], 1)).is_file():
            return one
    return None


def measured(folder: Path, kind: int, *, every: int = 1) -> dict[str, object]:
    """Return the bins of a class in all, ours by edge-to-edge cuts and rectpack's lying freely.

    rectpack goes through one instance in ten with every setting, and through the rest with
    those that did best there; what counts is the best single setting, not the best of all.
    """
    some = list(_instances(folder, kind, every))
    row: dict[str, object] = {"instances": len(some)}
    for word, turns in (("fixed", False), ("rotated", True)):
        start = process_time()
        row[f"ours_{word}"] = sum(plan(one.coming(turns=turns), one.forme).sheets for one in some)
        row[f"seconds_{word}"] = round(process_time() - start, 1)
        row[f"rectpack_{word}"] = _rectpack(some, every, turns=turns)
    return row | _best(folder, kind)


def _instances(folder: Path, kind: int, every: int) -> Iterator[Instance]:
    for many in MANY:
        for number in range(1, GROUP + 1, every):
            instance = _read(folder / _name(kind, many, number))
            if len(instance.items) != many:
                raise ValueError(f"{_name(kind, many, number)} holds {len(instance.items)} items")
            yield instance


def _rectpack(some: list[Instance], every: int, *, turns: bool) -> int:
    totals: Counter[heuristics.Setting] = Counter()

    def run(settings: Iterable[heuristics.Setting], instances: list[Instance]) -> None:
        for setting in settings:
            for one in instances:
                totals[setting] += heuristics.bins(setting, one.room, one.items, turns=turns)

    one_in_ten = some[:: GROUP // every]
    run(heuristics.SETTINGS, one_in_ten)
    best = sorted(totals, key=lambda setting: (totals[setting], setting))[:_FINALISTS]
    run(best, [one for one in some if one not in one_in_ten])
    return min(totals[setting] for setting in best)


def _best(folder: Path, kind: int) -> dict[str, object]:
    """Return the best published bins of a class by free placement, if they lie there too."""
    for file in (folder / "best_published.json", folder.parent / "best_published.json"):
        if file.is_file():
            table = json.loads(file.read_text(encoding="utf-8"))
            return {
                f"best_{ours}": sum(table[theirs][f"{kind}_{many}"] for many in MANY)
                for ours, theirs in (("fixed", "OF"), ("rotated", "RF"))
            }
    return {}


def _name(kind: int, many: int, number: int) -> str:
    return f"CLASS{kind:02}_{many:03}_{number:02}"


def _read(file: Path) -> Instance:
    """Read how many there are, width and height of the bin, then a line for each rectangle."""
    _, room, *items = file.read_text(encoding="ascii").splitlines()
    width, height = map(int, room.split())
    sides = [tuple(map(int, line.split()))[1:] for line in items if line.strip()]
    return Instance((width, height), tuple((w, h) for w, h in sides))
