"""The small collection that the terminal program is driven on, as it stands at several stages."""

from __future__ import annotations

import csv
import shutil
from collections.abc import Callable
from pathlib import Path

from engine import Workshop, open_workshop
from tests.conftest import Clock, draw_cover

SUBTITLED = "Kite Reef: The Long Way Home"
"""There is a shorter way to word it."""
FIRST = ("Lantern", "Harbour", "Tin", "Paper", "Glass", "Moss")
SECOND = ("Bay", "Parade")
TITLES = [f"{first} {second}" for second in SECOND for first in FIRST] + [SUBTITLED, "Ember Reef"]
MAKERS = ("North Pier", "Quayworks", "Attic Nine")
DOUBTFUL = "Harbour Parade"
"""Its picture's name is not quite its own."""
BARE = "Tin Parade"
"""It has no picture."""
BORDERED = "Paper Bay"
"""Its picture has a white border all around."""


def take_in(workshop: Workshop) -> None:
    """Take in twelve games in snap shells, of which six fill a sheet, and two in soft cases."""
    folder = workshop.folder.parent / "delivery"
    (folder / "covers").mkdir(parents=True)
    with (folder / "games.csv").open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["title", "case", "maker", "genre", "year"])
        for n, title in enumerate(TITLES):
            case = "snap-shell" if n < 12 else "soft-cassette"
            rows.writerow([title, case, MAKERS[n % 3], ("puzzle", "chase")[n % 2], 1990 + n])
            _draw(folder / "covers", n, title)
    workshop.games.intake(folder / "games.csv", folder / "covers")


def _draw(folder: Path, n: int, title: str) -> None:
    name = {DOUBTFUL: "harbour parades day", BARE: ""}.get(title, title.lower().replace(" ", "_"))
    if title == BORDERED:
        _draw_bordered(folder / f"{name}.png")
    elif name:
        draw_cover(folder / f"{name}.png", (15 * n, 60, 120))


def _draw_bordered(path: Path) -> None:
    from PIL import Image, ImageDraw

    picture = Image.new("RGB", (400, 460), "white")
    draw = ImageDraw.Draw(picture)
    draw.rectangle((20, 20, 379, 439), fill=(150, 60, 40))
    draw.ellipse((130, 150, 270, 310), fill="gold")
    picture.save(path)


def print_part_full(workshop: Workshop, sheet: int) -> None:
    """Print the first game that is left alone on a sheet, which leaves an offcut."""
    left = next(game.id for game in workshop.games.lines() if game.undecided)
    workshop.designs.accept([left])
    workshop.sheets.press(part_full=True)
    workshop.sheets.settle(sheet)


STAGES: dict[str, tuple[str, Callable[[Workshop], object]]] = {
    "empty": ("", lambda _: None),
    "listed": ("empty", take_in),
    "batch": ("listed", lambda shop: shop.batch.bring_next()),
    "full": ("batch", lambda shop: shop.designs.accept(shop.batch.games())),
    "pressed": ("full", lambda shop: shop.sheets.press()),
    "settled": ("pressed", lambda shop: shop.sheets.settle(1)),
    "second": ("settled", lambda shop: shop.batch.bring_next()),
    "offcut": ("batch", lambda shop: print_part_full(shop, 1)),
    "offcuts": ("offcut", lambda shop: [print_part_full(shop, n) for n in range(2, 7)]),
}
"""Each stage with the one before it and what leads from there."""


class Shelf:
    """Makes each stage once, from the one before."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def copy(self, stage: str, to: Path) -> Path:
        """Copy the collection as it stands at a stage."""
        return Path(shutil.copytree(self._at(stage), to, dirs_exist_ok=True))

    def _at(self, stage: str) -> Path:
        folder = self._folder / stage / "harbour-street"
        if not folder.exists():
            before, lead = STAGES[stage]
            if before:
                self.copy(before, folder)
            workshop = open_workshop(folder, Clock())
            lead(workshop)
            workshop.close()
        return folder
