"""What worker processes may use: every limit on work with files from outside, in one table."""

from __future__ import annotations

from typing import NamedTuple


class Limits(NamedTuple):
    """What one worker may use for one file."""

    seconds: float
    """Of processor time, so that a busy machine refuses nothing that an idle one takes; where the
    system counts it for a process (RLIMIT_CPU: Windows does not)."""
    memory: int
    """Bytes of address space, which bounds what it holds in memory; where the system holds a
    process to it (RLIMIT_AS: Linux does; macOS and Windows do not)."""
    answer: int
    """Bytes of its answer."""

    @property
    def clock(self) -> float:
        """Seconds by the clock from asking to the answer, the start of a new worker included."""
        return PATIENCE * self.seconds


PATIENCE = 3.0
"""How much longer than its processor time a worker may take by the clock: others want the
processor too."""

SECONDS = 30.0
GIGABYTE = 1_000_000_000

LOOKING = Limits(SECONDS, GIGABYTE, answer=1_000_000)
"""Opening a picture and saying what was found in it. The largest that is let in take half a
gigabyte and two seconds (docs/artwork.md has the figures)."""

PRINTING = Limits(SECONDS, GIGABYTE, answer=100_000_000)
"""Drawing the art of one panel; it comes back as JPEG."""

PAGES = Limits(SECONDS, GIGABYTE, answer=130_000_000)
"""Drawing a page for the screen; it comes back as three bytes a pixel, of 40 million at most."""

TRYING = Limits(SECONDS, GIGABYTE, answer=1_000_000)
"""Trying a font: its facts, and all that setting titles does with it."""

READING = Limits(SECONDS, 2 * GIGABYTE, answer=1_000_000)
"""Reading what a picture says. It holds 0.7 GB at most; the libraries reserve as much again and
use none of it. The picture itself is opened within the usual gigabyte."""

LISTING = Limits(SECONDS, GIGABYTE, answer=64_000_000)
"""Reading a spreadsheet: a hundred thousand games take a third of it, and two seconds. One that
claims a cell far away would fill the memory with the empty ones before it."""

IDLE_SECONDS = 30.0
"""After which a worker that is asked nothing ends itself."""
