"""Settings: what is read off their declarations, and what each takes."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.model import InkMode, Margins, Rule
from engine.model.errors import CaseError, InputError
from engine.model.naming import Of, There, known
from engine.model.setting import declared, setting
from engine.model.settings import SETTINGS, KindId, Lettering, Settings
from engine.model.takes import (
    ByKind,
    Choice,
    Figure,
    Flag,
    KindsThat,
    Lengths,
    Name,
    Phrases,
    Several,
    Usual,
)
from engine.model.units import Mm

THERE: There = {
    Of.KIND: {"tin": "Flat tin", "keep": "Keep case"},
    Of.STOCK: {"a4": "A4 card", "a5": "A5 card"},
    Of.PANEL: {"front": "art", "spine": "edge"},
    Of.COLUMN: {"series": "series", "Shelf mark": "Shelf mark"},
    Of.MARK: {"series": "series", "Shelf mark": "Shelf mark"},
    Of.GROUPS: {},
    Of.FONT: {},
    Of.LANGUAGE: {"en": "English", "sv": "Swedish"},
}


class Declared(msgspec.Struct, frozen=True):
    deep: Annotated[Mm, setting("Depth", "How deep it is.", ge=1, le=9)] = 2.0
    many: Annotated[int, setting("Number", "How many.", ge=1, counts="box")] = 1
    way: Annotated[
        Literal["up", "down"] | None,
        setting("Way", "Which way.", said={"up": "", "down": "head first"}, usual="either way"),
    ] = None
    ways: Annotated[
        dict[KindId, Literal["up", "down"]],
        setting(
            "Way of a kind", "Of one.", said={"up": "", "down": ""}, name="way", usual="as all"
        ),
    ] = {}
    kept: str = "not a setting"


FOUND = {one.id: one for one in declared(Declared)}


def test_only_what_is_declared_is_a_setting() -> None:
    assert list(FOUND) == ["deep", "many", "way", "ways"]


def test_a_setting_is_read_off_its_field() -> None:
    deep = FOUND["deep"]
    assert (deep.title, deep.about, deep.called) == ("Depth", "How deep it is.", "the depth")
    assert (deep.takes, deep.key, deep.option) == (Figure("mm", least=1, most=9), "deep_mm", "deep")
    assert FOUND["many"].takes == Figure("box", whole=True, least=1)
    assert FOUND["ways"].key == "way_by_case"
    assert FOUND["way"].takes == Usual(
        Choice({"up": "", "down": "head first"}), None, "usual", "either way"
    )


def test_what_is_set_for_kinds_is_merged_and_taken_back() -> None:
    ways, present = FOUND["ways"], Declared(ways={"tin": "up"})
    assert ways.changed(present, {"Keep case": "down"}, THERE) == {"tin": "up", "keep": "down"}
    assert ways.changed(present, {"TIN": None, "keep": "usual"}, THERE) == {}
    with pytest.raises(CaseError, match=r"biscuit: no such case kind\. Kinds are tin, keep"):
        ways.changed(present, {"biscuit": "up"}, THERE)


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("deep", 9.5, "deep: it is from 1 to 9 mm. Give another value."),
        ("deep", "thick", "deep: it is from 1 to 9 mm."),
        ("many", 0, "many: it is 1 or more."),
        ("many", 1.5, "many: it is 1 or more."),
        ("way", "sideways", "way: it is up or down, or usual."),
    ],
)
def test_what_may_not_be_is_told_with_what_may(name: str, value: object, said: str) -> None:
    with pytest.raises(InputError, match=said.replace(".", r"\.")):
        FOUND[name].changed(Declared(), value, THERE)


# --- what is declared for the collection ------------------------------------------------


@pytest.mark.parametrize("one", SETTINGS.values(), ids=lambda one: one.id)
def test_every_setting_is_titled_shortly_and_told_in_sentences(one) -> None:
    assert one.title[0].isupper()
    assert len(one.title) <= 22, "the Setup has so much room"
    assert one.about[0].isupper()
    assert one.about.endswith(".")


def test_no_two_settings_share_an_option_or_a_key() -> None:
    for group in ("", "stock", "lettering"):
        some = [one for one in SETTINGS.values() if one.home == group]
        assert len({one.key for one in some}) == len(some)
    options = [one.option for one in SETTINGS.values() if not isinstance(one.takes, ByKind)]
    assert len(set(options)) == len(options)


@pytest.mark.parametrize("one", SETTINGS.values(), ids=lambda one: one.id)
def test_what_is_set_at_first_may_be_set(one) -> None:
    there = {**THERE, Of.KIND: {}, Of.STOCK: {Settings().stock.id: "A4"}}
    value = one.value(Settings())
    changed = one.changed(Settings(), value, there)
    assert changed in (value, getattr(value, "id", value))


def test_enums_and_literals_offer_just_their_values() -> None:
    """A value that is added to either, and not to the words for it, is found here."""
    assert list(SETTINGS["rule"].takes.said) == list(Rule)
    assert list(SETTINGS["ink"].takes.said) == list(InkMode)
    for name in ("mode", "spine", "mark_end"):
        one = SETTINGS[name]
        for value in one.takes.said:
            assert one.changed(Settings(), value, THERE) == value


# --- what a setting takes ---------------------------------------------------------------


@given(st.floats(allow_nan=False, allow_infinity=False, width=16))
def test_a_figure_is_typed_with_a_point_or_a_comma(value: float) -> None:
    takes = Figure("mm", least=-1e5)
    assert takes.parse(f"{value}") == takes.parse(f" {value} mm".replace(".", ",")) == value


@pytest.mark.parametrize("said", ["", "x", "nan", "inf", "1 2", "1.2.3"])
def test_what_is_no_figure_is_told(said: str) -> None:
    with pytest.raises(ValueError, match="is no figure"):
        Figure().parse(said)


@pytest.mark.parametrize(
    ("takes", "value", "words"),
    [
        (Figure("sheet", whole=True), 1, "1 sheet"),
        (Figure("sheet", whole=True), 4, "4 sheets"),
        (Figure("mm"), 0.25, "0.25 mm"),
        (
            Lengths(("left", "right", "top", "bottom")),
            Margins(),
            "left 6 right 6 top 6 bottom 12 mm",
        ),
        (Choice({"even": "one size", 2: ""}), "even", "even: one size"),
        (Choice({"even": "one size", 2: ""}), 2, "2"),
        (Flag(), True, "yes"),
        (Name(Of.KIND), "tin", "Flat tin"),
        (Name(Of.KIND), "gone", "gone"),
        (Several(Of.PANEL), ("front", "spine"), "front, spine"),
        (Several(Of.PANEL), (), "none"),
        (Phrases(), {"Bay": "By", "Two": "2"}, "Bay=By, Two=2"),
        (Usual(Name(Of.KIND), "", "usual", "as listed"), "", "as listed"),
        (ByKind(Flag()), {"tin": True}, "Flat tin: yes"),
        (ByKind(Several(Of.PANEL), every=True), {"": ("front",)}, "every kind: front"),
        (KindsThat(Flag(), every=True), ("", "tin"), "every kind, Flat tin"),
    ],
)
def test_what_is_set_is_told_in_words(takes, value, words: str) -> None:
    assert takes.words(value, THERE) == words


@pytest.mark.parametrize(
    ("takes", "said", "value"),
    [
        (Lengths(("left", "right")), "5, 6.5", (5.0, 6.5)),
        (Choice({1: "", 2: ""}), "2", 2),
        (Phrases(), "Salt and = S&", ("Salt and", "S&")),
        (Phrases(), "Salt=", ("Salt", "")),
        (Usual(Figure(), None, "usual", "any"), "usual", None),
        (Usual(Figure(), None, "usual", "any"), "4", 4.0),
        (ByKind(Figure()), "tin = 4", ("tin", 4.0)),
    ],
)
def test_what_is_typed_is_read(takes, said: str, value: object) -> None:
    assert takes.parse(said) == value


def test_kinds_that_have_something_are_set_one_by_one_or_all_at_once() -> None:
    upright, present = SETTINGS["upright"], Settings(lettering=Lettering(upright=("keep",)))
    assert upright.changed(present, {"tin": True, "": False}, THERE) == ("keep", "tin")
    assert upright.changed(present, {"keep": False}, THERE) == ()
    assert upright.changed(present, ["Flat tin", ""], THERE) == ("", "tin")


@pytest.mark.parametrize("said", ["series", " SERIES ", "shelf mark", "=★", "= HS"])
def test_a_mark_is_a_column_or_a_sign_of_ones_own(said: str) -> None:
    assert known(Of.MARK, said, THERE).casefold() == said.strip().casefold()


@pytest.mark.parametrize("said", ["=", "= ", "wing", ""])
def test_what_is_neither_is_told_with_the_columns(said: str) -> None:
    with pytest.raises(InputError, match=r"no such column\. Columns are series, Shelf mark"):
        known(Of.MARK, said, THERE)


def test_a_list_without_columns_says_so() -> None:
    with pytest.raises(InputError, match=r"no such column\. The list has none"):
        known(Of.GROUPS, "series", THERE)
