"""Make the pictures of the README: python docs/pictures.py [FOLDER].

Makes the demo collection in a temporary folder, then draws from the real thing:
``shelf.png``, all its edges side by side, ``bench.svg``, the terminal program on it,
``sheet.png``, one of its pressed sheets, ``sheet-back.png``, ``scores-and-cuts.png`` and
``ticket.png``, what else is written of such a sheet where it is asked for, and
``check-page.png``, the check page of its paper.
FOLDER is where they go, this file's own by default.
"""

from __future__ import annotations

import asyncio
import io
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from PIL import Image
from textual_image.widget import HalfcellImage

from engine import Workshop
from engine.artwork import page_pixels
from engine.demo import make_demo
from engine.press import page_picture
from tui.app import OPENING, SpineryApp
from tui.widgets import proof

COLUMNS, ROWS = 140, 40
SHEET = 2
PPI = 100
SHELF_PPI = 75


@contextmanager
def half_blocks() -> Iterator[None]:
    """Draw proofs in half blocks: an SVG holds text cells only."""
    with patch.object(proof, "picture_kind", lambda: HalfcellImage):
        yield


async def draw_bench(workshop: Workshop, to: Path) -> None:
    """Write the bench as an SVG."""
    app = SpineryApp(lambda: workshop, name=workshop.name, reads=False)
    async with app.run_test(size=(COLUMNS, ROWS)) as pilot:
        while app.current_mode == OPENING:
            await pilot.pause(0.01)
        while any(not worker.is_finished for worker in app.workers):
            await pilot.pause(0.01)
        await pilot.pause()
        to.write_text(without_web_fonts(app.export_screenshot(title="Spinery")), encoding="utf-8")


def without_web_fonts(svg: str) -> str:
    """Return the picture set in the reader's own monospaced font: nothing is fetched for it."""
    return re.sub(r"@font-face\s*\{.*?\}", "", svg, flags=re.DOTALL)


def draw_sheet(workshop: Workshop, to: Path) -> None:
    """Write the page of a pressed sheet as a PNG."""
    with Image.open(io.BytesIO(workshop.sheets.proof(SHEET, PPI))) as page:
        page.convert("RGB").save(to, optimize=True)


def draw_all_of_a_sheet(workshop: Workshop, folder: Path) -> None:
    """Press the sheet once more with all that can be written of it; write that as PNGs."""
    count = len(workshop.sheets.sheet(SHEET).placements)
    workshop.sheets.settle(SHEET, range(1, count + 1))
    report = workshop.sheets.press(reverse="long", machine="svg", cut_page=True, job=True)
    sheet = Path(report.sheets[0].file or "")
    cuts = sheet.with_name(f"{sheet.stem}-cuts.pdf")
    pages = {"sheet-back": (sheet, 1), "scores-and-cuts": (cuts, 0)}
    if report.job:
        pages["ticket"] = (Path(report.job), 0)
    for name, (file, page) in pages.items():
        page_pixels(file, page, PPI).save(folder / f"{name}.png", optimize=True)


def draw_check_page(workshop: Workshop, to: Path) -> None:
    """Write the check page as a PNG."""
    pdf = to.with_suffix(".pdf")
    workshop.printers.check_page(path=pdf)
    to.write_bytes(page_picture(pdf, PPI))
    pdf.unlink()


def draw_shelf(workshop: Workshop, to: Path) -> None:
    """Write the shelf as it will stand once all is printed."""
    workshop.setup.change(articles=("de", "en", "es", "fr", "pt"))
    workshop.shelf.write(to, ppi=SHELF_PPI, finished=True, replace=True)
    with Image.open(to) as picture:
        picture.quantize(256, dither=Image.Dither.NONE).save(to, optimize=True)


def main(folder: Path) -> None:
    """Make the demo and draw from it."""
    with TemporaryDirectory() as place:
        workshop = make_demo(Path(place) / "harbour-street")
        try:
            with half_blocks():
                asyncio.run(draw_bench(workshop, folder / "bench.svg"))
            draw_sheet(workshop, folder / "sheet.png")
            draw_shelf(workshop, folder / "shelf.png")
            draw_all_of_a_sheet(workshop, folder)
            draw_check_page(workshop, folder / "check-page.png")
        finally:
            workshop.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent)
