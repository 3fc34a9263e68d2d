"""How long taking in pictures and names takes, and what the colours of groups cost.

    python -m tests.bench.intake [--pictures N]

Pictures are photographs of the corpus at 12 megapixels and at 0.3, as JPEG; what is timed is
``unpack``, which opens every one of them, and what is told of memory is the largest process. Where
others work on the machine too, processor time says more than the clock.
Names are ten thousand titles in series, each with a file that is called a little otherwise.
"""

from __future__ import annotations

import argparse
import os
import random
import resource
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import NamedTuple

import numpy as np
from PIL import Image

from engine import unpack
from engine.artwork import inspecting
from engine.colours import Group, choose_colours
from engine.colours.arrays import ciede2000
from engine.intake import match_pictures
from engine.intake.assignment import assign
from tests.corpus.photographs import photograph

LARGE, SMALL = (4000, 3000), (640, 480)
DIFFERENT = 60
"""Photographs the corpus has."""


class Taken(NamedTuple):
    """What some work took, in seconds."""

    clock: float
    processor: float

    def __str__(self) -> str:
        return f"{self.clock:.2f} s ({self.processor:.2f} s of processor time)"


def timed(work: Callable[[], object]) -> Taken:
    """Return what ``work`` took, the processes that it started and ended included."""
    start, before = perf_counter(), sum(os.times()[:4])
    work()
    return Taken(perf_counter() - start, sum(os.times()[:4]) - before)


def folder_of(folder: Path, count: int, size: tuple[int, int]) -> Path:
    folder.mkdir()
    for number in range(count):
        picture = photograph(number % DIFFERENT).resize(size, Image.Resampling.BICUBIC)
        picture.save(folder / f"{number}.jpg", quality=85 + number // DIFFERENT)
    return folder


def unpacked(list_file: Path, folder: Path) -> None:
    """Look at the pictures of a folder, and end the workers so that their time counts."""
    unpack(list_file, folder)
    inspecting._looking().close()


def pictures(count: int) -> None:
    with tempfile.TemporaryDirectory() as made:
        work = Path(made)
        (work / "list.txt").write_text("Oyster Clock\n", encoding="utf-8")
        for name, size in (("small", SMALL), ("large", LARGE)):
            folder = folder_of(work / name, count, size)
            some = folder_of(work / f"one {name}", 1, size)
            one = timed(lambda some=some: unpacked(work / "list.txt", some))
            seconds = timed(lambda folder=folder: unpacked(work / "list.txt", folder))
            megapixels = size[0] * size[1] / 1e6
            print(f"1 picture of {megapixels:.1f} MP: {one}; {count}: {seconds}")
    own, children = (
        resource.getrusage(who).ru_maxrss / 1024
        for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    print(f"most memory: this process {own:.0f} MB, the largest other {children:.0f} MB")


def names(count: int) -> None:
    dice = random.Random(7)
    words = [
        "".join(dice.choice(("ba", "do", "ri", "lum", "ten", "sa", "ko")) for _ in range(3))
        for _ in range(count // 8)
    ]
    stems = [" ".join(dice.sample(words, dice.choice((2, 3)))) for _ in range(count // 4)]
    titles = [f"{stem} {number}" for stem in stems for number in range(1, 5)]
    files = [f"{title.lower().replace(' ', '_')} (Europe).jpg" for title in titles]
    listed = {str(place): title for place, title in enumerate(titles)}
    print(f"{count} titles with {count} files: {timed(lambda: match_pictures(listed, files))}")
    doubled = [f"{'the ' if twice else ''}{stem} cover.jpg" for stem in stems for twice in (0, 1)]
    asked = {f"{stem}{i}": f"{stem}{' the' * i}" for stem in stems for i in (0, 1)}
    seconds = timed(lambda: match_pictures(asked, doubled))
    print(f"{len(asked)} titles of which every two want the same files: {seconds}")
    scores = {
        title: {dice.randrange(count): dice.uniform(0.5, 1.0) for _ in range(5)}
        for title in range(count)
    }
    print(f"{count} titles that want 5 of {count} files each: {timed(lambda: assign(scores))}")


def colours() -> None:
    lab = np.random.default_rng(1).uniform((0, -80, -80), (100, 80, 80), (1000, 3))
    ciede2000(lab[:2, None], lab[None, :2])
    seconds = min(timed(lambda: ciede2000(lab[:, None], lab[None, :])) for _ in range(3))
    print(f"CIEDE2000 of a million pairs: {seconds}")
    for count in (12, 26):
        groups = [Group(f"series {number}") for number in range(count)]
        print(f"colours of {count} groups: {timed(lambda g=groups: choose_colours(g))}")


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--pictures", type=int, default=100)
    asked.add_argument("--only", choices=("pictures", "names", "colours"))
    options = asked.parse_args()
    if options.only in {None, "pictures"}:
        pictures(options.pictures)
    if options.only in {None, "names"}:
        names(10_000)
    if options.only in {None, "colours"}:
        colours()


if __name__ == "__main__":
    main()
