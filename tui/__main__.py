"""The entry point of the command ``spinery``."""

from __future__ import annotations

import sys
from collections.abc import Sequence


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and leave with its exit code."""
    from tui.commands import run

    sys.exit(run(sys.argv[1:] if arguments is None else arguments))


if __name__ == "__main__":
    main()
