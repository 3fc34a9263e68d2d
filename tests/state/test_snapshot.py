"""A snapshot that was brought up for some games is as one made afresh of the same records."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import InkMode, InputError, PictureRole, RefusedError, Workshop, open_workshop
from engine.model import Decision
from engine.model.stages import Place
from engine.state import Snapshot
from tests.conftest import Clock


def snapshot_of(shop: Workshop) -> Snapshot:
    return shop._session.snapshot


def afresh(shop: Workshop) -> Snapshot:
    session = shop._session
    return Snapshot(session.snapshot.recorded, session.kinds, session._stand_ins)


def pressed(shop: Workshop) -> int:
    """Return the number of a pressed sheet; 0 for none."""
    return next((sheet.number or 0 for sheet in shop.sheets.report().pressed), 0)


STEPS: dict[str, Callable[[Workshop, list[str], Random], object]] = {
    "accept": lambda shop, some, _: shop.designs.accept(some),
    "accept art": lambda shop, some, _: shop.designs.accept(some, {Decision.ART}),
    "reopen": lambda shop, some, _: shop.designs.reopen(some),
    "case": lambda shop, some, chance: shop.designs.change_cases(
        some, chance.choice(["snap-shell", "soft-cassette"])
    ),
    "title": lambda shop, some, chance: shop.designs.change_title(
        some[0], chance.choice(["Copper Kite", "Own / words"])
    ),
    "colour": lambda shop, some, chance: shop.designs.change_colour(
        some[0], chance.choice(["#552200", "#004466"])
    ),
    "ink": lambda shop, some, chance: shop.designs.change_ink(
        some, chance.choice([None, *InkMode])
    ),
    "press": lambda shop, some, _: shop.sheets.press(part_full=True),
    "settle": lambda shop, some, _: shop.sheets.settle(pressed(shop), spoiled=[1]),
    "withdraw": lambda shop, some, _: shop.sheets.withdraw(pressed(shop)),
    "pin": lambda shop, some, chance: shop.colours.pin(
        {"Harbour": chance.choice(["#335500", "#aa2200", None])}
    ),
    "batch": lambda shop, some, _: shop.batch.work_on(some),
    "give": lambda shop, some, chance: shop.sides.give(
        some[0], chance.choice(["gone.png", *sorted(snapshot_of(shop).pictures)]), PictureRole.BACK
    ),
    "show": lambda shop, some, chance: shop.sides.show(
        some[0], "back", chance.choice([None, *sorted(snapshot_of(shop).pictures)])
    ),
    "undo": lambda shop, some, _: shop.undo(),
}
"""What is done, to some games of chance."""


@pytest.mark.parametrize("by", ["picture", "series"])
@settings(max_examples=8)
@given(
    steps=st.lists(st.sampled_from(sorted(STEPS)), min_size=3, max_size=14),
    seed=st.integers(0, 2**16),
)
def test_it_is_as_one_made_afresh(grouped: Path, by: str, steps: list[str], seed: int) -> None:
    random = Random(seed)
    with TemporaryDirectory() as place:
        shutil.copytree(grouped, Path(place) / "shelf")
        shop = open_workshop(Path(place) / "shelf", Clock())
        shop.setup.change(colour_by=by)
        ids = [line.id for line in shop.games.lines()]
        for what in steps:
            some = random.sample(ids, random.randint(1, 3))
            with suppress(RefusedError, InputError):  # what the state of the work does not allow
                STEPS[what](shop, some, random)
            brought, fresh = snapshot_of(shop), afresh(shop)
            assert brought.games == fresh.games
            assert list(brought.games) == list(fresh.games)
            assert brought.standing == fresh.standing
            assert brought.colouring.groups == fresh.colouring.groups
            assert brought.papers == fresh.papers
            assert brought.lines == fresh.lines
            for key in brought.games:
                assert brought.proposal(key) == fresh.proposal(key), key
        shop.close()


def test_what_did_not_change_is_taken_over(stocked: Workshop) -> None:
    before = snapshot_of(stocked)
    first, *others = [stocked.designs.proposal(line.id) for line in stocked.games.lines()]
    stocked.designs.accept([first.game])
    after = snapshot_of(stocked)
    assert after is not before
    assert before.standing[first.game].place is Place.BACKLOG, "an earlier one never changes"
    assert all(after.proposal(one.game) is one for one in others)
