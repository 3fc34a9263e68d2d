"""Making titles shorter, step by step."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lettering import AbridgingWay, abridgements
from engine.lettering.abridging import truncations
from tests.lettering.titles import shelf

TITLE = "The Lantern Keeper and the Sea Volume Two: Second Voyage"


def test_steps_come_in_order_each_told():
    chain = abridgements(TITLE, (("Lantern", "Lant."),))
    assert [one.text for one in chain] == [
        "The Lantern Keeper and the Sea Volume Two: Second Voyage",
        "The Lantern Keeper and the Sea Volume Two",
        "Lantern Keeper and the Sea Volume Two",
        "Lant. Keeper and the Sea Volume Two",
        "Lant. Keeper and the Sea Volume II",
        "Lant. Keeper & the Sea Volume II",
        "Lant. Keeper & the Sea Vol. II",
    ]
    last = chain[-1].steps
    assert [step.way for step in last] == list(AbridgingWay)[:-1]
    assert all(one.after == other.before for one, other in pairwise(last))
    assert str(last[4]).startswith("ampersand: Lant. Keeper and the Sea Volume II became ")


@pytest.mark.parametrize(
    ("title", "shortest"),
    [
        ("Rook", "Rook"),
        ("Moss – A Quiet Game", "Moss"),
        ("Moss - A Quiet Game", "Moss"),
        ("Spider-Hop", "Spider-Hop"),  # a hyphen is no dash
        ("3:15 to Harbour", "3:15 to Harbour"),  # a time is no subtitle
        ("A", "A"),
        ("The", "The"),
        ("Der Turm", "Turm"),
        ("L'Étoile", "Étoile"),
        ("Die Trying", "Die Trying"),  # no article in English
        ("As the Crow Flies", "As the Crow Flies"),
        ("Sal y Mar", "Sal & Mar"),
        ("Lantern Keeper Two", "Lantern Keeper II"),
        ("The Last Two", "Last Two"),
        ("Chapter Nineteen", "Ch. XIX"),
        ("International Rook Championship", "Int. Rook Champ."),
        ("灯台守：第二章", "灯台守"),
    ],
)
def test_each_way(title, shortest):
    assert abridgements(title)[-1].text == shortest


def test_only_a_truncation_is_unsure():
    assert all(step.sure for step in abridgements(TITLE)[-1].steps)
    cut = next(truncations(abridgements("Rookery Tower")[0]))
    assert not cut.steps[-1].sure


def test_cuts_get_ever_shorter_then_keep_the_last_word():
    cuts = [cut.text for cut in truncations(abridgements("Rookery Tower 2")[0])]
    assert cuts[:3] == ["Rookery Tower…", "Rookery Towe…", "Rookery Tow…"]
    assert "Rookery T… 2" in cuts
    assert cuts[-1] == "Roo… 2"


def test_a_cut_never_parts_a_letter_from_its_mark():
    assert all("e…" not in cut.text for cut in truncations(abridgements("Ste\u0301ra Moss")[0]))


@given(st.sampled_from(shelf(100, seed=9)))
def test_no_step_makes_a_title_empty_or_longer(title):
    for one in abridgements(title):
        assert one.text
        assert len(one.text) <= len(" ".join(title.split()))
