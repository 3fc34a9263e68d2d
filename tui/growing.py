"""While a program opens, nearly all that it makes is kept."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def growing() -> Iterator[None]:
    """Look for no garbage inside, where all comes to stay: that takes a fifth of opening."""
    looked = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if looked:
            gc.enable()
