"""Whose picture is it: files named by a camera, and the names of a real folder.

    python -m tests.bench.blind.matching [--seed WORD]

draws and matches only these: 60 covers called IMG_0001.jpg and so on in random order, taken in and
read as ``spinery intake`` does. About three minutes of processor time.
"""

from __future__ import annotations

import argparse
import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from engine import Workshop
from tests import corpus
from tests.bench.blind import covers, trial
from tests.bench.blind.truth import Cover

GAMES = 60


def camera_names(folder: Path, drawn: Sequence[Cover], seed: str) -> dict[str, object]:
    """Return how covers whose files are called IMG_0001 and so on are matched to their titles."""
    titled = [cover for cover in drawn if cover.title_lines][:GAMES]
    shuffled = Random(f"camera {seed}").sample(titled, len(titled))
    (folder / "camera").mkdir()
    owner = {}
    for number, cover in enumerate(shuffled, start=1):
        name = f"IMG_{number:04d}{Path(cover.file).suffix}"
        shutil.copy(folder / "covers" / cover.file, folder / "camera" / name)
        owner[cover.title] = name
    listed = covers.list_of(folder / "camera", titled)
    workshop = trial.taken_in(folder / "camera shelf", listed, folder / "camera")
    return _counted("IMG_0001.jpg", workshop, owner)


def real_names(folder: Path) -> dict[str, object]:
    """Return how the corpus's files, named as people name them, are matched."""
    built = corpus.build(folder / "corpus")
    workshop = trial.taken_in(folder / "corpus shelf", built.list_file, built.pictures, read=False)
    return _counted("people's names", workshop, {shot.title: shot.file for shot in built.shots})


def _counted(name: str, workshop: Workshop, owner: Mapping[str, str]) -> dict[str, object]:
    try:
        proposals = [workshop.designs.proposal(line.id) for line in workshop.games.lines()]
    finally:
        workshop.close()
    found = {one.title: one for one in proposals}
    matched = [title for title in owner if found[title].art.source is not None]
    right = [title for title in matched if found[title].art.source == owner[title]]
    threshold = workshop.setup.settings().threshold
    sure = [title for title in matched if found[title].art.confidence >= threshold]
    return {
        "files named": name,
        "games": len(owner),
        "matched": len(matched),
        "rightly": len(right),
        "sure": len(sure),
        "sure and wrong": len(set(sure) - set(right)),
    }


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.blind.matching")
    parser.add_argument("--seed", default="0", help="any word")
    asked = parser.parse_args()
    with TemporaryDirectory() as made:
        folder = Path(made)
        drawn = covers.write(folder, GAMES + 12, asked.seed, None, None)
        for row in (camera_names(folder, drawn, asked.seed), real_names(folder)):
            print(", ".join(f"{name} {value}" for name, value in row.items()))


if __name__ == "__main__":
    main()
