"""What is set for ganging: kept, refused with a sentence, taken back by its name."""

from __future__ import annotations

import pytest

from engine import InputError, Workshop


def test_a_change_of_settings_is_taken_back_by_its_name(stocked: Workshop) -> None:
    before = stocked.setup.settings()
    stocked.setup.change(stocks={"snap-shell": "a5-card"})
    stocked.setup.change(patience=7, kerf=0.5)
    stocked.setup.change(patience=7)
    assert stocked.undo() == "changed the patience and the kerf"
    assert stocked.setup.settings().stocks == {"snap-shell": "a5-card"}
    assert stocked.undo() == "changed the paper of a case kind"
    assert stocked.setup.settings() == before


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"kerf": -1}, "kerf"),
        ({"kerf": 2.5}, "kerf: 2.5 mm is more than the 2 mm between two inserts"),
        ({"patience": 0}, "patience"),
        ({"stocks": {"snap-shell": "papyrus"}}, "papyrus: no such stock"),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(
    stocked: Workshop, wrong: dict, said: str
) -> None:
    before = stocked.setup.settings()
    with pytest.raises(InputError, match=said):
        stocked.setup.change(**wrong)
    assert stocked.setup.settings() == before
