"""Colours of groups: distinct to every eye, true to their pictures, beside known sets."""

from __future__ import annotations

import colorsys
from itertools import combinations

import pytest
from coloraide import Color

from engine.colours import Group, contrast, difference, ink_on
from engine.colours.deficiency import Deficiency, seen_as
from engine.colours.groups import (
    STRAY,
    TOLD_APART,
    Origin,
    agreed_colour,
    choose_colours,
)
from engine.model import Sign
from tests.colours.telling import smallest_difference

OKABE_ITO = (
    "#000000",
    "#e69f00",
    "#56b4e9",
    "#009e73",
    "#f0e442",
    "#0072b2",
    "#d55e00",
    "#cc79a7",
)
"""Okabe and Ito, 'Color universal design', 2008: eight colours safe for the colour-blind (the
figures from memory)."""


def unnamed(count: int) -> list[Group]:
    return [Group(f"series {number}") for number in range(count)]


def even_hues(count: int) -> list[str]:
    turns = (number / count for number in range(count))
    channels = (colorsys.hls_to_rgb(turn, 0.5, 0.65) for turn in turns)
    return ["#" + "".join(f"{round(255 * c):02x}" for c in colour) for colour in channels]


def even_hues_in_oklch(count: int) -> list[str]:
    return [
        Color("oklch", [0.65, 0.15, 360 * number / count]).convert("srgb").fit().to_string(hex=True)
        for number in range(count)
    ]


@pytest.mark.parametrize("count", [4, 8, 12, 16])
def test_groups_differ_more_than_evenly_spaced_hues_and_okabe_ito(count):
    ours = choose_colours(unnamed(count)).smallest
    others = [smallest_difference(even_hues(count)), smallest_difference(even_hues_in_oklch(count))]
    if count <= len(OKABE_ITO):
        others += [smallest_difference(some) for some in combinations(OKABE_ITO, count)]
    assert ours > max(others)
    assert ours >= TOLD_APART


def test_the_smallest_difference_is_what_the_worst_eye_sees():
    palette = choose_colours(unnamed(6))
    colours = [group.colour for group in palette.groups]
    seen = [colours, *([seen_as(c, kind) for c in colours] for kind in Deficiency)]
    worst = min(difference(*pair) for eye in seen for pair in combinations(eye, 2))
    # Hex colours round what an eye sees to 8 bits: a tenth of a unit.
    assert palette.smallest == pytest.approx(worst, abs=0.5)


def test_every_colour_carries_black_or_white_text():
    for group in choose_colours(unnamed(16)).groups:
        assert contrast(ink_on(group.colour), group.colour) >= 4.5


def test_the_same_groups_get_the_same_colours():
    assert choose_colours(unnamed(7)) == choose_colours(unnamed(7))


def test_pictures_that_agree_give_their_group_its_colour():
    groups = [Group("tide", ("#204080", "#22427e", "#c0a030")), Group("moss", ("#2c7a3c",))]
    tide, moss = choose_colours(groups).groups
    assert difference(tide.colour, "#21417f") < 1.0
    assert difference(moss.colour, "#2c7a3c") <= 10.0
    assert contrast(moss.colour, ink_on(moss.colour)) > 6.9, (
        "5.3 before: WCAG 2.2, 1.4.6 asks for 7"
    )
    assert {tide.origin, moss.origin} == {Origin.PICTURES}


def test_pictures_that_differ_give_none():
    assert agreed_colour(["#204080", "#c0a030", "#2c7a3c"]) is None
    assert agreed_colour([]) is None
    (group,) = choose_colours([Group("all sorts", ("#204080", "#c0a030", "#2c7a3c"))]).groups
    assert group.origin is Origin.CHOSEN


def test_two_groups_of_one_blue_part_by_no_more_than_they_must():
    palette = choose_colours([Group("tide", ("#204080",)), Group("wave", ("#203a70",))])
    assert palette.smallest >= TOLD_APART
    for group, own in zip(palette.groups, ("#204080", "#203a70"), strict=True):
        assert difference(group.colour, own) <= STRAY


def test_what_is_pinned_stays_and_the_rest_keeps_clear_of_it():
    palette = choose_colours([Group("tide", pinned="#c02020"), *unnamed(5)])
    assert palette.groups[0].colour == "#c02020"
    assert palette.groups[0].origin is Origin.PINNED
    assert palette.smallest >= TOLD_APART


def test_two_pinned_alike_do_not_keep_the_rest_from_being_told_apart():
    pinned = [Group("tide", pinned="#c02020"), Group("wave", pinned="#c02222")]
    palette = choose_colours([*pinned, *unnamed(6)])
    assert palette.closest == ("tide", "wave")
    rest = [group.colour for group in palette.groups[1:]]
    assert smallest_difference(rest) > 20


def test_too_many_groups_are_said_and_given_signs():
    palette = choose_colours(unnamed(26))
    assert palette.smallest < TOLD_APART
    assert "26 groups are too many to tell apart" in palette.note
    for one, other in combinations(palette.groups, 2):
        alike = smallest_difference([one.colour, other.colour]) < TOLD_APART
        assert not alike or one.sign is not other.sign
    few = choose_colours(unnamed(8))
    assert {group.sign for group in few.groups} == {Sign.NONE}
    assert few.note == ""


def test_none_and_one():
    assert choose_colours([]).groups == ()
    assert choose_colours(unnamed(1)).smallest == float("inf")


def test_text_stands_out_where_that_costs_no_difference() -> None:
    near = [Group("red", ("#aa2828",)), Group("green", ("#1e7832",)), Group("blue", ("#1e3ca0",))]
    colours = {group.name: group.colour for group in choose_colours(near).groups}
    assert smallest_difference(list(colours.values())) >= 12.0
    (alone,) = choose_colours([Group("green", ("#1e7832",))]).groups
    assert contrast(alone.colour, ink_on(alone.colour)) > 6.9 > contrast("#1e7832", "#ffffff")
    (own,) = choose_colours([Group("green", (), "#808080")]).groups
    assert own.colour == "#808080", "what a person gave stays"
