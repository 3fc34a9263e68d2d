from __future__ import annotations

import os
from pathlib import Path

import pytest

from engine.collection import recent


def test_the_collection_last_opened_is_remembered(tmp_path: Path) -> None:
    assert recent.last_opened() is None
    for name in ("one", os.fsdecode(b"caf\xe9"), "three"):
        recent.remember(tmp_path / name)
        assert recent.last_opened() == (tmp_path / name).resolve()


def test_what_cannot_be_noted_holds_nobody_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "file"))
    recent.remember(tmp_path)
    assert recent.last_opened() is None
