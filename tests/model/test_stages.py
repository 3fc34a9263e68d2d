"""Stages are read off what happened: every game stands in exactly one place."""

from datetime import UTC, datetime, timedelta

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from engine.model import (
    Accepted,
    Art,
    Colours,
    EdgeTitle,
    Fitted,
    Forme,
    Game,
    Placement,
    Sheet,
    Stage,
    Stock,
)
from engine.model.stages import Place, accepted_design, outdated, stage_counts, standings

NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)
FORME = Forme(stock=Stock(id="a4", name="A4", width=210, height=297))


def finished(base: str = "#203040") -> Accepted:
    return Accepted(
        case="snap-shell",
        art=Art(),
        art_at=NOON,
        colours=Colours(base=base, text="#ffffff"),
        title=(EdgeTitle(panel="long", lines=("Tide",), size=9.0),),
        title_at=NOON + timedelta(minutes=1),
    )


NOTHING_YET = Accepted()


def game(accepted: Accepted = NOTHING_YET, fitted: Fitted | None = None) -> Game:
    return Game(id="tide", title="Tide", added_at=NOON, accepted=accepted, fitted=fitted)


def sheet(of: Game, *, number: int = 1, settled: bool = False, spoiled: bool = False) -> Sheet:
    design = accepted_design(of.accepted)
    assert design is not None
    return Sheet(
        number=number,
        forme=FORME,
        pressed_at=NOON,
        settled_at=NOON if settled else None,
        placements=(
            Placement(
                game=of.id,
                case=design.case,
                design=design.fingerprint,
                x=20,
                y=20,
                width=66,
                height=74,
                spoiled=spoiled,
            ),
        ),
    )


def stand(of: Game, *sheets: Sheet) -> tuple[Stage, Place, bool]:
    one = standings([of], sheets)[of.id]
    return one.stage, one.place, one.reprint


def test_life_of_a_game() -> None:
    assert stand(game()) == (Stage.LISTED, Place.BACKLOG, False)
    art = game(msgspec.structs.replace(finished(), title=None, title_at=None))
    assert stand(art) == (Stage.ART_CHOSEN, Place.BACKLOG, False)
    done = game(finished())
    assert stand(done) == (Stage.TITLE_SET, Place.QUEUE, False)
    assert stand(done, sheet(done)) == (Stage.TITLE_SET, Place.PRESSED, False)
    assert stand(done, sheet(done, settled=True)) == (Stage.PRINTED, Place.DONE, False)
    design = accepted_design(done.accepted)
    assert design is not None
    fitted = game(finished(), Fitted(design=design.fingerprint, at=NOON))
    assert stand(fitted, sheet(done, settled=True)) == (Stage.FITTED, Place.DONE, False)


def test_a_title_without_art_is_still_listed() -> None:
    title_only = msgspec.structs.replace(finished(), art=None, art_at=None)
    assert stand(game(title_only)) == (Stage.LISTED, Place.BACKLOG, False)


def test_spoiled_and_withdrawn_come_back_to_the_queue() -> None:
    done = game(finished())
    assert stand(done, sheet(done, settled=True, spoiled=True))[1] is Place.QUEUE
    gone = msgspec.structs.replace(sheet(done), withdrawn_at=NOON)
    assert stand(done, gone)[1] is Place.QUEUE


def test_spoiled_once_and_good_the_second_time_is_printed() -> None:
    done = game(finished())
    first = sheet(done, settled=True, spoiled=True)
    assert stand(done, first, sheet(done, number=2, settled=True))[0] is Stage.PRINTED


def test_a_design_changed_after_printing_waits_again_and_says_so() -> None:
    before = game(finished())
    after = game(finished("#a03040"))
    old = sheet(before, settled=True)
    assert stand(after, old) == (Stage.TITLE_SET, Place.QUEUE, True)
    assert stand(after, old, sheet(after, number=2, settled=True))[:2] == (
        Stage.PRINTED,
        Place.DONE,
    )


def test_a_design_changed_while_its_sheet_is_pressed_is_found() -> None:
    before, after = game(finished()), game(finished("#a03040"))
    pressed = sheet(before)
    assert outdated(pressed, standings([before], [pressed])) == ()
    assert outdated(pressed, standings([after], [pressed])) == pressed.placements


accepted = st.builds(
    Accepted,
    case=st.just("snap-shell"),
    art=st.none() | st.just(Art()),
    art_at=st.just(NOON),
    colours=st.sampled_from([Colours(base=b, text="#ffffff") for b in ("#000000", "#111111")]),
    title=st.none() | st.just((EdgeTitle(panel="long", lines=("Tide",), size=9.0),)),
    title_at=st.just(NOON),
)


@given(st.lists(accepted, max_size=6), st.data())
def test_counts_add_up_and_what_waits_is_finished(all_accepted: list[Accepted], data) -> None:
    games = [
        Game(id=f"g{i}", title=f"Game {i}", added_at=NOON, accepted=a)
        for i, a in enumerate(all_accepted)
    ]
    sheets = [
        sheet(g, number=i, settled=data.draw(st.booleans()), spoiled=data.draw(st.booleans()))
        for i, g in enumerate(games)
        if accepted_design(g.accepted) is not None and data.draw(st.booleans())
    ]
    standing = standings(games, sheets)
    assert sum(stage_counts(standing).values()) == len(games)
    for one in standing.values():
        if one.place is Place.QUEUE:
            assert one.stage is Stage.TITLE_SET
            assert one.design is not None
        if one.place is Place.DONE:
            assert one.stage in (Stage.PRINTED, Stage.FITTED)
