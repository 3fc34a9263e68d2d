"""What pressing takes: python -m tests.bench.press [PICTURES] [--kind KIND].

Makes a collection of so many games (900 if not said), each with a JPEG of 12 million pixels of its
own name, all accepted, and presses everything in a fresh process; then as much as goes on ten
sheets in another. Told are processor and wall time, what the same pictures take that are only
decoded at draft size and resized once with Pillow in two processes (the floor), and the peak of
memory: the program's own and that of its largest worker.
"""

import os
import resource
import subprocess
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any

import msgspec

from engine import open_workshop
from engine.cases import Role, flatten, load_kinds
from engine.collection import Collection
from engine.model import Game, Match, Picture
from engine.service import sheets

BEGUN = datetime(2026, 1, 1, tzinfo=UTC)
WIDTH, HEIGHT = 3000, 4000
LOOKS = 6
"""Different pictures; the rest are those under other names, so that none is drawn only once."""


class Took(msgspec.Struct):
    """What a run of its own took."""

    sheets: int
    wall: float
    """Seconds."""
    cpu: float
    """Seconds of processor time, workers included."""
    ganging: float
    """Seconds of the wall time in which layouts are looked for."""
    memory: int
    """Bytes at the peak: the program's own."""
    worker: int
    """Bytes at the peak of the largest worker."""
    size: int
    """Bytes of all pages."""


