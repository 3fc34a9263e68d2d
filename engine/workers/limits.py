"""What worker processes may use: every limit on work with files from outside, in one table."""

from __future__ import annotations

from typing import NamedTuple


class Limits(NamedTuple):
    """What one worker may use for one file."""

    seconds: float
    """From asking to the answer, the start of a new worker included; then it is ended."""
    memory: int
    """Bytes of address space, which bounds what it holds in memory; where the system holds a
    process to it (RLIMIT_AS: Linux does; macOS and Windows do not)."""
    answer: int
    """Bytes of its answer."""


LOOKING = Limits(seconds=60.0, memory=1_000_000_000, answer=1_000_000)
"""Opening a picture and saying what was found in it. The largest that is let in take half a
gigabyte and two seconds (docs/artwork.md has the figures)."""

PRINTING = Limits(seconds=60.0, memory=1_000_000_000, answer=100_000_000)
"""Drawing the art of one panel; it comes back as JPEG."""

DRAWING = Limits(seconds=10.0, memory=1_000_000_000, answer=100_000_000)
"""Making pixels of a drawing; they come back as PNG, 23 MB at most before it is packed."""

READING = Limits(seconds=60.0, memory=3_000_000_000, answer=1_000_000)
"""Reading what a picture says. The models and the largest pictures take 0.7 GB; the libraries
reserve more than they use."""

LISTING = Limits(seconds=30.0, memory=1_000_000_000, answer=64_000_000)
"""Reading a spreadsheet: a hundred thousand games take a third of it, and two seconds. One that
claims a cell far away would fill the memory with the empty ones before it."""

IDLE_SECONDS = 30.0
"""After which a worker that is asked nothing ends itself."""
