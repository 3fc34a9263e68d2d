"""Draw the pictures of the walk-through: python -m docs.walk [FOLDER].

Twelve games of the demo's list and their covers are put into an empty folder, and the real
program is led by its keys from there to a fitted sheet. What it shows on the way is written as
SVG, the page that it pressed as ``sheet.png``. FOLDER is where they go, ``docs/walk`` by default.
"""

from __future__ import annotations

import asyncio
import csv
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import chdir, closing, contextmanager
from pathlib import Path
from tempfile import gettempdir
from typing import Any

from PIL import Image
from textual.app import App

from docs.pictures import PPI, half_blocks, without_web_fonts
from engine import Workshop, open_workshop
from engine.artwork import page_pixels
from engine.demo import LIST, PICTURES
from tests.conftest import Clock
from tests.tui.driving import driven
from tests.tui.start_stories import paste
from tui.welcome import Welcome

SIZE = COLUMNS, ROWS = 100, 32
NAMES = {
    "Sixpence Submarine": "SIXPENCE SUBMARINE.jpg",
    "Signal Flag Patience": "Signal Flag Patience.jpg",
    "The Lamplighter's Shortcut": "Lamplighters Shortcut.jpg",
    "Kettlemoon II": "kettlemoon_2_(rev_B).jpg",
    "Lobster Office": "Lobster Office.gif",
    "Rook, Wren, Heron": "Rook Wren Heron.jpg",
    "Umbra, Umbrella": "Umbra Umbrella.webp",
    "Periscope Picnic": "Periscope Picnic.png",
    "Turnip & Sons": "Turnip and Sons.jpg",
    "Cloud Ferry Timetable": "cloud-ferry-timetable.jpg",
    "Ten Thousand Paper Boats": "10000_paper_boats.jpg",
    "Left-Handed Lighthouse": "Left Handed Lighthouse.png",
}
"""The games, each with the name of its cover as somebody left it."""


@contextmanager
def empty_folder() -> Iterator[Path]:
    """Make a folder of the same name each time, as its path stands in the pictures."""
    place = Path(gettempdir()) / "games"
    place.mkdir()
    try:
        yield place
    finally:
        shutil.rmtree(place)


def lay_out(folder: Path) -> None:
    """Put a list and a folder of covers where a person would have them."""
    (folder / "covers").mkdir()
    for name in NAMES.values():
        shutil.copy(PICTURES / name, folder / "covers")
    with LIST.open(encoding="utf-8", newline="") as source:
        rows = [row for row in csv.DictReader(source) if row["Title"] in NAMES]
    with (folder / "games.csv").open("w", encoding="utf-8", newline="") as file:
        wanted = csv.DictWriter(file, ("Title", "Maker", "Year"), extrasaction="ignore")
        wanted.writeheader()
        wanted.writerows(rows)


async def open_new(keep: Callable[[str, App[Any]], None]) -> Path:
    """Choose a new collection, as where there is none; return its folder."""
    app = Welcome()
    async with app.run_test(size=SIZE) as pilot:
        await pilot.press("down", "down")
        await pilot.pause()
        keep("open", app)
        for key in ("enter", "enter"):
            await pilot.press(key)
            await app.workers.wait_for_complete()
            await pilot.pause()
    if app.return_value is None:
        sys.exit("No collection was opened: the keys of the first screen have changed.")
    return app.return_value.folder


async def walk(workshop: Workshop, keep: Callable[[str, App[Any]], None]) -> None:
    """Go from the first step to a fitted sheet."""
    async with driven(workshop, SIZE, rests=True, paints=True, reads=True, leads=True) as hand:
        await hand.do("choose")
        await paste(hand, "games.csv")
        await hand.do("choose")
        keep("list", hand.app)
        await hand.do("choose")
        await hand.do("choose")
        await paste(hand, "covers")
        await hand.do("choose", "choose")
        keep("start", hand.app)
        for _ in ("case", "storage", "paper"):
            await hand.do("choose", "choose")
        await hand.press("down")
        await hand.until(lambda: all(one.is_finished for one in hand.app.workers))
        await hand.do("choose")
        await hand.press("home")
        keep("doubt", hand.app)
        await hand.do("change_art")
        keep("fitted-whole", hand.app)
        await hand.do("accept")
        keep("sure", hand.app)
        await hand.do("accept_sure", "sheets", "press")
        keep("pressed", hand.app)
        await hand.do("leave", "cuts")
        keep("cuts", hand.app)
        await hand.do("cuts", "settle", "backlog")
        await hand.do(*["mark"] * len(workshop.batch.games()), "fit", "choose")
        keep("fitted", hand.app)
        await hand.do("shelf")
        keep("shelf", hand.app)


def main(folder: Path) -> None:
    """Walk, and write what was seen."""
    folder.mkdir(exist_ok=True)

    def keep(name: str, app: App[Any]) -> None:
        picture = without_web_fonts(app.export_screenshot(title="Spinery"))
        (folder / f"{name}.svg").write_text(picture, encoding="utf-8")

    with empty_folder() as place, chdir(place), half_blocks():
        lay_out(place)
        with closing(open_workshop(asyncio.run(open_new(keep)), Clock())) as workshop:
            asyncio.run(walk(workshop, keep))
            (page,) = workshop.folder.glob("sheets/*.pdf")
            picture = page_pixels(page, 0, PPI).quantize(256, dither=Image.Dither.NONE)
            picture.save(folder / "sheet.png", optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve() if len(sys.argv) > 1 else Path(__file__).parent / "walk")
