"""The paper that a printer takes."""

from __future__ import annotations

from engine.model import Value

_NEAR = 1e-6


class Feed(Value, frozen=True):
    """The smallest paper that a printer takes, in mm, short side first.

    The default is the smallest photo paper that home printers usually feed, 3.5 by 5 inches
    (common practice, no published source): ask the printer's own manual.
    """

    width: float = 88.9
    height: float = 127.0

    def takes(self, width: float, height: float) -> bool:
        """Return whether paper of this size can be fed."""
        short, long = sorted((width, height))
        return short >= self.width - _NEAR and long >= self.height - _NEAR
