"""The whole workflow as a state machine, at length.

    python -m tests.bench.faults.workflow [--examples 100] [--steps 40]

See ``tests.service.workflow`` for what is done and what is always true.
"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.bench.faults.harness import make
from tests.conftest import Clock
from tests.service.workflow import Workflow


def main() -> None:
    """Run it."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.faults.workflow")
    parser.add_argument("--examples", type=int, default=100)
    parser.add_argument("--steps", type=int, default=40)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        make(folder / "made")
        work = folder / "work"
        work.mkdir()
        run_state_machine_as_test(
            lambda: Workflow(folder / "made", work, Clock()),
            settings=settings(
                max_examples=asked.examples,
                stateful_step_count=asked.steps,
                database=None,
                suppress_health_check=list(HealthCheck),
            ),
        )
    print(f"{asked.examples} runs of at most {asked.steps} steps: always true")


if __name__ == "__main__":
    main()
