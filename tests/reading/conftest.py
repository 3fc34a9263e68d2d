from __future__ import annotations

import pytest

from engine.reading.reader import NEEDED


@pytest.fixture(scope="session", autouse=True)
def reader() -> None:
    """Skip only where the extra ``reading`` is missing: the suite installs it."""
    for name in NEEDED:
        pytest.importorskip(name)
