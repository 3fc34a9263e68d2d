"""What comes onto the screen is text alone, as wide as it was."""

from __future__ import annotations

import pytest
from rich.cells import cell_len
from rich.segment import ControlType, Segment
from rich.style import Style
from textual.app import App
from textual.color import Color

from tui.app import SpineryApp
from tui.look import LAMP_16, LOOKS, NOT_BRIGHTER, PAPER_16
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


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.name)
def test_every_line_of_the_program_passes_it(look, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(App, "get_line_filters", lambda _: ())
    monkeypatch.setattr(SpineryApp, "theme", look.name)
    first, *rest = SpineryApp.get_line_filters(SpineryApp.__new__(SpineryApp))
    assert first is ONLY_TEXT
    assert rest == ([NOT_BRIGHTER] if look in (PAPER_16, LAMP_16) else [])


@pytest.mark.parametrize(
    ("style", "shown"),
    [
        ("bold #000000", [("  ", "not bold #000000"), ("a b", "not bold underline #000000")]),
        ("bold reverse #0000aa", [("  a b", "not bold reverse #0000aa")]),
        ("bold #ffffff", [("  a b", "bold #ffffff")]),
        ("#000000", [("  a b", "#000000")]),
    ],
)
def test_bold_and_dark_is_underlined_in_sixteen_colours(style: str, shown) -> None:
    drawn = NOT_BRIGHTER.apply([Segment("  a b", Style.parse(style))], Color.parse("white"))
    assert drawn == [Segment(text, Style.parse(of)) for text, of in shown]
