"""Set up and run Spinery from a checkout: python3 dev.py demo | test | check | run [...] | pins.

Uses nothing but Python's standard library, since it runs before anything is installed. With
SPINERY_PINNED set, as CI sets it, the versions of constraints.txt are installed.
"""

from __future__ import annotations

import os
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
EXTRAS = {
    "demo": "[reading]",
    "run": "[reading]",
    "test": "[test]",
    "check": "[test,dev]",
    "pins": "[test,dev]",
}
CONSTRAINTS = ROOT / "constraints.txt"


def install(extras: str) -> None:
    """Make the virtual environment if there is none, and install into it what is missing."""
    mark = VENV / f".installed{extras}"
    if mark.exists() and mark.stat().st_mtime >= (ROOT / "pyproject.toml").stat().st_mtime:
        return
    print("Setting up in .venv: this takes a minute the first time.", flush=True)
    if not VENV.exists():
        venv.create(VENV, with_pip=True)
    pinned = ["--constraint", str(CONSTRAINTS)] if os.environ.get("SPINERY_PINNED") else []
    run("python", "-m", "pip", "install", "--quiet", *pinned, "--editable", f"{ROOT}{extras}")
    mark.touch()


def run(program: str, *arguments: str) -> None:
    """Run a program of the virtual environment; stop with its exit code if it fails."""
    done = subprocess.run([str(BIN / program), *arguments], check=False)
    if done.returncode:
        sys.exit(done.returncode)


def pin() -> None:
    """Write the versions that are installed into constraints.txt, under the words at its head."""
    freeze = [str(BIN / "python"), "-m", "pip", "freeze", "--exclude-editable"]
    found = subprocess.run(freeze, check=True, capture_output=True, text=True).stdout
    lines = CONSTRAINTS.read_text(encoding="utf-8").splitlines(keepends=True)
    words = "".join(line for line in lines if line.startswith("#"))
    CONSTRAINTS.write_text(words + found, encoding="utf-8")


def main(arguments: list[str]) -> None:
    """Do what the first argument says with the rest."""
    if sys.version_info < (3, 11):
        sys.exit("Spinery needs Python 3.11 or newer: run this with python3.11 or a later one.")
    task, rest = (arguments[0], arguments[1:]) if arguments else ("", [])
    if task not in EXTRAS:
        sys.exit(__doc__)
    install(EXTRAS[task])
    if task in {"demo", "run"}:
        run("spinery", *(["demo"] if task == "demo" else []), *rest)
        return
    if task == "pins":
        pin()
        return
    os.chdir(ROOT)
    if task == "test":
        run("python", "-m", "pytest", "-n", "auto", *rest)
    else:
        run("ruff", "check")
        run("ruff", "format", "--check")
        run("mypy")
        run("lint-imports")


if __name__ == "__main__":
    main(sys.argv[1:])
