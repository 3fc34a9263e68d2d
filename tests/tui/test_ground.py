"""What the terminal is asked about its ground and colours, and which look follows from that."""

from __future__ import annotations

import os
import pty
import threading

import pytest

from tests.tui.test_app import luminance
from tui.look import LAMP, LAMP_16, LAMP_256, PAPER, PAPER_16, PAPER_256, look_of, other
from tui.terminal import Terminal, _asked, ask, colours, is_dark

XTERM = {"TERM": "xterm-256color"}
BEHIND = b"\x1b[?62;22c"


@pytest.mark.parametrize(
    ("answer", "dark"),
    [
        (b"\x1b]11;rgb:0000/0000/0000\x1b\\" + BEHIND, True),
        (b"\x1b]11;rgb:ffff/ffff/ffff\x1b\\" + BEHIND, False),
        (b"\x1b]11;rgb:fd/f6/e3\x07" + BEHIND, False),
        (b"\x1b]11;rgba:1e/1e/2e/ff\x07" + BEHIND, True),
        (b"\x1b]11;rgb:0/2/3\x1b\\", True),
        (BEHIND, False),
        (b"", False),
    ],
)
def test_the_ground_is_read_in_every_form_of_the_answer(answer: bytes, dark: bool) -> None:
    """The forms of XParseColor(3): one to four hex digits a part."""
    assert is_dark(answer, XTERM) is dark


@pytest.mark.parametrize(
    ("said", "dark"), [("15;0", True), ("0;15", False), ("0;default;15", False), ("7;8", True)]
)
def test_a_terminal_that_does_not_answer_may_say_it_before(said: str, dark: bool) -> None:
    assert is_dark(b"", {"COLORFGBG": said}) is dark


def test_what_is_no_terminal_is_not_asked() -> None:
    assert ask({"TERM": "dumb"}) == b""


def asked(answer: bytes, wait: float) -> tuple[bytes, bytes]:
    """Return what a terminal is asked, and what is read of its answer."""
    terminal, program = pty.openpty()
    question: list[bytes] = []

    def speak() -> None:
        question.append(os.read(terminal, 100))
        os.write(terminal, answer)

    speaking = threading.Thread(target=speak)
    speaking.start()
    read = _asked(program, program, wait)
    speaking.join()
    os.close(terminal)
    os.close(program)
    return question[0], read


def test_a_terminal_is_asked_and_its_answer_read_to_the_end() -> None:
    answer = b"\x1b]11;rgb:1c1c/1c1c/1c1c\x1b\\" + BEHIND
    question, read = asked(answer, 60)
    assert question.startswith(b"\x1b]11;?"), "xterm control sequences, OSC 11"
    assert read == answer


def test_inside_tmux_nothing_is_asked_that_becomes_a_title(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What begins by APC, or ESC k, names a window there (tmux(1), "NAMES AND TITLES")."""
    asked: list[bytes] = []
    monkeypatch.setattr("tui.terminal._asked", lambda *given: asked.append(given[-1]) or BEHIND)
    terminal, program = pty.openpty()
    with os.fdopen(terminal, "rb", 0), os.fdopen(program, "r+b", 0) as file:
        monkeypatch.setattr("sys.__stdin__", file)
        monkeypatch.setattr("sys.__stdout__", file)
        assert ask({"TERM": "tmux-256color"}) == ask(XTERM) == BEHIND
    assert b"\x1b_G" not in asked[0]
    assert b"\x1b_G" in asked[1]


def test_a_terminal_that_knows_no_such_question_keeps_nobody_waiting() -> None:
    _, read = asked(BEHIND, 60)
    assert read == BEHIND


def test_one_that_never_answers_is_left_in_the_end() -> None:
    _, read = asked(b"", 0.01)
    assert read == b""


@pytest.mark.parametrize(
    ("environ", "drawn"),
    [
        ({"TERM": "xterm-256color"}, "256"),
        ({"TERM": "xterm-16color"}, "standard"),
        ({"TERM": "linux"}, "standard"),
        ({"TERM": "xterm"}, "standard"),
        ({"TERM": "xterm-kitty"}, "256"),
        ({"TERM": "xterm-16color", "COLORTERM": "truecolor"}, "truecolor"),
        ({"TERM": "tmux-256color"}, "256"),
        ({"TERM": "screen"}, "standard"),
    ],
)
def test_the_colours_are_known_by_the_name_of_the_terminal(environ, drawn: str) -> None:
    assert colours(environ) == drawn


def test_each_ground_has_its_look_in_all_colours_and_in_few() -> None:
    assert look_of(Terminal(dark=False)) is PAPER
    assert look_of(Terminal(dark=True)) is LAMP
    assert look_of(Terminal(dark=False, few_colours=True)) is PAPER_16
    assert look_of(Terminal(dark=True, few_colours=True)) is LAMP_16
    assert look_of(Terminal(dark=False, palette=True)) is PAPER_256
    assert look_of(Terminal(dark=True, palette=True)) is LAMP_256
    assert other(LAMP_16.name) is PAPER_16
    assert other(PAPER.name) is LAMP
    assert other(PAPER_256.name) is LAMP_256


SIXTEEN = {f"#{r}{g}{b}" for r in ("00", "aa") for g in ("00", "aa") for b in ("00", "aa")} | {
    f"#{r}{g}{b}" for r in ("55", "ff") for g in ("55", "ff") for b in ("55", "ff")
}
"""As a VGA shows them, but for brown (common practice, no published source)."""

LEVELS = ("00", "5f", "87", "af", "d7", "ff")
PALETTE = {f"#{r}{g}{b}" for r in LEVELS for g in LEVELS for b in LEVELS} | {
    f"#{8 + 10 * n:02x}" + 2 * f"{8 + 10 * n:02x}" for n in range(24)
}
"""The cube and the greys of xterm (256colres.pl of its sources)."""


@pytest.mark.parametrize("look", [PAPER_16, LAMP_16, PAPER_256, LAMP_256], ids=lambda it: it.name)
@pytest.mark.parametrize("ink", ["foreground", "secondary", "accent", "warning", "error"])
@pytest.mark.parametrize("ground", ["background", "surface", "panel"])
def test_text_contrasts_enough_in_few_colours(look, ink: str, ground: str) -> None:
    """4.5 to 1 for text: WCAG 2.2, success criterion 1.4.3."""
    pair = (getattr(look, ink), getattr(look, ground))
    assert set(pair) <= (PALETTE if look.name.endswith("256") else SIXTEEN)
    lights = sorted(map(luminance, pair))
    assert (lights[1] + 0.05) / (lights[0] + 0.05) >= 4.5
