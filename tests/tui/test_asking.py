"""What the terminal is asked before Textual runs, and the pictures that follow from its answer."""

from __future__ import annotations

import os
import pty
import sys

import pytest

from tui.picturekind import ASKED

NAME = (
    "from tui.picturekind import picture_kind as p; print('shown by', p().__mro__[:2], flush=True)"
)

ANSWERS = {
    # DA1 with 4 for sixel: the VT340's own answer, by its reference manual.
    "\x1b[?63;1;2;4;6;9;15c": "textual_image.widget.sixel.Image",
    # A response as the text of kitty's graphics protocol has it, then a VT220's DA1.
    "\x1b[6;20;10t\x1b_Gi=31;OK\x1b\\\x1b[?62;c": "textual_image.widget.TGPImage",
    "\x1b[?62;22c": "textual_image.widget.HalfcellImage",
}


@pytest.mark.parametrize("answer", ANSWERS)
def test_the_terminal_is_asked_once_and_shows_what_it_can(answer: str) -> None:
    """Its size is none, as of a pseudo-terminal that nobody gave one."""
    child, terminal = pty.fork()
    if child == 0:
        os.execv(sys.executable, [sys.executable, "-c", NAME])  # noqa: S606  there is nothing a shell is for
    seen, asked = "", ASKED
    while "shown by" not in seen or not seen.endswith("\n"):
        seen += os.read(terminal, 4096).decode()
        if asked and asked in seen:
            os.write(terminal, answer.encode())
            asked = ""
    os.waitpid(child, 0)
    os.close(terminal)
    assert ANSWERS[answer] in seen
    assert seen.count("\x1b[c") == seen.count("\x1b_G") == seen.count("\x1b[16t") == 1
