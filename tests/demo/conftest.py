"""The demo, made once for all that look at it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from engine import Workshop
from engine.demo import make_demo


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    workshop = make_demo(tmp_path_factory.mktemp("demo") / "new")
    yield workshop
    workshop.close()
