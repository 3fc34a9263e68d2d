"""What a command answers, and its exit codes."""

from __future__ import annotations

from typing import NamedTuple

DONE, NOTHING, BAD_INPUT = 0, 1, 2
STOPPED = 130
"""128 and the number of SIGINT, as a POSIX shell reports it (bash manual, 'Exit Status')."""

STOPPED_WORDS = "Stopped. What was done before is kept."


class Answer(NamedTuple):
    """What a command has to say."""

    words: list[str]
    """Lines for a person."""
    data: dict[str, object]
    """The object that ``--json`` prints."""
    code: int = DONE
