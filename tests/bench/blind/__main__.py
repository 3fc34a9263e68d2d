"""How far a proposal can be trusted unseen: covers whose truth is known, through the front door.

    python -m tests.bench.blind [--covers N] [--seed WORD] [--photos DIR] [--fonts DIR]
                                [--out FILE.json] [--sheet FILE.png] [--keep DIR]
                                [--known FILE.json] [--page FILE.md]

Draws covers from real photographs and real fonts, takes them in with a list, and judges what is
proposed for them in several case kinds: README.md beside this file says how.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Sequence
from contextlib import nullcontext
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

import msgspec
from rich.console import Console
from rich.table import Table

from tests.bench.blind import contact, covers, matching, page, rendered, report, trial
from tests.bench.blind.rendered import Check
from tests.bench.blind.trial import Row
from tests.bench.blind.truth import Cover

COVERS = 14 * len(covers.SORTS)
"""Fourteen of each sort."""

_console = Console(width=170)


def main() -> None:
    asked = _arguments()
    seed = asked.seed if asked.seed != "fresh" else f"{random.randrange(10**6)}"
    begun = perf_counter()
    with nullcontext(asked.keep) if asked.keep else TemporaryDirectory() as place:
        folder = Path(place)
        drawn = covers.write(folder, asked.covers, seed, asked.photos, asked.fonts)
        _say(f"{len(drawn)} covers of seed {seed}", begun)
        rows, checks = _judged(folder, drawn, begun, asked.known)
        names = [matching.camera_names(folder, drawn, seed), matching.real_names(folder)]
        _say("names matched", begun)
        _show(rows, checks, names)
        wrong = [row for row in rows if row.sure and not row.right]
        if asked.sheet:
            sheets = contact.write(asked.sheet, wrong, drawn, folder / "covers")
            _console.print(f"{len(wrong)} sure and wrong: {', '.join(map(str, sheets))}")
        if asked.keep:
            (folder / "truth.json").write_bytes(_json(drawn))
    if asked.page:
        asked.page.write_text(page.written(seed, rows), encoding="utf-8")
    if asked.out:
        found = {
            "seed": seed,
            "covers": drawn,
            "proposals": rows,
            "rendered": checks,
            "names": names,
        }
        asked.out.write_bytes(_json(found))


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.blind")
    parser.add_argument("--covers", type=int, default=COVERS, metavar="N")
    parser.add_argument("--seed", default="0", help="any word; “fresh” takes one at random")
    parser.add_argument("--photos", type=Path, metavar="DIR", help="more photographs")
    parser.add_argument("--fonts", type=Path, metavar="DIR", help="more fonts")
    parser.add_argument("--out", type=Path, metavar="FILE.json", help="where to write all of it")
    parser.add_argument("--sheet", type=Path, metavar="FILE.png", help="what is sure and wrong")
    parser.add_argument("--known", type=Path, metavar="FILE.json", help="what was read before")
    parser.add_argument("--page", type=Path, metavar="FILE.md", help="the curve, as a page")
    parser.add_argument("--keep", type=Path, metavar="DIR", help="an empty folder for the covers")
    asked = parser.parse_args()
    for folder in (asked.photos, asked.fonts):
        if folder is not None and not folder.is_dir():
            parser.error(f"{folder}: there is no such folder. Name one that is there")
    if asked.keep is not None and asked.keep.exists() and any(asked.keep.iterdir()):
        parser.error(f"{asked.keep}: is not empty. Name another folder")
    if asked.covers < 1:
        parser.error(f"--covers {asked.covers}: draws nothing. Give 1 or more")
    return asked


def _judged(
    folder: Path, drawn: Sequence[Cover], begun: float, known: Path | None
) -> tuple[list[Row], list[Check]]:
    listed = covers.list_of(folder, drawn)
    workshop = trial.taken_in(folder / "shelf", listed, folder / "covers", known)
    _say("taken in and read", begun)
    try:
        rows = [row for kind in trial.KINDS for row in trial.tried(workshop, drawn, kind)]
        _say("proposed and judged", begun)
        checks = rendered.checked(workshop, folder, drawn, trial.KINDS)
        at_odds = [one for kind in trial.KINDS for one in trial.at_odds(workshop, drawn, kind)]
        _console.print(f"Covers that would be wrong though shown whole: {at_odds or 'none'}")
    finally:
        workshop.close()
    _say("proofs looked at", begun)
    return rows, checks


def _show(rows: Sequence[Row], checks: Sequence[Check], names: Sequence[dict[str, object]]) -> None:
    _table("By sort of cover", report.grouped(rows, "sort"))
    _table("By case kind", report.grouped(rows, "kind"))
    _table("What is wrong", report.aspects(rows))
    _table("How sure it says it is, and how often it is right", report.calibration(rows))
    _table("Whose picture it is", names)
    for one in checks:
        if not one.holds:
            _console.print(f"off by {one.off:.2f} mm: {one.title}, {one.kind}, {one.sort}")
    held = sum(one.holds for one in checks)
    worst = max((one.off for one in checks if one.holds), default=0.0)
    _console.print(f"Titles found in proofs where they should be: {held} of {len(checks)},")
    _console.print(f"the worst of them {worst:.2f} mm off.")


def _table(title: str, rows: Sequence[dict[str, object]]) -> None:
    if not rows:
        return
    table = Table(*rows[0], title=title)
    for row in rows:
        table.add_row(*map(str, row.values()))
    _console.print(table)


def _say(what: str, begun: float) -> None:
    _console.print(f"{perf_counter() - begun:4.0f} s: {what}")


def _json(value: object) -> bytes:
    return msgspec.json.format(msgspec.json.encode(value), indent=1)


if __name__ == "__main__":
    main()
