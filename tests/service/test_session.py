"""Several edits made one change: written whole, taken back whole, or not at all."""

import pytest

from engine import CaseError, InputError, Workshop


def test_what_is_changed_inside_is_one_change(stocked: Workshop) -> None:
    first, second = (line.id for line in stocked.games.lines()[:2])
    with stocked.change("two things"):
        stocked.designs.accept([first])
        stocked.setup.change(patience=7)
        stocked.designs.accept([second])
        assert stocked.designs.proposal(first).accepted, "what was done is seen inside"
    assert stocked.setup.settings().patience == 7
    assert stocked.undo() == "two things"
    assert stocked.setup.settings().patience == 4
    assert not stocked.designs.proposal(first).accepted
    assert not stocked.designs.proposal(second).accepted


def test_a_part_that_fails_leaves_nothing_of_the_others(stocked: Workshop) -> None:
    (first, *_) = (line.id for line in stocked.games.lines())
    file = stocked.folder / "collection.json"
    before = file.read_bytes()

    def change() -> None:
        with stocked.change():
            stocked.designs.accept([first])
            stocked.designs.change_cases([first], "nosuch")

    with pytest.raises(CaseError):
        change()
    assert file.read_bytes() == before
    assert not stocked.designs.proposal(first).accepted
    assert stocked.undo().startswith("took in"), "nothing came after"


def test_without_words_those_of_the_parts_are_shown(stocked: Workshop) -> None:
    first, second = stocked.games.lines()[:2]
    with stocked.change():
        stocked.designs.accept([first.id])
        with stocked.change("never shown"):
            stocked.designs.change_colour(second.id, "#004466")
    assert stocked.undo() == f"accepted {first.title} and changed {second.title}"


def test_a_change_of_nothing_is_none(stocked: Workshop) -> None:
    last = stocked.games.lines()[0]
    stocked.designs.accept([last.id])
    with stocked.change("nothing"):
        stocked.designs.accept([last.id])
    assert stocked.undo() == f"accepted {last.title}"


def test_a_fault_of_a_person_s_is_told_as_ever(stocked: Workshop) -> None:
    with pytest.raises(InputError, match="nobody"), stocked.change():
        stocked.designs.accept(["nobody"])
