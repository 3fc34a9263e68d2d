"""docs/sure.md: how sure "sure" is, as measured."""

from __future__ import annotations

from collections.abc import Sequence

from engine.artwork.fitting import SURE
from tests.bench.blind import report
from tests.bench.blind.trial import Row

HEAD = """# How sure is sure

Each way to lay a picture carries what could be wrong with it, each with a chance: a crop that may
cut what the picture shows, lettering that comes near a cut, a wrap that may be none, a matte where
a crop would have done, a title that was not made out. The chance that nothing is wrong is the
product of what is left. A proposal is sure where that is at least {sure:g} and nothing else is in
doubt: its picture, its title on the edges, its room on the paper. What keeps one from being sure is
told as its doubts.

The chances in `engine/artwork/weighing.py`, and the threshold, were set on covers of the seeds cal1
to cal4 of the bench. Below is what they come to on covers of another seed, {seed}. The bench's
README says what is drawn and what counts as wrong.

Written by `python -m tests.bench.blind --seed {seed} --page docs/sure.md`.
"""


def written(seed: str, rows: Sequence[Row]) -> str:
    """Return the page for the proposals of a seed."""
    parts = [
        HEAD.format(sure=SURE, seed=seed),
        "## The curve\n",
        _table(report.curve(rows)),
        "## By how sure it says it is\n",
        _table(report.calibration(rows)),
        "## By sort of cover, at the threshold\n",
        _table(report.grouped(rows, "sort")),
        "## By case kind\n",
        _table(report.grouped(rows, "kind")),
        "## What is wrong\n",
        _table(report.aspects(rows)),
    ]
    return "\n".join(parts)


def _table(rows: report.Table) -> str:
    if not rows:
        return ""
    lines = [list(rows[0]), ["---"] * len(rows[0]), *(list(row.values()) for row in rows)]
    return "\n".join(f"| {' | '.join(map(str, line))} |" for line in lines) + "\n"
