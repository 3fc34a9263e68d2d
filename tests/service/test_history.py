"""Taking back, doing again, going back to a change, and what all that says."""

import pytest
from msgspec.structs import replace

from engine import CollectionError, RefusedError, Settings, Workshop, open_workshop
from engine.service.differing import differences


def decided(shop: Workshop) -> bytes:
    """Return what the collection has on record, but for what can be undone."""
    return (shop.folder / "collection.json").read_bytes().partition(b'"history"')[0]


def work(shop: Workshop) -> list[bytes]:
    """Do four things; return what is on record before them and after each."""
    first, second, third = (line.id for line in shop.games.lines()[:3])
    states = [decided(shop)]
    for do in (
        lambda: shop.designs.accept([first, second]),
        lambda: shop.setup.change(patience=7),
        lambda: shop.designs.change_colour(second, "#004466"),
        lambda: shop.batch.work_on([third]),
    ):
        do()
        states.append(decided(shop))
    return states


def test_what_was_taken_back_is_done_again_whatever_it_was(stocked: Workshop) -> None:
    states = work(stocked)
    for state in reversed(states[:-1]):
        stocked.history.undo()
        assert decided(stocked) == state
    for state in states[1:]:
        stocked.history.redo()
        assert decided(stocked) == state
    with pytest.raises(RefusedError, match="nothing to do again"):
        stocked.history.redo()


def test_it_is_done_again_after_the_program_was_left(stocked: Workshop) -> None:
    states = work(stocked)
    stocked.undo(), stocked.undo()
    stocked.close()
    again = open_workshop(stocked.folder)
    again.history.redo()
    assert decided(again) == states[-2]
    again.close()


def test_something_else_done_leaves_nothing_to_do_again(stocked: Workshop) -> None:
    work(stocked)
    stocked.undo()
    stocked.setup.change(patience=9)
    with pytest.raises(RefusedError):
        stocked.history.redo()
    assert stocked.undo() == "changed the patience"


def test_one_step_goes_back_to_any_change_and_forth(stocked: Workshop) -> None:
    states = work(stocked)
    numbers = [one.number for one in stocked.history.lines()]
    assert numbers == sorted(numbers, reverse=True)
    for number, state in [
        (numbers[2], states[2]),
        (numbers[0], states[4]),
        (numbers[3], states[1]),
    ]:
        step = stocked.history.go_to(number)
        assert decided(stocked) == state
        assert step.differs
    assert [one.undone for one in stocked.history.lines()] == [True, True, True, False, False]
    assert stocked.history.go_to(0).words == "took in games.csv"
    assert not stocked.games.lines()
    with pytest.raises(RefusedError, match="no such change"):
        stocked.history.go_to(99)


def test_a_step_says_what_it_was_and_what_it_is_now(stocked: Workshop) -> None:
    work(stocked)
    assert stocked.history.undo().differs == ("batch: 1 game → 0 games",)
    back = stocked.history.undo()
    assert back.words == "changed Lantern Bay 2"
    (line,) = back.differs
    assert line.startswith("Lantern Bay 2: colour: #004466 → #")
    assert stocked.history.undo().differs == ("patience: 7 sheets → 4 sheets",)
    assert stocked.history.redo().differs == ("patience: 4 sheets → 7 sheets",)


def test_the_list_says_of_each_change_what_it_made_different(stocked: Workshop) -> None:
    work(stocked)
    told = [one.differs for one in stocked.history.lines()]
    stocked.history.go_to(0)
    assert [one.differs for one in stocked.history.lines()] == told, "undone or not"
    assert told[1][0].startswith("Lantern Bay 2: colour: ")
    assert told[4][-2:] == ("and 9 more games", "12 pictures more")


def test_the_history_of_a_game_leaves_out_what_is_not_of_it(stocked: Workshop) -> None:
    work(stocked)
    first, second = (line.id for line in stocked.games.lines()[:2])
    said = [event.words for event in stocked.history.of_game(second)]
    assert said == [
        "took in games.csv",
        "accepted Lantern Bay 1 and 1 more",
        "changed Lantern Bay 2",
    ]
    assert "changed Lantern Bay 2" not in {e.words for e in stocked.history.of_game(first)}


def test_what_is_no_longer_kept_is_read_off_the_game(
    stocked: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("engine.collection.history.CHANGES_KEPT", 1)
    stocked.designs.accept([stocked.games.lines()[0].id])
    (sheet, *_) = stocked.sheets.press(part_full=True).sheets
    stocked.sheets.settle(sheet.number)
    stocked.setup.change(patience=7)
    said = [event.words for event in stocked.history.of_game(sheet.placements[0].game)]
    assert said == [
        "taken in",
        "art accepted",
        "title accepted",
        f"pressed on sheet {sheet.number}",
        f"printed on sheet {sheet.number}",
    ]


def test_a_backup_is_gone_back_to_as_a_change_that_is_taken_back(stocked: Workshop) -> None:
    states = work(stocked)
    stocked.close()
    again = open_workshop(stocked.folder)
    newest, oldest = again.history.days()
    assert newest.at > oldest.at
    step = again.history.go_to_day(oldest.name)
    assert step.words == f"went back to {oldest.at:%Y-%m-%d %H:%M} UTC"
    assert not any(one.accepted for one in again.designs.proposals())
    assert again.setup.settings() == Settings()
    assert again.history.lines()[0].words == step.words
    again.undo()
    assert decided(again) == states[-1]
    with pytest.raises(RefusedError, match="as it is now"):
        again.history.go_to_day(newest.name)
    again.close()


def test_games_taken_in_since_a_backup_are_gone_and_come_back(workshop: Workshop, delivery) -> None:
    workshop.close()
    shop = open_workshop(workshop.folder)
    (empty,) = shop.history.days()
    shop.games.intake(*delivery, "snap-shell")
    full = decided(shop)
    assert shop.history.go_to_day(empty.name).differs[-1] == "12 pictures fewer"
    assert not shop.games.lines()
    shop.undo()
    assert decided(shop) == full
    shop.close()


def test_a_damaged_backup_changes_nothing(stocked: Workshop) -> None:
    (day,) = stocked.history.days()
    (stocked.folder / "backups" / day.name).write_text("{", encoding="utf-8")
    before = decided(stocked)
    with pytest.raises(CollectionError, match="damaged"):
        stocked.history.go_to_day(day.name)
    with pytest.raises(RefusedError, match="no such backup"):
        stocked.history.go_to_day("../collection.json")
    assert decided(stocked) == before


def test_whatever_else_a_game_has_is_told_to_differ(stocked: Workshop) -> None:
    game = next(iter(stocked._session.collection.games.values()))
    told = differences(game, replace(game, maker="Quayworks", extra={"Shelf": "B2"}), {}, {})
    assert list(told) == ["maker: – → Quayworks", "extra changed"]
