"""The line to the terminal, which may be slow, and may go.

Answers of the terminal that come late would be taken for keys that were pressed. And Textual's
thread that draws ends where the terminal is gone, after which whoever draws waits for it for ever.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import partial
from typing import IO

from textual._xterm_parser import XTermParser
from textual.drivers._writer_thread import WriterThread
from textual.message import Message

_WHOLE = r"""
    \x1b\[\?[\d;]*[cS]                          # what it is; how many colours a picture has
  | \x1b\[6;\d+;\d+t                            # the size of a cell
  | \x1b(?:\]11;|_G|P>\|)[^\x07\x1b]*(?:\x07|\x1b\\)  # the ground; pictures; its name
"""
_BEGUN = r"""
    \x1b\[\?[\d;]*
  | \x1b\[6[\d;]*
  | \x1b(?:\]1|_G|P>)[^\x07\x1b]*\x1b?
"""
_ANSWER = re.compile(_WHOLE, re.VERBOSE)
_PART = re.compile(rf"(?:{_BEGUN})\Z", re.VERBOSE)
"""One that the rest is still on its way of: longer than any key that is one press."""


class KeysOnly(XTermParser):
    """Reads keys, and drops the answers to what ``tui.terminal`` asked."""

    _kept = ""

    def feed(self, data: str) -> Iterable[Message]:
        """Return what came with some characters; none say that no more will come."""
        if not data:
            return super().feed(data)
        data = _ANSWER.sub("", self._kept + data)
        begun = _PART.search(data)
        self._kept = begun[0] if begun else ""
        data = data[: begun.start()] if begun else data
        return super().feed(data) if data else ()


class Drawing(WriterThread):
    """Draws; once the terminal is gone, says so and drops what there is to draw."""

    def __init__(self, gone: Callable[[], None], file: IO[str]) -> None:
        """Draw on ``file``, and call ``gone`` in this thread where that cannot be done."""
        super().__init__(file)
        self._gone = gone

    def run(self) -> None:
        """Run the thread until it is stopped."""
        try:
            super().run()
        except OSError:
            self._gone()
            while self._queue.get() is not None:
                pass


def tend(gone: Callable[[], None]) -> None:
    """Let Textual read keys only, and call ``gone`` in a thread once the terminal is."""
    with suppress(ImportError):  # not everywhere
        from textual.drivers import linux_driver

        linux_driver.XTermParser = KeysOnly  # type: ignore[attr-defined]
        linux_driver.WriterThread = partial(Drawing, gone)  # type: ignore[attr-defined]
