"""The line to the terminal: late answers type nothing, and nobody waits for one that is gone."""

from __future__ import annotations

import errno
import os
import pty

import pytest
from textual.events import Key, Paste

from tui.line import Drawing, KeysOnly

GROUND = "\x1b]11;rgb:1c1c/1c1c/1c1c\x1b\\"
CELL = "\x1b[6;20;10t"
COLOURS, LARGEST, UNTOLD = "\x1b[?1;0;1024S", "\x1b[?2;0;1000;1000S", "\x1b[?1;3S"
GRAPHICS = "\x1b_Gi=31;OK\x1b\\"
NAME = "\x1bP>|XTerm(379)\x1b\\"
ATTRIBUTES = "\x1b[?62;22c"
ALL = (GROUND, GROUND.replace("\x1b\\", "\x07"), CELL, COLOURS, LARGEST, UNTOLD, GRAPHICS, NAME)
"""As xterm's control sequences and the text of kitty's graphics protocol have them."""


def typed(*chunks: str) -> list[str]:
    """Return the keys that are read of what comes in chunks."""
    parser = KeysOnly()
    return [one.key for chunk in chunks for one in parser.feed(chunk) if isinstance(one, Key)]


@pytest.mark.parametrize("answer", [*ALL, ATTRIBUTES])
def test_a_late_answer_is_no_key_wherever_it_is_split(answer: str) -> None:
    for place in range(3, len(answer)):
        assert typed("a" + answer[:place], answer[place:] + "b") == ["a", "b"], place


def test_all_answers_at_once_leave_what_is_typed_between() -> None:
    assert typed("y".join((*ALL, ATTRIBUTES))) == ["y"] * len(ALL)


@pytest.mark.parametrize(
    ("sent", "key"),
    [
        ("\x1b[6~", "pagedown"),
        ("\x1b[6;5~", "ctrl+pagedown"),
        ("\x1b[A", "up"),
        ("\x1b[1;2S", "shift+f4"),
    ],
)
def test_keys_that_begin_like_an_answer_are_keys(sent: str, key: str) -> None:
    assert typed(sent) == [key]


def test_what_is_pasted_comes_whole() -> None:
    pasted = [*KeysOnly().feed("\x1b[200~Harbour Bay?;c\x1b[201~")]
    assert [one.text for one in pasted if isinstance(one, Paste)] == ["Harbour Bay?;c"]


def test_nobody_waits_for_a_terminal_that_is_gone() -> None:
    terminal, program = pty.openpty()
    gone: list[str] = []
    with os.fdopen(program, "w") as file:
        drawing = Drawing(lambda: gone.append("gone"), file)
        drawing.start()
        os.close(terminal)
        for _ in range(100):  # more than it keeps
            drawing.write("x" * 10_000)
            drawing.flush()
        drawing.stop()
        assert gone == ["gone"]
        with pytest.raises(OSError, match=os.strerror(errno.EIO)):
            os.write(program, b"x")
