"""Names as people give them: the corpus's sixty, and sixty more with what files add to them."""

from __future__ import annotations

import csv
from pathlib import Path

from engine.intake import match_pictures

SURE = 0.85
CORPUS = Path(__file__).parents[1] / "corpus" / "names.csv"
HELD_OUT = Path(__file__).parent / "held_out.csv"


def matched(path: Path, suffix: str) -> tuple[int, list[str], int, set[str]]:
    """Return how many titles a file has, those matched rightly, how many are sure, the wrong."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    files = {row["title"]: row["stem"] + suffix for row in rows}
    found = match_pictures({title: title for title in files}, sorted(files.values()))
    right = [title for title, one in found.items() if one.file == files[title]]
    sure = {title for title, one in found.items() if one.confidence >= SURE}
    return len(rows), right, len(sure), sure - set(right)


def test_the_corpus() -> None:
    rows, right, sure, wrong = matched(CORPUS, ".png")
    assert (rows, len(right), wrong) == (60, 60, set())
    assert sure >= 58


def test_the_held_out_list() -> None:
    rows, right, sure, wrong = matched(HELD_OUT, ".jpg")
    assert (rows, len(right), wrong) == (60, 60, set())
    assert sure >= 58
