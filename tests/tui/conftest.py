"""No test of keys waits for a cursor to come to rest; commands are run on a made collection."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tui.cli.dispatch import run


@pytest.fixture(autouse=True)
def no_pause(monkeypatch: pytest.MonkeyPatch) -> None:
    """Draw proofs and read decisions at once."""
    monkeypatch.setattr("tui.screens.bench.PROOF_PAUSE", 0.0)
    monkeypatch.setattr("tui.screens.deciding.ART_PAUSE", 0.0)
    monkeypatch.setattr("tui.screens.deciding.INK_PAUSE", 0.0)
    monkeypatch.setattr("tui.screens.backlog.DETAIL_PAUSE", 0.0)
    monkeypatch.setattr("tui.screens.setup.KIND_REST", 0.0)
    monkeypatch.setattr("tui.screens.setup.DRAFT_REST", 0.0)


@pytest.fixture
def shelf(made: Path, tmp_path: Path) -> Path:
    """A collection of twelve games."""
    return Path(shutil.copytree(made / "shelf", tmp_path / "shelf"))


class Said:
    """Runs commands on one collection and reads what they print."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self.capsys = capsys

    def __call__(self, *arguments: str, code: int = 0) -> str:
        assert run([*arguments, "--collection", str(self.folder)]) == code
        read = self.capsys.readouterr()
        return read.err if code and not read.out else read.out

    def json(self, *arguments: str, code: int = 0) -> dict:
        return json.loads(self(*arguments, "--json", code=code))


@pytest.fixture
def say(shelf: Path, capsys: pytest.CaptureFixture[str]) -> Said:
    return Said(shelf, capsys)
