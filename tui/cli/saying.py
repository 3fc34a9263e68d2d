"""What the command line prints: nothing in it acts on the terminal, nor fails for its encoding."""

from __future__ import annotations

import sys
from typing import TextIO

from engine import plain_lines


def answer(text: str) -> None:
    """Print what a command answers."""
    print(printable(text, sys.stdout))


def tell(text: object, *, now: bool = False) -> None:
    """Print what is said beside the answer, a fault above all."""
    print(printable(str(text), sys.stderr), file=sys.stderr, flush=now)


def printable(text: str, stream: TextIO) -> str:
    """Return ``text`` as a stream can take it: what its encoding lacks is written as an escape."""
    encoding = stream.encoding or "ascii"
    return plain_lines(text).encode(encoding, "backslashreplace").decode(encoding)
