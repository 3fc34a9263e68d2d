"""What a person declares goes before what follows from decisions and sheets."""

from __future__ import annotations

import pytest

from engine import Workshop
from engine.model import Stage
from engine.model.errors import InputError
from engine.model.stages import Place


def test_declared_games_wait_for_nothing_and_it_can_be_taken_back(stocked: Workshop) -> None:
    one, two, three, *_ = (line.id for line in stocked.games.lines())
    stocked.designs.accept([one])
    stocked.batch.work_on([one, two])
    stocked.declaring.declare([one], Stage.PRINTED)
    stocked.declaring.declare([two, three], Stage.UNWANTED)
    assert stocked.batch.games() == ()
    stages = stocked.progress().stages
    assert (stages[Stage.PRINTED], stages[Stage.UNWANTED]) == (1, 2)
    places = stocked._session.snapshot.standing
    assert {places[game].place for game in (one, two, three)} == {Place.ASIDE}
    assert not {one, two, three} & {*stocked.batch.bring_next()}
    stocked.sheets.fit([one])
    assert stocked.progress().stages[Stage.FITTED] == 1
    stocked.declaring.declare([one, two, three], None)
    assert stocked.designs.proposal(one).stage is Stage.TITLE_SET
    assert stocked.progress().stages[Stage.UNWANTED] == 0
    stocked.undo()
    assert stocked.progress().stages[Stage.UNWANTED] == 2


def test_only_what_no_sheet_tells_can_be_declared(stocked: Workshop) -> None:
    game = stocked.games.lines()[0].id
    with pytest.raises(InputError, match="follows from what is done"):
        stocked.declaring.declare([game], Stage.TITLE_SET)
