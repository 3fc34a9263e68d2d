"""What goes between the program and its workers: MessagePack behind its length.

Nothing that comes back is run, as a pickle would be: a worker may have been taken over by the
file that it looked at.
"""

from __future__ import annotations

from enum import StrEnum
from struct import pack, unpack
from typing import BinaryIO

import msgspec


class Reason(StrEnum):
    """Why there is no answer."""

    START = "no process could be started for it"
    TIME = "it takes too long"
    MEMORY = "it needs too much memory"
    SIZE = "too much comes of it"
    CRASH = "it ends the process that opens it"
    FAULT = "it causes an error that nobody foresaw"
    CANCELLED = "nobody waits for it any more"


class Answered(msgspec.Struct, tag=True):
    """What the function returned."""

    value: msgspec.Raw


class Refused(msgspec.Struct, tag=True):
    """The function raised one of our errors. Where it happened the worker cannot know."""

    what: str
    mend: str


class Failed(msgspec.Struct, tag=True):
    """The function gave no answer."""

    reason: Reason


Reply = Answered | Refused | Failed


class TooLong(Exception):  # noqa: N818 - a signal within this room
    """A message is longer than its reader takes."""


def send(file: BinaryIO, message: bytes) -> None:
    """Write ``message``. Raises OSError where nobody reads any more."""
    file.write(pack(">I", len(message)) + message)
    file.flush()


def receive(file: BinaryIO, most: int) -> bytes | None:
    """Return the next message, None where no whole one comes. Raises TooLong above ``most``."""
    head = file.read(4)
    if len(head) < 4:
        return None
    (length,) = unpack(">I", head)
    if length > most:
        raise TooLong
    message = file.read(length)
    return message if len(message) == length else None
