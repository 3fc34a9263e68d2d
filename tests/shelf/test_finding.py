"""A game found by what somebody remembers of its title."""

from __future__ import annotations

from engine.shelf.finding import find

TITLES = {
    "a": "The Glass Allotment",
    "b": "Glass Bay",
    "c": "Café des Mouettes",
    "d": "Quiet Please, the Tide Is Sleeping",
    "e": "Kettlemoon II",
    "f": "Half a Moon, Two Oars",
    "g": "Signal Flag Patience",
}


def test_a_slip_finds_what_is_most_alike() -> None:
    assert find("glas bay", TITLES)[0] == "b"
    assert find("allotmnt", TITLES)[0] == "a"
    assert find("cafe", TITLES)[0] == "c"


def test_a_word_far_back_in_a_long_title_finds_that_alone() -> None:
    assert find("tide", TITLES) == ("d",)
    assert find("sleep quiet", TITLES) == ("d",)


def test_words_that_begin_so_go_before_words_that_hold_it() -> None:
    assert find("moon", TITLES) == ("f", "e")


def test_nothing_is_found_by_nothing_and_by_what_is_like_nothing() -> None:
    assert find("", TITLES) == ()
    assert find("zzqx", TITLES) == ()
