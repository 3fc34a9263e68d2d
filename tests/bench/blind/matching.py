"""Whose picture is it: files named by a camera, and the names of a real folder."""

from __future__ import annotations

import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path
from random import Random

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
    workshop = trial.taken_in(folder / "camera shelf", listed, folder / "camera", read=False)
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
    sure = [title for title in owner if found[title].sure]
    return {
        "files named": name,
        "games": len(owner),
        "matched": len(matched),
        "rightly": len(right),
        "sure": len(sure),
        "sure and wrong": len(set(sure) - set(right)),
    }
