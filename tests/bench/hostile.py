"""What the hostile files of the corpus cost the real program: seconds, memory, and what it says.

    python -m tests.bench.hostile [WHAT ...]

Each file is taken in as the art of a game by the command line, and what is taken in is proposed,
proofed and pressed. Memory is what all processes of a command hold at a time, looked at fifty times
a second (Linux).
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from time import monotonic, sleep
from typing import NamedTuple

from tests.corpus.hostile import LISTS, PICTURES, write

MOST_SECONDS = 300.0


class Cost(NamedTuple):
    """What a command took."""

    code: int | None
    """None where it had to be ended."""
    seconds: float
    megabytes: float
    """Of the largest process."""
    said: str


def spinery(*arguments: str, where: Path) -> Cost:
    """Run a command of the program in a folder."""
    began, most = monotonic(), 0.0
    with tempfile.TemporaryFile("w+") as words:
        process = subprocess.Popen(
            [sys.executable, "-m", "tui", *arguments],
            stdin=subprocess.DEVNULL,
            stdout=words,
            stderr=words,
            cwd=where,
            env={**os.environ, "PYTHONPATH": str(Path.cwd()), "HOME": str(where)},
            start_new_session=True,
        )
        while process.poll() is None and monotonic() - began < MOST_SECONDS:
            most = max([most, *held(process.pid)])
            sleep(0.02)
        code = process.poll()
        if code is None:
            os.killpg(process.pid, 9)
            process.wait()
        words.seek(0)
        return Cost(code, monotonic() - began, most, words.read().strip())


def held(session: int) -> list[float]:
    """Return what each process of a session holds in memory, in MB."""
    found = []
    for folder in Path("/proc").iterdir():
        if not folder.name.isdigit():
            continue
        try:
            state = (folder / "stat").read_text().rpartition(")")[2].split()
            if int(state[3]) == session:
                found.append(int(state[21]) * os.sysconf("SC_PAGE_SIZE") / 1e6)
        except (OSError, IndexError):
            continue
    return found


def told(what: str, step: str, cost: Cost) -> bool:
    """Print what a command took; return whether it ended as it should."""
    words = cost.said.splitlines()
    fine = cost.code in {0, 1, 2} and "Traceback" not in cost.said
    sentence = words[-1][-110:] if words else ""
    print(
        f"{'' if fine else 'BAD '}{what:<28} {step:<8} {cost.code!s:>4} {cost.seconds:6.1f} s"
        f" {cost.megabytes:6.0f} MB  {sentence}",
        flush=True,
    )
    return fine


def art(what: str, file: Path, work: Path) -> list[bool]:
    """Take a file in as the art of the one game of a collection, and print it."""
    (work / "list.csv").write_text(f"title\n{file.stem}\n", encoding="utf-8")
    cost = spinery(
        "intake", "list.csv", "--pictures", str(file.parent), "--collection", "shelf", where=work
    )
    fine = [told(what, "intake", cost)]
    if cost.code == 0:
        for step in (
            ("propose", "--accept"),
            ("proof", file.stem, "--out", "proof.png"),
            ("proof", file.stem, "--out", "folded.png", "--folded"),
            ("press", "--part-full"),
        ):
            cost = spinery(*step, "--collection", "shelf", where=work)
            fine.append(told(what, step[0], cost))
    return fine


def main() -> None:
    """Run all, or what is named."""
    wanted = sys.argv[1:]
    fine: list[bool] = []
    for what, file in {**PICTURES, **LISTS}.items():
        if wanted and what not in wanted:
            continue
        with tempfile.TemporaryDirectory() as folder:
            (path,) = write(Path(folder) / "files", {what: file}).values()
            if what in PICTURES:
                fine += art(what, path, Path(folder))
            else:
                cost = spinery("intake", str(path), "--collection", "shelf", where=Path(folder))
                fine.append(told(what, "intake", cost))
    print(f"{len(fine)} commands, {fine.count(False)} not as they should be")


if __name__ == "__main__":
    main()
