from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

Saves = Callable[..., Path]


@pytest.fixture
def saves(tmp_path: Path) -> Saves:
    """Writes a list and returns its path."""

    def save(content: str | bytes, name: str = "list.csv", encoding: str = "utf-8") -> Path:
        path = tmp_path / name
        path.write_bytes(content.encode(encoding) if isinstance(content, str) else content)
        return path

    return save