def main() -> None:
    """Print what pressing takes beside its floor."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("pictures", nargs="?", type=int, default=900)
    parser.add_argument("--kind", default="snap-shell")
    parser.add_argument("--run", type=Path, help="press this collection here and tell in JSON")
    asked = parser.parse_args()
    if asked.run:
        sys.stdout.buffer.write(msgspec.json.encode(pressed(asked.run)))
        return
    with TemporaryDirectory() as place:
        looks = list(_looks(Path(place)))
        few = _run(_made(Path(place) / "few", looks, asked.pictures // 10, asked.kind))
        many = _run(_made(Path(place) / "many", looks, asked.pictures, asked.kind))
        paths = sorted((Path(place) / "many" / "pictures").glob("*.jpg"))
        floor, floor_cpu = _floor(paths, _needed(asked.kind))
    for one in (few, many):
        print(
            f"{one.sheets} sheets: {one.wall:.1f} s, of which ganging {one.ganging:.1f} s; "
            f"{one.cpu:.1f} s of processor time; {one.memory / 1e6:.0f} MB, a worker "
            f"{one.worker / 1e6:.0f} MB; pages {one.size / 1e6:.0f} MB"
        )
    print(f"floor: {floor:.1f} s, {floor_cpu:.1f} s of processor time")
    print(f"{(many.wall - many.ganging) / floor:.2f} of the floor without the ganging")
    print(f"{many.wall / floor:.2f} of the floor with it")
    print(f"{(many.cpu - many.ganging) / floor_cpu:.2f} of its processor time without it")
    both = [one.memory + 2 * one.worker for one in (few, many)]
    print(f"{both[1] / both[0]:.2f} of the memory")


def pressed(folder: Path) -> Took:
    """Press all of a collection; return what it took."""
    for name in ("_all_that_waits", "_paper_left"):
        _timed(sheets, name)
    shop = open_workshop(folder)
    start, used = perf_counter(), _cpu()
    report = shop.sheets.press(part_full=True)
    wall = perf_counter() - start
    ganging = sum(_GANGING)
    shop.close()
    _end_workers()
    status = Path("/proc/self/status").read_text(encoding="ascii")
    own = int(status.split("VmHWM:")[1].split()[0])  # what rusage says counts the parent too
    files = [Path(sheet.file) for sheet in report.sheets if sheet.file]
    return Took(
        sheets=len(report.sheets),
        wall=wall,
        cpu=_cpu() - used,
        ganging=ganging,
        memory=own * 1024,
        worker=resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * 1024,
        size=sum(path.stat().st_size for path in files),
    )


_GANGING: list[float] = []
"""Seconds of each call that looks for layouts, which this bench does not speak of."""


def _timed(module: Any, name: str) -> None:
    """Have every call of a function count as ganging."""
    plain = getattr(module, name)

    def timed(*given: Any, **named: Any) -> Any:
        start = perf_counter()
        try:
            return plain(*given, **named)
        finally:
            _GANGING.append(perf_counter() - start)

    setattr(module, name, timed)


def _end_workers() -> None:
    """End the workers, so that the system counts what they took."""
    import gc

    from engine.workers import Pool

    for thing in gc.get_objects():
        if isinstance(thing, Pool):
            thing.close()


def _cpu() -> float:
    usages = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(usage.ru_utime + usage.ru_stime for usage in usages)


def _run(folder: Path) -> Took:
    command = [sys.executable, "-m", "tests.bench.press", "--run", str(folder)]
    done = subprocess.run(command, check=True, stdout=subprocess.PIPE)
    return msgspec.json.decode(done.stdout, type=Took)


def _floor(paths: list[Path], size: tuple[int, int]) -> tuple[float, float]:
    """Return the seconds and the processor time of two processes that do the least there is."""
    command = [sys.executable, "-m", "tests.bench.press.floor", *map(str, size)]
    start, used = perf_counter(), _cpu()
    halves = [subprocess.Popen(command, stdin=subprocess.PIPE, text=True) for _ in range(2)]
    for half, process in enumerate(halves):
        assert process.stdin is not None
        process.stdin.write("\n".join(map(str, paths[half::2])))
        process.stdin.close()
    for process in halves:
        if process.wait():
            raise RuntimeError("a process of the floor failed")
    return perf_counter() - start, _cpu() - used


def _needed(kind: str) -> tuple[int, int]:
    """Return how many pixels the art of a kind has at 300 to the inch, its bleed included."""
    net = flatten(load_kinds()[kind], 0.25)
    art = next(panel for panel in net.panels if panel.role is Role.ART)
    wide, tall = (300 / 25.4 * (side + 2) for side in art.reading)
    per = max(wide / WIDTH, tall / HEIGHT)  # the panel is filled
    return round(WIDTH * per), round(HEIGHT * per)


def _looks(folder: Path) -> Iterator[bytes]:
    """Give JPEGs of photographs with the grain of a camera."""
    import numpy as np
    from PIL import Image
    from skimage import data

    grain = np.random.default_rng(0)
    names = ("astronaut", "chelsea", "coffee", "rocket", "retina", "immunohistochemistry")
    for name in names[:LOOKS]:
        photo = Image.fromarray(getattr(data, name)()).convert("RGB").resize((WIDTH, HEIGHT))
        noise = grain.normal(0, 5, (HEIGHT, WIDTH, 1))
        pixels = np.clip(np.asarray(photo) + noise, 0, 255).astype(np.uint8)
        file = BytesIO()
        Image.fromarray(pixels).save(file, "JPEG", quality=88)
        yield file.getvalue()


def _made(folder: Path, looks: list[bytes], count: int, kind: str) -> Path:
    """Make a collection of ``count`` games with a picture each, all accepted."""
    clock = iter(BEGUN + timedelta(seconds=n) for n in range(10**6))
    collection = Collection.open(folder, now=lambda: next(clock))
    sources = []
    for n, data in enumerate(looks):
        sources.append(folder / "pictures" / f"source-{n}")
        sources[-1].write_bytes(data)
    games, pictures = [], []
    for n in range(count):
        name = f"{n:020x}.jpg"
        os.link(sources[n % len(sources)], folder / "pictures" / name)
        pictures.append(Picture(name=name, source=name, width=WIDTH, height=HEIGHT, side="#335577"))
        games.append(
            Game(
                id=f"game-{n}",
                title=f"The Long Ferry {n}",
                added_at=BEGUN,
                case=kind,
                match=Match(name, 0.97),
            )
        )
    for source in sources:
        source.unlink()
    collection.record("made", games=games, pictures=pictures)
    collection.close()
    shop = open_workshop(folder, lambda: next(clock))
    shop.designs.accept([game.id for game in games])
    shop.close()
    return folder


if __name__ == "__main__":
    main()
