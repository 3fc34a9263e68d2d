"""What the terminal is asked before Textual runs, and the pictures that follow from its answer."""

from __future__ import annotations

import os
import pty
import sys

import pytest

from tui.terminal import ASKED

NAME = """
from tui.picturekind import picture_kind
from tui.terminal import this_terminal

kind = picture_kind()
told = getattr(kind, "colours", ""), getattr(kind, "most", "")
print("shown by", kind, *told, this_terminal(), flush=True)
"""

ENVIRONMENT = {**os.environ, "TERM": "xterm-256color", "COLORFGBG": ""}

ANSWERS = {
    # DA1 with 4 for sixel: the VT340's own answer, by its reference manual.
    # Before it a dark ground, as xterm's control sequences have it for OSC 11.
    # Sixteen colours, and a hundred dots at most, as xterm's XTSMGRAPHICS has them.
    "\x1b]11;rgb:1c1c/1c1c/1c1c\x1b\\\x1b[?1;0;16S\x1b[?2;0;100;90S"
    "\x1b[?63;1;2;4;6;9;15c": "tui.sixels.Sixels'> 16 (100, 90)",
    # A response as the text of kitty's graphics protocol has it, then a VT220's DA1.
    "\x1b[6;20;10t\x1b_Gi=31;OK\x1b\\\x1b[?62;c": "textual_image.widget.TGPImage",
    # The same of a version before the characters that stand for pictures.
    "\x1b_Gi=31;OK\x1b\\\x1bP>|kitty(0.26.5)\x1b\\\x1b[?62;c": "textual_image.widget.HalfcellImage",
    "\x1b[?62;22c": "textual_image.widget.HalfcellImage",
}


@pytest.mark.parametrize("answer", ANSWERS)
def test_the_terminal_is_asked_once_and_shows_what_it_can(answer: str) -> None:
    """Its size is none, as of a pseudo-terminal that nobody gave one."""
    child, terminal = pty.fork()
    if child == 0:
        os.execve(sys.executable, [sys.executable, "-c", NAME], ENVIRONMENT)  # noqa: S606  there is nothing a shell is for
    seen, asked = "", ASKED.decode()
    while "shown by" not in seen or not seen.endswith("\n"):
        seen += os.read(terminal, 4096).decode()
        if asked and asked in seen:
            os.write(terminal, answer.encode())
            asked = ""
    os.waitpid(child, 0)
    os.close(terminal)
    assert ANSWERS[answer] in seen
    is_dark = answer.startswith("\x1b]11;")
    assert f"Terminal(dark={is_dark}," in seen
    assert seen.count("\x1b[c") == seen.count("\x1b_G") == seen.count("\x1b[16t") == 1
    assert seen.count("\x1b]11;?") == 1
