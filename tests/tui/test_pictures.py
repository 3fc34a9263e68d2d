"""The screens look as they did: each picture is drawn anew and compared."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.pictures import SCENES, SIZES, drawn, path_of
from tests.tui.shelf import Shelf


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCENES)
async def test_a_screen_looks_as_it_did(
    name: str, size: tuple[int, int], stages: Shelf, tmp_path: Path
) -> None:
    known = path_of(name, size).read_text(encoding="utf-8")
    now = await drawn(stages, name, size, tmp_path)
    assert now.splitlines() == known.splitlines(), "if it is meant: python -m tests.tui.pictures"
