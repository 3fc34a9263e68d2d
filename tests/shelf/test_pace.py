"""How fast a person works, from the times of what they did."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.shelf.pace import BREAK, pace, sittings

NOW = datetime(2026, 11, 29, 20, tzinfo=UTC)
MOMENTS = st.integers(0, 60 * 24 * 100).map(lambda minutes: NOW - timedelta(minutes=minutes))


def ago(weeks: float, minutes: int = 0) -> datetime:
    return NOW - timedelta(weeks=weeks) + timedelta(minutes=minutes)


def test_a_pace_by_hand() -> None:
    """Two evenings, of 60 and 30 minutes, in three weeks; 6 games: 2 a week, 3 an evening."""
    first = [ago(2.5, n) for n in (0, 30, 60)]
    second = [ago(1, n) for n in (1, 16, 31)]
    found = pace([*first, *second], [*first, *second], 12, NOW)
    assert [week.done for week in found.weeks] == [3, 0, 3]
    assert [week.total for week in found.weeks] == [3, 3, 6]
    assert (found.evenings, found.done_a_week, found.done_an_evening) == (2, 2.0, 3.0)
    assert (found.minutes_a_game, found.evenings_left, found.hours_left) == (15.0, 4, 3.0)
    assert found.done_by == NOW + timedelta(weeks=6)


def test_only_the_last_eight_weeks_make_the_pace() -> None:
    old = [ago(20, n) for n in range(50)]
    found = pace([*old, ago(1)], [*old, ago(1)], 8, NOW)
    assert len(found.weeks) == 20
    assert (found.done_a_week, found.evenings) == (1 / 8, 1)
    assert found.weeks[-1].total == 51


def test_without_a_fitted_game_there_is_no_pace() -> None:
    found = pace([], [ago(1)], 5, NOW)
    assert found.evenings_left is found.hours_left is found.done_by is found.minutes_a_game is None
    assert [week.total for week in pace([], [], 5, NOW).weeks] == [0]


@settings(max_examples=60)
@given(st.lists(MOMENTS, max_size=30))
def test_sittings_hold_every_moment_and_lie_more_than_a_break_apart(times: list[datetime]) -> None:
    found = sittings(times)
    assert all(any(begin <= at <= end for begin, end in found) for at in times)
    assert all(later[0] - earlier[1] > BREAK for earlier, later in pairwise(found))


@settings(max_examples=60)
@given(st.lists(MOMENTS, max_size=20), st.integers(0, 500))
def test_every_fitted_game_is_in_one_week(fitted: list[datetime], left: int) -> None:
    found = pace(fitted, fitted, left, NOW)
    assert sum(week.done for week in found.weeks) == found.weeks[-1].total == len(fitted)
