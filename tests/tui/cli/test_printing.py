"""``spinery press --print``: what is told while a sheet is at the printer."""

from __future__ import annotations

import pytest

from engine.model.errors import PrinterError
from engine.press import printers
from tests.tui.conftest import Said
from tui.cli.dispatch import run


def test_what_the_printer_says_is_told_at_once_and_not_lost_on_an_error(
    say: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[str] = []

    def follow(job: str, printer: str, tell, cancel=None) -> None:
        seen.append(say.capsys.readouterr().err)
        tell("tray 2 is open")
        seen.append(say.capsys.readouterr().err)
        raise PrinterError(job, "was not printed: it was cancelled", "Print again")

    monkeypatch.setattr(printers, "send", lambda *given: f"{given[2]}-1")
    monkeypatch.setattr(printers, "follow", follow)
    say("propose", "--accept")
    say.capsys.readouterr()
    asked = ["press", "--part-full", "--print", "hall", "--reverse", "long"]
    assert run([*asked, "--collection", str(say.folder)]) == 2
    assert seen == ["Sheet 1 is at hall as hall-1.\n", "tray 2 is open\n"]
    assert "it was cancelled. Print again. The pages are written: " in say.capsys.readouterr().err
