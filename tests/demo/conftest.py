from __future__ import annotations

from pathlib import Path

import pytest

from engine.demo import DemoInputs, make_demo_inputs


@pytest.fixture(scope="session")
def inputs(tmp_path_factory: pytest.TempPathFactory) -> DemoInputs:
    return make_demo_inputs(tmp_path_factory.mktemp("harbour"))


@pytest.fixture(scope="session")
def drawn(inputs: DemoInputs) -> dict[str, Path]:
    return {path.name: path for path in inputs.pictures_folder.iterdir()}
