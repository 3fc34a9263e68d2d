"""Giving up: long work asks now and then whether the person still waits."""

from __future__ import annotations

from collections.abc import Callable

Cancel = Callable[[], bool]
"""Whether the person has given up waiting."""


class Cancelled(Exception):  # noqa: N818 - nothing went wrong
    """The person gave up waiting for the answer."""


def go_on(cancel: Cancel | None) -> None:
    """Raise Cancelled if the person has given up waiting."""
    if cancel is not None and cancel():
        raise Cancelled
