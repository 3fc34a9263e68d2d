"""Whose a picture is by what it says: readings as a reader gives them, told from by hand."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from engine.intake import FileMatch, Shown, match_pictures
from engine.model import PictureRole
from engine.model.reading import Reading, TextLine

SURE = 0.85


def line(text: str, top: float, height: float = 0.1, left: float = 0.1) -> TextLine:
    return TextLine(text, left, top, min(1.0, left + 0.07 * len(text) * height * 10), top + height)


def says(*lines: TextLine | str, **shape: object) -> Shown:
    """A cover that says this, a text alone in letters of a tenth of its height."""
    placed = [
        one if isinstance(one, TextLine) else line(one, 0.1 + 0.12 * at)
        for at, one in enumerate(lines)
    ]
    return Shown(800, 1000, Reading(lines=tuple(placed)), **shape)  # type: ignore[arg-type]


def match(titles: Sequence[str], covers: dict[str, Shown]) -> dict[str, FileMatch]:
    listed = {title: title for title in titles}
    return match_pictures(listed, list(covers), list(covers.values()))


def test_a_file_that_says_nothing_finds_its_game_by_its_cover() -> None:
    covers = {"IMG_0031.jpg": says("LANTERN", "BAY"), "IMG_0032.jpg": says("Tin Gate")}
    found = match(["Tin Gate", "Lantern Bay"], covers)
    assert found["Lantern Bay"].file == "IMG_0031.jpg"
    assert found["Tin Gate"].file == "IMG_0032.jpg"
    assert all(one.confidence >= SURE for one in found.values())
    assert found["Tin Gate"].words == "its cover says so"


@pytest.mark.parametrize(
    ("title", "lines"),
    [
        ("Café Ébène", ["CAFE EBENE"]),
        ("The Harbour", ["HARBOUR"]),
        ("Harbour, The", ["The", "Harbour"]),
        ("Salt & Rope", ["SALT", "AND ROPE"]),
        ("Tide 3", ["TIDE III"]),
        ("Three Buoys", ["3 Buoys"]),
        ("Valley of Ivory", ["Valley of lvory"]),
        ("Тихая Гавань", ["Тихая Гавань"]),
        ("Πέτρινο Γεφύρι", ["Πέτρινο", "Γεφύρι"]),
        ("みなとの灯台", ["みなとの灯台"]),
    ],
)
def test_a_way_of_writing_is_no_difference(title: str, lines: list[str]) -> None:
    found = match([title], {"IMG_0001.jpg": says(*lines)})
    assert found[title].confidence >= SURE


def test_small_print_and_a_maker_take_nothing_that_matters() -> None:
    cover = says(
        line("Lantern Bay", 0.1), line("Two Herons", 0.9, 0.04), line("For two", 0.8, 0.03)
    )
    assert match(["Lantern Bay"], {"a.jpg": cover})["Lantern Bay"].confidence >= SURE


@pytest.mark.parametrize(
    "cover",
    [
        says("Lantern Bay 2"),
        says("Lantern", "Bay", "Rescue"),
        says(line("Find the lantern bay", 0.8, 0.03), line("Copper Kite", 0.1, 0.15)),
        says(line("Lantern Bay", 0.9, 0.02), line("Copper Kite", 0.1, 0.15)),
        says("Lantern Day"),
        says("Bay"),
        says(),
        Shown(800, 1000),
    ],
)
def test_what_may_be_another_game_is_not_sure(cover: Shown) -> None:
    found = match(["Lantern Bay"], {"IMG_0001.jpg": cover})
    assert not found or found["Lantern Bay"].confidence < SURE


def test_a_cover_that_says_another_title_than_its_name_is_doubted() -> None:
    covers = {"Tin Gate.jpg": says("Copper Kite"), "Copper Kite.jpg": says("Tin Gate")}
    found = match(["Tin Gate", "Copper Kite"], covers)
    assert all(one.confidence < SURE for one in found.values())
    assert found["Tin Gate"].words == "its name says Copper Kite, but its cover Tin Gate"


def test_of_a_series_too() -> None:
    found = match(["Tide 2", "Tide 3"], {"Tide 2.jpg": says("Tide 3")})
    assert all(one.confidence < SURE for one in found.values())


def test_name_and_cover_that_agree_make_sure_what_neither_does() -> None:
    title, file = "Quay Lights Over Water", "quay lights over warter bay.jpg"
    cover = says(line("Quay Lights Over Water", 0.9, 0.03), line("Copper", 0.1, 0.12))
    named = match_pictures({title: title}, [file])[title].confidence
    said = match([title], {"IMG_1.jpg": cover})[title].confidence
    both = match([title], {file: cover})[title]
    assert max(named, said) < SURE <= both.confidence


def test_a_name_stands_where_the_cover_says_nothing_of_the_list() -> None:
    found = match(["Tin Gate"], {"Tin Gate.jpg": says("みなと")})
    assert found["Tin Gate"].confidence == 1.0


def test_a_wrap_that_says_its_title_thrice_is_sure_and_known_for_one() -> None:
    cover = says(
        line("Tin Gate", 0.1),
        line("Tin Gate Mossgate", 0.5, 0.09),
        line("Tin Gate", 0.8, 0.08),
        split=True,
    )
    one = match(["Tin Gate"], {"IMG_1.jpg": cover})["Tin Gate"]
    assert (one.confidence >= SURE, one.role) == (True, PictureRole.WRAP)


# --- sides --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("file", "shown", "role"),
    [
        ("Tin Gate.png", None, PictureRole.FRONT),
        ("Tin Gate back.png", None, PictureRole.BACK),
        ("Tin Gate (Rückseite).png", None, PictureRole.BACK),
        ("Tin Gate - title screen.png", None, PictureRole.SCREEN),
        ("Tin Gate [cart].png", None, PictureRole.CARTRIDGE),
        ("Tin Gate logo.png", None, PictureRole.LOGO),
        ("Tin Gate spine.png", None, PictureRole.SPINE),
        ("Tin Gate manual.png", None, PictureRole.OTHER),
        ("backs/Tin Gate.png", None, PictureRole.BACK),
        ("Tin Gate cover.png", says("Tin Gate", split=True), PictureRole.WRAP),
        ("Tin Gate.png", says("Tin Gate", dot=4), PictureRole.SCREEN),
        ("Tin Gate.png", Shown(60, 900), PictureRole.SPINE),
        (
            "Tin Gate.png",
            says(line("Tin Gate", 0.02), *(line("and the ferry leaves at noon", 0.2 + n / 20, 0.03)
                                           for n in range(8))),
            PictureRole.BACK,
        ),
    ],
)  # fmt: skip
def test_the_side_is_told_by_name_shape_and_words(
    file: str, shown: Shown | None, role: PictureRole
) -> None:
    found = match_pictures({"Tin Gate": "Tin Gate"}, [file], [shown or Shown(600, 800)])
    assert found["Tin Gate"].role is role


def test_a_game_owns_all_its_sides_and_is_no_less_sure_for_that() -> None:
    files = ["Tin Gate back.png", "Tin Gate.png", "Tin Gate screenshot.png", "Copper Kite.png"]
    found = match_pictures({t: t for t in ("Tin Gate", "Copper Kite")}, files)
    one = found["Tin Gate"]
    assert (one.file, one.confidence, one.role) == ("Tin Gate.png", 1.0, PictureRole.FRONT)
    assert [(side.file, side.role) for side in one.sides] == [
        ("Tin Gate back.png", PictureRole.BACK),
        ("Tin Gate screenshot.png", PictureRole.SCREEN),
    ]
    assert not found["Copper Kite"].sides


def test_files_with_the_same_bytes_are_no_rivals() -> None:
    shown = [Shown(600, 800, content="a"), Shown(600, 800, content="a")]
    found = match_pictures({"t": "Tin Gate"}, ["a/Tin Gate.png", "b/Tin Gate.png"], shown)
    assert found["t"].confidence == 1.0


# --- the order of the list -----------------------------------------------------------------

TITLES = ["Tin Gate", "Copper Kite", "Lantern Bay", "Plum Mill", "Ivory Stair", "Kelp Wharf"]


def test_files_numbered_like_the_list_are_proposed_and_not_sure() -> None:
    found = match_pictures({t: t for t in TITLES}, [f"{n}.jpg" for n in range(1, 7)])
    assert [found[title].file for title in TITLES] == [f"{n}.jpg" for n in range(1, 7)]
    assert all(one.confidence < SURE for one in found.values())


def test_covers_that_agree_with_the_order_make_it_sure() -> None:
    covers = {f"scan{n}.jpg": says(title) for n, title in enumerate(TITLES, start=4)}
    covers["scan6.jpg"] = says("みなと")
    found = match(TITLES, covers)
    assert found["Lantern Bay"].file == "scan6.jpg"
    assert found["Lantern Bay"].confidence >= SURE


def test_covers_in_another_order_leave_none() -> None:
    covers = {f"{n}.jpg": says(title) for n, title in enumerate(reversed(TITLES), start=1)}
    covers["3.jpg"] = says("みなと")
    found = match(TITLES, covers)
    assert all(found[t].words == "its cover says so" for t in found)
    assert len(found) == len(TITLES) - 1


def test_a_cameras_numbers_alone_say_nothing() -> None:
    assert match_pictures({t: t for t in TITLES}, [f"IMG_{n:04}.jpg" for n in range(1, 7)]) == {}


def test_what_a_person_chose_stays() -> None:
    covers = [says("Tin Gate"), says("Copper Kite")]
    listed = {"t": "Tin Gate", "c": "Copper Kite"}
    found = match_pictures(listed, ["1 a.jpg", "2 b.jpg"], covers, {"c": 0})
    assert found["c"].file == "1 a.jpg"
    assert "t" not in found
