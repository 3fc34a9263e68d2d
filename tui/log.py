"""A log of what was done and what failed, for the person to look into or to send along.

It lies with the state of the user, is never larger than a megabyte, and tells paths and titles:
nothing of it goes into a collection or a page.
"""

from __future__ import annotations

import logging
import platform
import sys
import time
from logging.handlers import RotatingFileHandler
from pathlib import Path

SIZE, KEPT = 250_000, 3
"""Bytes of a file, and how many older ones are kept."""

_FORM = "%(asctime)sZ %(process)d %(levelname)s %(message)s"


class _Quiet(RotatingFileHandler):
    """Writes where it can: a log that cannot be written holds up nothing."""

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802 - its name there
        """Let it go."""


def path() -> Path:
    """Return where the log lies."""
    from platformdirs import user_log_path

    return user_log_path("spinery") / "spinery.log"


def begin(arguments: tuple[str, ...]) -> None:
    """Write down from now on what the program does; that it runs is the first of it."""
    logger = logging.getLogger("spinery")
    logger.propagate = False
    for before in logger.handlers[:]:
        logger.removeHandler(before)
        before.close()
    logger.setLevel(logging.INFO)
    file = path()
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        handler = _Quiet(file, maxBytes=SIZE, backupCount=KEPT, encoding="utf-8", delay=True)
    except OSError:
        logger.addHandler(logging.NullHandler())
        return
    form = logging.Formatter(_FORM, "%Y-%m-%dT%H:%M:%S")
    form.converter = time.gmtime
    handler.setFormatter(form)
    logger.addHandler(handler)
    python, system = platform.python_version(), sys.platform
    logger.info("spinery %s (Python %s, %s)", " ".join(arguments) or "(no command)", python, system)
