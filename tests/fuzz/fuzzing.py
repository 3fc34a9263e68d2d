"""Giving changed files to what opens them, and counting what comes of it."""

from __future__ import annotations

import os
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import NamedTuple

from engine.model.errors import PictureError
from engine.workers import Job, Pool, Reason
from engine.workers.limits import GIGABYTE, SECONDS, Limits
from tests.fuzz.mutating import mutated
from tests.fuzz.targets import TARGETS

LIMITS = Limits(SECONDS, GIGABYTE, answer=1_000_000)
"""The usual ones: what a person's own files may take is what a stranger's may."""

ALLOWED = {Reason.TIME, Reason.MEMORY, Reason.SIZE, Reason.CRASH}
"""How a worker may end that decodes what is native: the program says so in a sentence."""

IN_THE_PROGRAM = {"lists", "case kinds", "collections", "titles"}
"""What the program itself reads, so that not even its process may end."""

WHOLE = LIMITS._replace(memory=3 * GIGABYTE)
"""Of these: all libraries of the program together reserve more than they use."""


class Found(NamedTuple):
    """A file that was not used or refused as it should be."""

    target: str
    seed: int
    data: bytes
    words: str


def fuzzed(target: str, seeds: range, counts: Counter[str]) -> Iterator[Found]:
    """Yield what goes wrong with the files of these dice; add to ``counts`` how each ended."""
    suffix, good, attempt = TARGETS[target]
    limits = WHOLE if target in IN_THE_PROGRAM else LIMITS
    function = f"{attempt.__module__}:{attempt.__name__}"
    pool: Pool[str, PictureError] = Pool(Job(function, str, limits, _refused, _ended), most=1)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, f"a-file{suffix}")
        for seed in seeds:
            data = mutated(good(), Random(seed))
            path.write_bytes(data)
            try:
                words = pool.ask(path.name, os.fsencode(path), seed)
                counts["used" if not words else "traceback"] += 1
            except PictureError as error:
                words = _wrong(target, error)
                counts[error.where] += 1
            if words:
                yield Found(target, seed, data, words)
    pool.close()


def _refused(_: str, what: str, mend: str) -> PictureError:
    return PictureError("refused", what, mend)


def _ended(_: str, reason: Reason) -> PictureError:
    return PictureError(reason.name.lower(), reason)


def _wrong(target: str, error: PictureError) -> str:
    """Return what is wrong with how a file was refused; nothing where nothing is."""
    if error.where == "refused":
        return "" if error.what and "\n" not in str(error) else f"no sentence: {error!s}"
    reason = Reason(error.what)
    if reason in ALLOWED and not (target in IN_THE_PROGRAM and reason is not Reason.MEMORY):
        return ""
    return f"ended: {reason}"
