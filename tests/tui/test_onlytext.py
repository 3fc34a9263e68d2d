"""What comes onto the screen is text alone, as wide as it was."""

from __future__ import annotations

import pytest
from rich.cells import cell_len
from rich.segment import ControlType, Segment
from textual.app import App
from textual.color import Color

from tui.app import SpineryApp
from tui.onlytext import ONLY_TEXT


def shown(text: str) -> str:
    (segment,) = ONLY_TEXT.apply([Segment(text)], Color(0, 0, 0))
    return segment.text


def test_commands_and_overrides_are_taken_out_of_a_line() -> None:
    hostile = "Oyster \x1b]0;owned\x07\x1b[2J\x9b31m\u202e[bold]Clock[/]"
    assert shown(hostile) == "Oyster ]0;owned[2J31m[bold]Clock[/]"
    assert cell_len(shown(hostile)) == cell_len(hostile)


def test_pictures_pass() -> None:
    picture = Segment("\x1bPq...\x1b\\", None, [(ControlType.CURSOR_FORWARD, 1)])
    assert ONLY_TEXT.apply([picture], Color(0, 0, 0)) == [picture]


def test_every_line_of_the_program_passes_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(App, "get_line_filters", lambda _: ())
    assert [*SpineryApp.get_line_filters(SpineryApp.__new__(SpineryApp))] == [ONLY_TEXT]
