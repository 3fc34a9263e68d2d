from __future__ import annotations

from pathlib import Path

from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.conftest import Clock
from tests.service.workflow import Workflow


def test_anything_in_any_order(made: Path, tmp_path: Path) -> None:
    """The long form is ``python -m tests.bench.faults.workflow``."""
    run_state_machine_as_test(
        lambda: Workflow(made, tmp_path, Clock()),
        settings=settings(
            max_examples=2,
            stateful_step_count=10,
            derandomize=True,
            database=None,
            suppress_health_check=list(HealthCheck),
            phases=[Phase.generate],  # what fails is short as it is
        ),
    )
