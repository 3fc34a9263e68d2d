"""How long the picture of a shelf takes, what memory, and whether its edges are true to size.

    python -m tests.bench.shelf [GAMES…]

Collections of 100, 400 and 1,600 games whose art, colours and titles are known, in three case
kinds. Each is opened by a process of its own, which draws the shelf; its processor time counts,
and the memory that the drawing adds at most. The edges are then measured on the PNG.
"""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path
from resource import RUSAGE_SELF, getrusage
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

import msgspec
import numpy as np
from PIL import Image

from engine import Workshop, open_workshop
from engine.model import Colours, InkMode
from engine.shelf.laying import Laid
from tests.conftest import Clock
from tests.lettering.titles import shelf
from tests.shelf.edges import measured

GAMES = (100, 400, 1600)
CASES = ("snap-shell", "snap-shell", "snap-shell", "soft-cassette", "keep-case")


def make(folder: Path, count: int) -> None:
    """Make a collection of games that are decided, each with a colour of its own.

    Titles are set in the colour they stand on: they are drawn, and hide nothing of the edge.
    """
    listed = folder.parent / "games.csv"
    rows = (f'"{title}",{CASES[n % len(CASES)]}' for n, title in enumerate(shelf(count)))
    listed.write_text("\n".join(("title,case", *rows)), encoding="utf-8")
    workshop = open_workshop(folder, Clock())
    workshop.games.intake(listed)
    workshop.designs.accept([game.id for game in workshop.games.lines()])
    session = workshop._session
    games = [
        msgspec.structs.replace(
            game,
            accepted=msgspec.structs.replace(
                game.accepted,
                colours=Colours(colour_of(n), colour_of(n)),
                colours_by="",
                ink=InkMode.EDGES,
                own_ink=True,
            ),
        )
        for n, game in enumerate(session.snapshot.games.values())
    ]
    session.keep_games("coloured", games)
    workshop.close()


def colour_of(number: int) -> str:
    return f"#{number % 20 * 12:02x}{number // 20 % 20 * 12:02x}{255 - number // 400 * 40:02x}"


def draw(folder: Path) -> None:
    """Draw a shelf, and print what it took."""
    workshop = open_workshop(folder, Clock())
    before = getrusage(RUSAGE_SELF).ru_maxrss
    start, cpu = perf_counter(), process_time()
    workshop.shelf.write(folder / "shelf.png")
    wall, cpu = perf_counter() - start, process_time() - cpu
    added = (getrusage(RUSAGE_SELF).ru_maxrss - before) / 1024
    print(f"{wall:.2f} s, {cpu:.2f} s of processor, {added:.0f} MB more;", end=" ")
    check(workshop, (folder / "shelf.png").read_bytes())
    workshop.close()


def check(workshop: Workshop, png: bytes) -> None:
    """Measure every edge on the picture."""
    image = Image.open(io.BytesIO(png))
    per_mm = image.info["dpi"][0] / 25.4
    seen = workshop.shelf._shelved({})
    laid: Laid = seen.laid()
    colours = {key: seen.stood(key).drawn.colours.base for key in seen.order}
    pixels = np.asarray(image.convert("RGB"))
    found = list(measured(pixels, laid, colours, per_mm))
    worst = max(
        abs(a - b) for one in found for a, b in zip(one.size, one.spot.item.size, strict=True)
    )
    order = [one.spot.item.game for one in sorted(found, key=lambda o: (o.spot.line, o.left))]
    right = "in order" if order == list(workshop.shelf.order()) else "OUT OF ORDER"
    print(f"{image.width} × {image.height} pixels, {len(found)} edges {right}, ", end="")
    print(f"off by {worst:.2f} mm at most, a pixel is {1 / per_mm:.2f} mm")


def main() -> None:
    if sys.argv[1:2] == ["--draw"]:
        draw(Path(sys.argv[2]))
        return
    for count in map(int, sys.argv[1:] or GAMES):
        with TemporaryDirectory() as place:
            folder = Path(place) / "shelf"
            make(folder, count)
            print(f"{count} games:", end=" ", flush=True)
            subprocess.run(
                [sys.executable, "-m", "tests.bench.shelf", "--draw", str(folder)], check=True
            )


if __name__ == "__main__":
    main()
