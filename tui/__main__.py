"""The entry point of the command ``spinery``."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and leave with its exit code."""
    from tui.cli.answers import STOPPED, STOPPED_WORDS

    try:
        from tui.cli.dispatch import run

        code = run(sys.argv[1:] if arguments is None else arguments)
        sys.stdout.flush()
    except KeyboardInterrupt:
        print(STOPPED_WORDS, file=sys.stderr)
        code = STOPPED
    except BrokenPipeError:
        # Whoever read the answer has gone (``| head``): all is done, only words are lost.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 0
    sys.exit(code)


if __name__ == "__main__":
    main()
