"""Fuzzes for as long as it is told to, and keeps what goes wrong.

python -m tests.fuzz [--minutes N] [--only TARGET] [--first SEED] [--keep FOLDER]
"""

from __future__ import annotations

import argparse
import resource
from collections import Counter
from pathlib import Path
from time import monotonic

from tests.fuzz.fuzzing import fuzzed
from tests.fuzz.targets import TARGETS

AT_A_TIME = 50


def main() -> None:
    """Go round the targets until the time is up."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--minutes", type=float, default=10.0)
    asked.add_argument("--only", choices=TARGETS)
    asked.add_argument("--first", type=int, default=1000, help="the first of the dice")
    asked.add_argument("--keep", type=Path, metavar="FOLDER", help="where to keep what goes wrong")
    options = asked.parse_args()
    ends, first, wrong = monotonic() + 60 * options.minutes, options.first, 0
    counts: dict[str, Counter[str]] = {name: Counter() for name in TARGETS}
    while monotonic() < ends:
        for name in [options.only] if options.only else TARGETS:
            for found in fuzzed(name, range(first, first + AT_A_TIME), counts[name]):
                wrong += 1
                print(f"--- {name}, {found.seed}: {found.words.strip()}", flush=True)
                if options.keep:
                    options.keep.mkdir(parents=True, exist_ok=True)
                    kept = options.keep / f"{name}-{found.seed}{TARGETS[name].suffix}"
                    kept.write_bytes(found.data)
            if monotonic() >= ends:
                break
        first += AT_A_TIME
    for name, ways in counts.items():
        if ways:
            said = ", ".join(f"{count} {way}" for way, count in ways.most_common())
            print(f"{name:<12} {ways.total():>6}: {said}")
    most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"{wrong} not as they should be; the largest process held {most:.0f} MB")


if __name__ == "__main__":
    main()
