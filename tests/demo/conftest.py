from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.demo import DemoInputs, covers, make_demo_inputs


@pytest.fixture(scope="session", autouse=True)
def roughly_drawn() -> Iterator[None]:
    """Draw covers without smoothing: a quarter of the work, the same files otherwise."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(covers, "_oversample", lambda width, height: 1)
        yield


@pytest.fixture(scope="session")
def inputs(tmp_path_factory: pytest.TempPathFactory) -> DemoInputs:
    return make_demo_inputs(tmp_path_factory.mktemp("harbour"))


@pytest.fixture(scope="session")
def drawn(inputs: DemoInputs) -> dict[str, Path]:
    return {path.name: path for path in inputs.pictures_folder.iterdir()}
