"""A collection held open beside another program, and mended: what the workshop makes of it."""

from __future__ import annotations

import shutil
from pathlib import Path

from engine import Workshop, open_workshop
from engine.cases.library import BUILT_IN
from tests.conftest import Clock


def test_what_the_other_program_wrote_is_read_before_going_on(
    stocked: Workshop, tmp_path: Path, clock: Clock
) -> None:
    second = open_workshop(tmp_path / "shelf", clock)
    assert not second.go_on()
    games = [line.id for line in stocked.games.lines()]
    stocked.designs.accept(games[:2])
    kind = stocked.folder / "cases" / "mine.toml"
    shutil.copy(BUILT_IN / "snap-shell.toml", kind)
    stocked.close()
    assert second.go_on()
    assert second.progress().stages["title set"] == 2
    assert "mine" in {line.id for line in second.kinds.lines()}
    assert second.undo() == "accepted Lantern Bay 1 and 1 more"
    second.close()


def test_a_page_that_is_gone_is_written_again_by_mending(stocked: Workshop) -> None:
    stocked.designs.accept([stocked.games.lines()[0].id])
    stocked.sheets.press(part_full=True)
    file = Path(stocked.sheets.sheet(1).file)
    page = file.read_bytes()
    file.unlink()
    stray = stocked.folder / "pictures" / "mine.png"
    stray.write_bytes(b"x")
    (found,) = [one for one in stocked.check().findings if one.where == str(file)]
    assert found.mends
    health = stocked.mend()
    assert health.ok
    assert health.mended == (
        "pictures/mine.png: moved to backups/pictures/mine.png.",
        "Sheet 1: its page is written again.",
    )
    assert file.read_bytes() == page
    assert (stocked.folder / "backups" / "pictures" / "mine.png").exists()
