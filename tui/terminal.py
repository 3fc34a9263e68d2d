"""What the terminal is like: how light its ground is, and how many colours it shows.

It is asked once, before Textual takes what it answers, for all that anyone here wants to know:
a second question would meet the late answers to the first.
"""

from __future__ import annotations

import os
import re
import select
import sys
import time
from collections.abc import Mapping
from contextlib import suppress
from functools import cache
from typing import NamedTuple, TextIO

WAIT = 1.5
"""Seconds that a terminal is given to answer, which may be far away: those of today answer."""

_GROUND_ASKED = b"\x1b]11;?\x1b\\"
"""OSC 11 (xterm's control sequences, "Change VT100 text background color"), which terminals and
tmux answer, over SSH as well."""
_CELL_ASKED = b"\x1b[16t"
"""The size of a cell: XTWINOPS of xterm."""
_GRAPHICS_ASKED = b"\x1b_Gi=31,s=1,v=1,a=q,t=d,f=24;AAAA\x1b\\"
"""Whether pictures are shown by kitty's protocol."""
_SIXEL_ASKED = b"\x1b[?1;1;0S\x1b[?2;4;0S"
"""How many colours a picture by Sixel has, and how large it is, at most: XTSMGRAPHICS of xterm."""
_NAME_ASKED = b"\x1b[>q"
"""What it calls itself, and its version: XTVERSION of xterm."""
_ATTRIBUTES_ASKED = b"\x1b[c"
"""The primary device attributes (DA1, ECMA-48 and DEC STD 070). All terminals answer that one,
after what they have for the others, so that nobody waits for an answer that does not come."""

ASKED = b"".join(
    (
        _GROUND_ASKED,
        _CELL_ASKED,
        _SIXEL_ASKED,
        _GRAPHICS_ASKED,
        _NAME_ASKED,
        _ATTRIBUTES_ASKED,
    )
)
"""What answers this and comes late is dropped by ``tui.line``."""

_GROUND = re.compile(rb"\x1b\]11;rgba?:([0-9a-fA-F]+)/([0-9a-fA-F]+)/([0-9a-fA-F]+)")
ATTRIBUTES = re.compile(rb"\x1b\[\?([0-9;]*)c")
"""The answer that comes last."""

DARK_BELOW = 0.5
"""Grounds of a lower lightness are dark: 0 is black, 1 white."""


class Terminal(NamedTuple):
    """What the program has to know of its terminal."""

    dark: bool = False
    """Its ground is dark. Light where nothing tells."""
    few_colours: bool = False
    """It shows sixteen colours only."""
    palette: bool = False
    """It shows 256 colours only."""


USUAL_TERMINAL = Terminal()


def this_terminal() -> Terminal:
    """Return what the terminal is like that the program runs in."""
    drawn = colours(os.environ)
    return Terminal(is_dark(answered(), os.environ), drawn in {None, "standard"}, drawn == "256")


@cache
def answered() -> bytes:
    """Return what the terminal says to all that is asked; it is asked the first time only."""
    return ask(os.environ)


def is_dark(answer: bytes, environ: Mapping[str, str]) -> bool:
    """Return whether the ground is dark, by what the terminal answered, or by ``COLORFGBG``.

    That variable, which some terminals set, ends in the ground's number of the sixteen colours.
    """
    found = _GROUND.search(answer)
    if found is not None:
        # A part is of one to four hex digits, and full where all are f.
        red, green, blue = (int(part, 16) / (16 ** len(part) - 1) for part in found.groups())
        return 0.299 * red + 0.587 * green + 0.114 * blue < DARK_BELOW  # luma of ITU-R BT.601
    ground = environ.get("COLORFGBG", "").rpartition(";")[2]
    if ground.isdecimal():
        return int(ground) in {0, 1, 2, 3, 4, 5, 6, 8}
    return environ.get("TERM") == "linux"  # the console of Linux, which answers nothing


def colours(environ: Mapping[str, str]) -> str | None:
    """Return how many colours will be drawn, by what a terminal calls itself, in Rich's words.

    Rich decides that as it does for Textual, which draws by it: none, standard, 256, truecolor.
    """
    from rich.console import Console

    return Console(force_terminal=True, legacy_windows=False, _environ=environ).color_system


def is_terminal(stream: TextIO | None) -> bool:
    """Return whether a channel leads to a terminal; a closed one does not."""
    return stream is not None and stream.isatty()


def at_terminal() -> bool:
    """Return whether keys come from a terminal, and Textual, by the error channel, draws on one."""
    return is_terminal(sys.stdin) and is_terminal(sys.stderr)


def ask(environ: Mapping[str, str]) -> bytes:
    """Return what the terminal answers; nothing where it cannot be asked."""
    if environ.get("TERM", "dumb") in {"dumb", "linux"} or not sys.__stdin__ or not sys.__stdout__:
        return b""
    with suppress(OSError, ValueError, ImportError):
        if sys.__stdin__.isatty() and sys.__stdout__.isatty():
            # Both take the question about pictures for a title, and show it.
            within = environ.get("TERM", "").startswith(("tmux", "screen"))
            asked = ASKED.replace(_GRAPHICS_ASKED, b"") if within else ASKED
            return _asked(sys.__stdin__.fileno(), sys.__stdout__.fileno(), WAIT, asked)
    return b""


def _asked(keys: int, screen: int, wait: float, asked: bytes = ASKED) -> bytes:
    """Ask, and read until the last answer, or until ``wait`` seconds are over."""
    import termios  # not everywhere
    import tty

    before = termios.tcgetattr(keys)
    try:
        tty.setcbreak(keys, termios.TCSANOW)
        os.write(screen, asked)
        answer, until = b"", time.monotonic() + wait
        while not ATTRIBUTES.search(answer):
            ready, _, _ = select.select([keys], [], [], max(0.0, until - time.monotonic()))
            if not ready:
                break
            answer += os.read(keys, 1024)
        return answer
    finally:
        termios.tcsetattr(keys, termios.TCSAFLUSH, before)
