"""No test of keys waits for a cursor to come to rest."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def no_pause(monkeypatch: pytest.MonkeyPatch) -> None:
    """Draw proofs and read decisions at once."""
    monkeypatch.setattr("tui.screens.bench.PROOF_PAUSE", 0.0)
    monkeypatch.setattr("tui.screens.backlog.DETAIL_PAUSE", 0.0)
