"""Control-C at the command line: a sentence, exit code 130, nothing lost."""

from __future__ import annotations

import pytest

from engine.collection.newfiles import NewFiles
from tests.tui.conftest import Said
from tui.__main__ import main


def test_a_pressing_interrupted_presses_nothing(say: Said, monkeypatch: pytest.MonkeyPatch) -> None:
    """130 is 128 and the number of SIGINT: bash manual, 'Exit Status'."""
    say("propose", "--accept")
    before, sheets = say("progress"), say.json("sheets")
    written = []
    real = NewFiles.sheet_page

    def interrupted(files: NewFiles, number: int, page: bytes) -> None:
        real(files, number, page)
        written.append(say.folder / "sheets" / f"sheet-{number:04}.pdf")
        assert written[-1].is_file()
        raise KeyboardInterrupt

    monkeypatch.setattr(NewFiles, "sheet_page", interrupted)
    said = say("press", "--part-full", "--cut-page", code=130)
    assert said == "Stopped. What was done before is kept.\n"
    monkeypatch.setattr(NewFiles, "sheet_page", real)
    assert written
    assert not list((say.folder / "sheets").glob("*.pdf"))
    assert say("progress") == before
    assert say.json("sheets") == sheets
    assert say("check") == "All is well.\n"


def test_an_interrupt_before_any_work_is_told_as_well(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def interrupted(_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("tui.cli.dispatch.run", interrupted)
    with pytest.raises(SystemExit) as left:
        main(["sheets"])
    assert left.value.code == 130
    assert capsys.readouterr().err == "Stopped. What was done before is kept.\n"
