"""Workers start however the program was started, and it ends however they are."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

ROOT = Path(__file__).resolve().parents[2]

LOOK = """
from pathlib import Path
from engine.artwork import inspect_all

def look(path):
    return [picture.side for _, picture in inspect_all({"a.png": Path(path)})]
"""

IN_A_SCREEN = """
from textual.app import App

class Screen(App[list[str]]):
    def on_mount(self) -> None:
        self.run_worker(self.look, thread=True)

    def look(self) -> None:
        found = look(PATH)
        self.call_from_thread(self.exit, found)

print(Screen().run(headless=True))
"""
"""Textual takes standard error away, which Python's own pools of processes do not bear."""


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "a.png"
    Image.new("RGB", (40, 40), "#2c7a3c").save(path)
    return path


def ran(arguments: list[str], text: str = "") -> str:
    done = subprocess.run(
        [sys.executable, *arguments],
        input=text, capture_output=True, text=True, check=True, cwd=ROOT,
    )  # fmt: skip
    assert done.stderr == ""
    return done.stdout.strip()


def test_from_a_program_read_from_standard_input(picture: Path) -> None:
    """Such a program has no file that a child could read again."""
    assert ran(["-"], f"{LOOK}\nprint(look({str(picture)!r}))") == "['#2c7a3c']"


def test_from_a_program_without_a_guard_around_what_it_does(picture: Path, tmp_path: Path) -> None:
    script = tmp_path / "bare.py"
    script.write_text(
        f"import sys\nsys.path.insert(0, {str(ROOT)!r})\n{LOOK}\nprint(look({str(picture)!r}))"
    )
    assert ran([str(script)]) == "['#2c7a3c']"


def test_from_within_a_terminal_program(picture: Path) -> None:
    screen = IN_A_SCREEN.replace("PATH", repr(str(picture)))
    assert "['#2c7a3c']" in ran(["-"], f"{LOOK}\n{screen}")


@pytest.mark.parametrize("start", [["-m", "tui"], ["-c", "from tui.__main__ import main; main()"]])
def test_from_the_command_line(start: list[str], picture: Path, tmp_path: Path) -> None:
    """As ``python -m tui``, and as the script that an installer makes of ``spinery``."""
    games = tmp_path / "games.txt"
    games.write_text("A\n", encoding="utf-8")
    asked = ["intake", str(games), "--no-reading", "--pictures", str(picture.parent)]
    assert "1 game" in ran([*start, *asked, "--collection", str(tmp_path / "shelf")])
