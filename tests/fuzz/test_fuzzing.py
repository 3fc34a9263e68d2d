"""A fixed, small share of the fuzzing; ``python -m tests.fuzz`` goes on as long as it is let."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from random import Random

import pytest

from tests.fuzz import attempts
from tests.fuzz.fuzzing import fuzzed
from tests.fuzz.mutating import mutated
from tests.fuzz.targets import kinds, lists


@pytest.mark.parametrize("target", ["pictures", "PDFs", "drawings", "fonts"])
def test_what_a_worker_opens_is_used_or_refused_in_a_sentence(target: str) -> None:
    counts: Counter[str] = Counter()
    wrong = list(fuzzed(target, range(6), counts))
    assert [found.words for found in wrong] == []
    assert counts.total() == 6


@pytest.mark.parametrize(
    ("seeds", "attempt", "suffix"),
    [(lists, attempts.games, ".csv"), (kinds, attempts.kind, ".toml")],
)
def test_what_the_program_reads_is_used_or_refused(seeds, attempt, suffix, tmp_path: Path) -> None:
    path = tmp_path / f"a-file{suffix}"
    for seed in range(15):
        path.write_bytes(mutated(seeds(), Random(seed)))
        said = ""
        try:
            wrong = attempt(str(path).encode(), seed)
        except attempts.SpineryError as error:
            wrong, said = "", str(error)
        assert wrong == ""
        assert "\n" not in said
