"""The entry point of the command ``spinery``."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from tui.ending import FAILED, UNTOLD, answer, code_of, heed_signals, say
from tui.growing import growing


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and leave with its exit code."""
    from tui.cli.answers import STOPPED_WORDS

    given = tuple(sys.argv[1:] if arguments is None else arguments)
    try:
        heed_signals()
        code = _run(given)
    except KeyboardInterrupt as stop:
        say(STOPPED_WORDS)
        code = code_of(stop)
    sys.exit(code if answer() or code else UNTOLD)


def _run(given: tuple[str, ...]) -> int:
    """Return the exit code; a fault of the program is told as such, and written down."""
    import logging

    from tui import log

    log.begin(given)
    try:
        with growing():
            from tui.cli.dispatch import run

        return run(given)
    except SystemExit as left:  # of the parser, which has said why
        return left.code if isinstance(left.code, int) else 0
    except Exception as error:
        logging.getLogger("spinery").exception("a fault of the program")
        say(
            f"Spinery failed by a fault of its own ({type(error).__name__}: {error}). What was "
            f"saved before is unharmed. What to report stands in {log.path()}."
        )
        return FAILED


if __name__ == "__main__":
    main()
