"""What reading pictures takes, and how soon a large intake can be worked on.

    python -m tests.bench.reading [--pictures N] [--read N]

Takes in N photographs (400 unless said), opens the collection anew as ``spinery FOLDER`` does,
and proposes a first batch: the program is usable then, and reading goes on beside. Then some (20)
are read, each 1500 pixels long with a title drawn on it, and the rest is left. The largest other
process is the worker that reads. Where others work on the machine too, processor time says more
than the clock.
"""

from __future__ import annotations

import argparse
import resource
import tempfile
from contextlib import suppress
from pathlib import Path
from time import perf_counter

from PIL import ImageDraw, ImageFont

from engine import Cancelled, Workshop, open_workshop, reading
from engine.artwork import inspecting
from engine.lettering.fonts import default_font
from engine.reading import reader
from tests.bench.intake import DIFFERENT, timed
from tests.corpus.photographs import photograph

SIZE = (1100, 1500)
BATCH = 5


def write(folder: Path, count: int) -> tuple[Path, Path]:
    """Write covers that a camera named, and the list of their titles."""
    font = ImageFont.truetype(default_font().path, 120)
    (folder / "covers").mkdir()
    titles = [f"Copper Kite {n}" for n in range(1, count + 1)]
    for number, title in enumerate(titles):
        cover = photograph(number % DIFFERENT).convert("RGB").resize(SIZE)
        ImageDraw.Draw(cover).text((60, 90), title, "white", font, stroke_width=4, stroke_fill=0)
        cover.save(folder / "covers" / f"IMG_{number:04d}.jpg", quality=88)
    listed = folder / "list.txt"
    listed.write_text("\n".join(titles) + "\n", encoding="utf-8")
    return listed, folder / "covers"


def take_in(workshop: Workshop, listed: Path, covers: Path) -> None:
    """Take pictures in and end the workers that looked at them, so that their time counts."""
    workshop.games.intake(listed, covers)
    inspecting._looking().close()


def opened(folder: Path) -> None:
    """Open a collection as far as a first batch is looked at."""
    workshop = open_workshop(folder)
    lines = workshop.games.lines()
    workshop.designs.proposals([line.id for line in lines[:BATCH]])
    workshop.readings.report()
    workshop.close()


def read(folder: Path, count: int) -> None:
    """Read so many pictures and end the worker, so that its time counts."""
    workshop = open_workshop(folder)
    begun = workshop.readings.report().read
    with suppress(Cancelled):
        workshop.readings.read(cancel=lambda: workshop.readings.report().read - begun >= count)
    done = workshop.readings.report().read - begun
    workshop.close()
    reader._readers().close()
    print(f"{done} pictures read")


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.reading")
    parser.add_argument("--pictures", type=int, default=400, metavar="N")
    parser.add_argument("--read", type=int, default=20, metavar="N")
    asked = parser.parse_args()
    if not reading.can_read():
        parser.error("what reads is not installed: pip install 'spinery[reading]'")
    with tempfile.TemporaryDirectory() as made:
        listed, covers = write(Path(made), asked.pictures)
        shelf = Path(made) / "shelf"
        workshop = open_workshop(shelf)
        print(f"taken in: {timed(lambda: take_in(workshop, listed, covers))}")
        workshop.close()
        print(f"opened, a first batch proposed: {timed(lambda: opened(shelf))}")
        before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        start = perf_counter()
        print(f"read: {timed(lambda: read(shelf, asked.read))}")
        print(f"a picture: {(perf_counter() - start) / asked.read:.2f} s, the start with it")
        worker = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        print(f"the largest worker that looks {before:.0f} MB, that reads {worker:.0f} MB")


if __name__ == "__main__":
    main()
