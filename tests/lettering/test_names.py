"""What titles may be abridged to: the index answers as going through all of them would."""

from __future__ import annotations

from collections.abc import Mapping

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.lettering.abridging import Abridged, abridgements, is_cut, truncations
from engine.lettering.names import Names, beginning, forms

WORDS = st.sampled_from(
    ["The", "Lamp", "Lantern", "Two", ":", "and", "Volume", "Rook", "-", "2", "12", "Wait\u2026"]
)
TITLES = st.lists(WORDS, min_size=1, max_size=5).map(" ".join) | st.text(
    "aB\u00df\u0130\u2026 1\U0010ffff", max_size=6
)
KEYED = st.dictionaries(st.sampled_from("abcdefgh"), TITLES, max_size=8)
CHANGES = st.lists(
    st.dictionaries(st.sampled_from("abcdefgh"), st.none() | TITLES, max_size=3), max_size=4
)
DICTIONARY = (("lantern", "Ln."),)


def is_free(titles: Mapping[str, str], key: str, title: Abridged) -> bool:
    """Say whether a form is free by looking at every form of every other title."""
    form = title.text.casefold()
    others = [
        other for name, said in titles.items() if name != key for other in forms(said, DICTIONARY)
    ]
    if not title.steps:
        return True
    if not is_cut(title):
        return form not in others
    head, _, tail = form.rpartition("\u2026")
    return not any(one.startswith(head) and one.endswith(tail.strip()) for one in others)


def asked_of(title: str) -> list[Abridged]:
    chain = abridgements(title, DICTIONARY)
    return [*chain, *(cut for one in chain for cut in truncations(one))]


@given(KEYED)
def test_a_form_is_free_where_no_other_title_has_it_or_could_be_meant(
    titles: dict[str, str],
) -> None:
    names = Names(titles.values, DICTIONARY)
    for key, title in titles.items():
        for one in asked_of(title):
            assert names.free(one) is is_free(titles, key, one), one


@settings(max_examples=60)
@given(KEYED, CHANGES)
def test_names_brought_up_answer_as_new_ones_and_tell_what_changed(
    titles: dict[str, str], changes: list[dict[str, str | None]]
) -> None:
    names = Names(titles.values, DICTIONARY)
    for change in changes:
        asked = {(key, one): names.free(one) for key in titles for one in asked_of(titles[key])}
        gone = [titles[key] for key in change if key in titles]
        come = [said for said in change.values() if said is not None]
        titles = {key: said for key, said in {**titles, **change}.items() if said is not None}
        names, touched = names.after(titles.values, gone, come)
        for key, title in titles.items():
            for one in asked_of(title):
                assert names.free(one) is is_free(titles, key, one)
        for (key, one), before in asked.items():
            if key not in change and names.free(one) is not before:
                assert any(form.startswith(beginning(one)) for form in touched)


def test_names_that_nobody_asked_are_brought_up_unread() -> None:
    both = ("The Lamp", "Lamp")
    names, touched = Names(lambda: ("The Lamp",)).after(lambda: both, (), ("Lamp",))
    assert touched == frozenset()
    assert not names.free(abridgements("The Lamp")[1])
