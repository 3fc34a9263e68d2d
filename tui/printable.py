"""What the command line prints: nothing in it acts on the terminal, nor fails for its encoding."""

from __future__ import annotations

import codecs
import json
from typing import TextIO

from engine import plain_lines

ESCAPED = "spinery.escaped"


def printable(text: str, stream: TextIO) -> str:
    """Return ``text`` as a stream can take it: what its encoding lacks as an escape of JSON."""
    encoding = stream.encoding or "utf-8"  # none where it is kept in memory
    return plain_lines(text).encode(encoding, ESCAPED).decode(encoding)


def _escaped(fault: UnicodeError) -> tuple[str, int]:
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    return json.dumps(fault.object[fault.start : fault.end])[1:-1], fault.end


codecs.register_error(ESCAPED, _escaped)
