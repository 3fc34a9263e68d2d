from __future__ import annotations

from pathlib import Path

import pytest

from tests.press.making import photo


@pytest.fixture(scope="session")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return photo(tmp_path_factory.mktemp("pictures"))
