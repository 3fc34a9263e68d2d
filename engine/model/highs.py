"""The solver HiGHS, quiet and on one thread, for every room that asks it."""

from __future__ import annotations

from typing import Any


def quiet_solver() -> Any:
    """Return a fresh solver that prints nothing and works on one thread.

    One thread, so that an answer never hangs on which of two finishes first; and the same
    everywhere, since HiGHS keeps one pool of threads for the whole process and fails a run
    that asks for another number.
    """
    import highspy

    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 - the library's own name
            # It prints its banner as the callbacks are set up, before options can be given.
            self.silent()
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    solver = Quiet()  # type: ignore[no-untyped-call]
    solver.setOptionValue("threads", 1)
    return solver
