"""What is lent, from the list that ships, and what the covers of it look like."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from engine.demo import LIST

COVERS = Path(__file__).with_name("covers.csv")


class Loan(NamedTuple):
    """A game of the shelf, as far as drawing its cover needs it."""

    mark: str
    """Shelf mark; no two are alike."""
    title: str
    maker: str


class Cover(NamedTuple):
    """A picture of the shelf's folder: how it is drawn, and what scanning did to it."""

    file: str
    title: str
    maker: str
    scene: str
    """A name in ``scenes.SCENES``."""
    palette: str
    """A name in ``palettes.PALETTES``."""
    style: str
    """A name in ``title.STYLES``; empty for a cover without its title."""
    width: int
    height: int
    """In pixels, as the cover is drawn: a border or a turn comes on top."""
    finish: str
    """A name in ``scans.FINISHES``; empty for a clean scan."""


def loans() -> dict[str, Loan]:
    """Return the games of the list by shelf mark."""
    return {
        row["Shelf mark"]: Loan(row["Shelf mark"], row["Title"], row["Maker"])
        for row in _rows(LIST)
    }


def covers() -> tuple[Cover, ...]:
    """Return the pictures of the shelf's folder, in the order of the list."""
    shelf = loans()
    nobody = Loan("", "", "")
    found = []
    for row in _rows(COVERS):
        loan = shelf.get(row["mark"], nobody)
        found.append(
            Cover(
                file=row["file"],
                title=loan.title,
                maker=loan.maker,
                scene=row["scene"],
                palette=row["palette"],
                style=row["style"],
                width=int(row["width"]),
                height=int(row["height"]),
                finish=row["finish"],
            )
        )
    return tuple(found)


def _rows(table: Path) -> Iterator[dict[str, str]]:
    with table.open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)
