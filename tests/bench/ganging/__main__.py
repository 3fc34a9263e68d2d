"""How few sheets, how well proven, and how soon: against published optima and heuristics.

    python -m tests.bench.ganging [--short] [--instances DIR] [--out FILE.json]

Three parts: pallets with known optima, random backlogs as a collector has them, and published
bin packing instances, read from ``--instances`` in the format of their authors. Times are
seconds of processor time. ``--short`` takes one in twenty-three backlogs and one in ten instances.
"""

import argparse
import json
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

from rich.console import Console
from rich.table import Table

from engine.model import Rule
from tests.bench.ganging import backlogs, pallets, published

_console = Console()


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.ganging")
    parser.add_argument("--short", action="store_true", help="a part of each, in a few minutes")
    parser.add_argument("--instances", type=Path, metavar="DIR", help="bin packing instances")
    parser.add_argument("--out", type=Path, metavar="FILE.json", help="where to write the figures")
    parser.add_argument(
        "--jobs", type=int, default=2, metavar="N", help="processes, 2 if not given"
    )
    asked = parser.parse_args()
    with ProcessPoolExecutor(asked.jobs) as pool:
        _measure(asked, pool)


def _measure(asked: argparse.Namespace, pool: ProcessPoolExecutor) -> None:
    pallet = list(pool.map(pallets.measured, pallets.PALLETS))
    _show("Pallets: most inserts on one sheet", pallet)

    every = 23 if asked.short else 1
    random = list(pool.map(backlogs.measured, backlogs.backlogs(every=every)))
    _show("Random backlogs", backlogs.summary(random))
    trimmed = [row for row in random if row["rule"] == Rule.TRIMMER.value]
    _show("Not proven for the trimmer", [row for row in trimmed if not row["proven"]])

    bins = {}
    folder = asked.instances and published.find(asked.instances)
    if folder is None:
        _console.print(f"No published instances in {asked.instances or '--instances DIR'}.")
    else:
        every = 10 if asked.short else 1
        rows = pool.map(partial(published.measured, folder, every=every), published.CLASSES)
        bins = dict(zip(map(str, published.CLASSES), rows, strict=True))
        table = [{"class": name, **row} for name, row in bins.items()]
        _show("Published instances: bins, edge to edge; rectpack and best lie freely", table)

    figures = {"random": random, "published": bins, "pallet": pallet}
    if asked.out:
        asked.out.write_text(json.dumps(figures, indent=1) + "\n", encoding="utf-8")


def _show(title: str, rows: Iterable[dict[str, object]]) -> None:
    rows = list(rows)
    if not rows:
        return
    table = Table(*rows[0], title=title)
    for row in rows:
        table.add_row(*map(str, row.values()))
    _console.print(table)


if __name__ == "__main__":
    main()
