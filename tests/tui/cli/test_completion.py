"""What shells complete, asked of the shells themselves where they are installed."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from tests.tui.conftest import Said


def script(say: Said, shell: str, folder: Path) -> Path:
    path = folder / f"completion.{shell}"
    path.write_text(say.json("completion", shell)["script"], encoding="utf-8")
    return path


def completed(shell: str, commands: str) -> set[str]:
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not installed")
    argv = [shell, *(["--norc"] if shell == "bash" else []), "-c", commands]
    said = subprocess.run(argv, capture_output=True, text=True, check=True)
    return {line.partition("\t")[0] for line in said.stdout.splitlines()}


def test_bash_completes_commands_and_options(say: Said, tmp_path: Path) -> None:
    file = script(say, "bash", tmp_path)
    asked = (
        f"source {file}; COMP_WORDS=(spinery {{}}); COMP_CWORD={{}}; "
        '_shtab_spinery; printf "%s\\n" "${{COMPREPLY[@]}}"'
    )
    assert completed("bash", asked.format("pro", 1)) >= {"progress", "propose", "proof"}
    assert "--part-full" in completed("bash", asked.format("press --pa", 2))
    assert completed("bash", asked.format("completion z", 2)) == {"zsh"}


def test_fish_completes_commands_and_options(say: Said, tmp_path: Path) -> None:
    file = script(say, "fish", tmp_path)
    found = completed("fish", f"source {file}; complete -C 'spinery hi'; complete -C 'spinery re'")
    assert found == {"history", "read", "redo", "restore"}


def test_zsh_takes_what_is_written_for_it(say: Said, tmp_path: Path) -> None:
    file = script(say, "zsh", tmp_path)
    assert file.read_text(encoding="utf-8").startswith("#compdef spinery")
    assert completed("zsh", f"zsh -n {file} && echo taken") == {"taken"}
