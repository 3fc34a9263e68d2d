from __future__ import annotations

from pathlib import Path

import pytest

from engine.demo import DemoInputs, covers, harbour, make_demo_inputs

HALF = tuple(
    cover
    if cover.finish == "screen"
    else cover._replace(width=cover.width // 2, height=cover.height // 2)
    for cover in harbour.covers()
)
"""The covers of the shelf at half their size, little screens apart."""


@pytest.fixture(scope="session")
def inputs(tmp_path_factory: pytest.TempPathFactory) -> DemoInputs:
    """The shelf's list and pictures, drawn small and without smoothing: a sixteenth of the work."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(harbour, "covers", lambda: HALF)
        patch.setattr(covers, "_oversample", lambda width, height: 1)
        return make_demo_inputs(tmp_path_factory.mktemp("harbour"))


@pytest.fixture(scope="session")
def drawn(inputs: DemoInputs) -> dict[str, Path]:
    return {path.name: path for path in inputs.pictures_folder.iterdir()}
