"""The terminal program opened, left for a backup, and opened again."""

from __future__ import annotations

import pytest

from engine import copies, open_workshop
from tests.tui.conftest import Said
from tui.app import SpineryApp
from tui.cli.opening import show


def test_going_back_opens_the_collection_again_as_it_was(
    say: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    open_workshop(say.folder).close()
    newest = copies(say.folder)[0].name
    seen = []

    def ran(app: SpineryApp) -> None:
        seen.append(len(app.work._workshop.games.lines()))
        if len(seen) == 1:
            app.work._workshop.games.add(title="Copper Reef")
            app.back_to = newest

    monkeypatch.setattr(SpineryApp, "run", ran)
    assert show(say.folder) == 0
    assert seen == [12, 12]
    assert f"Went back to {newest}, with 12 games." in say.capsys.readouterr().err
    assert any(one.aside and one.games == 13 for one in copies(say.folder))
