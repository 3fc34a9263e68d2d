"""Presses the key of every declared action and looks at what came of it."""

from __future__ import annotations

import pytest

from tests.tui import (  # noqa: F401  the stories are told there
    art_stories,
    backlog_stories,
    bench_stories,
    everywhere_stories,
    setup_stories,
    sheet_stories,
    shelf_stories,
    start_stories,
    whole_stories,
)
from tests.tui.conftest import AtWork
from tests.tui.stories import STORIES
from tui.actions import ACTIONS, BY_ID


@pytest.mark.parametrize("act", [act.id for act in ACTIONS])
async def test_every_key_does_what_its_action_says(act: str, at_work: AtWork) -> None:
    if act not in STORIES:
        pytest.fail(f"no story presses the key of {act}")
    story, stage, rests = STORIES[act]
    async with at_work(stage, rests=rests) as hand:
        await story(hand)
        assert (BY_ID[act].key or BY_ID["change_setting"].key) in hand.pressed
