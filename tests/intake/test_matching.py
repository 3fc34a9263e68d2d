from __future__ import annotations

import random
import unicodedata
from collections.abc import Sequence

import pytest

from engine.intake import match_pictures, matching
from engine.intake.likeness import likeness
from engine.intake.readings import NameReading

SURE = 0.85

SYLLABLES = ["ba", "ke", "lo", "mi", "nu", "ra", "se", "to", "vi", "zu"]
PLACES = ["Harbour", "Lantern", "Orchard"]


def match(titles: Sequence[str], files: Sequence[str]) -> dict[str, tuple[str, float]]:
    found = match_pictures({title: title for title in titles}, files)
    return {title: (one.file, one.confidence) for title, one in found.items()}


@pytest.mark.parametrize(
    ("title", "file"),
    [
        ("Tide Table", "Tide Table.png"),
        ("Tide Table", "tide_table.JPG"),
        ("Tide Table", "TIDE.TABLE.jpeg"),
        ("Tide Table", "tide-table.webp"),
        ("Tide Table", "TideTable.png"),
        ("Tide Table", "tidetable.png"),
        ("Tide Table", "tide%20table.png"),
        ("Tide Table", "Tide+Table.png"),
        ("The Harbour", "Harbour, The.png"),
        ("The Harbour", "harbour_the.png"),
        ("The Harbour", "Harbour.png"),
        ("The Harbour: Night Watch", "Harbour, The - Night Watch.png"),
        ("Harbour, The", "the harbour.png"),
        ("Der Leuchtturm", "Leuchtturm, Der.png"),
        ("Tide Table", "012 - Tide Table.png"),
        ("Tide Table", "012_tide_table.png"),
        ("Tide Table", "#12. Tide Table.png"),
        ("Tide Table", "[12] Tide Table.png"),
        ("012 - Tide Table", "Tide Table.png"),
        ("Tide Table", "Tide Table (Europe).png"),
        ("Tide Table", "Tide Table (USA, Japan) (Rev 2).png"),
        ("Tide Table", "Tide Table (En,Fr,De) [!].png"),
        ("Tide Table", "Tide Table [b1].png"),
        ("Tide Table", "Tide Table v1.2.png"),
        ("Tide Table", "tide_table_rev_a.png"),
        ("Tide Table", "Tide Table (1994).png"),
        ("Tide Table (1994)", "Tide Table 1994.png"),
        ("Tide Table", "tide table cover.png"),
        ("Tide Table", "tide_table_full cover.png"),
        ("Tide", "Tide_full cover.png"),
        ("Tide Table", "Tide Table (full cover).png"),
        ("The Tide Is Full", "The Tide Is Full cover.png"),
        ("Tide Table", "tide_table_usa.png"),
        ("Tide Table", "tide_table_600x800.png"),
        ("Tide Table", "tide table 300dpi.png"),
        ("Tide Table", "Tide Table/cover.png"),
        ("Tide III", "tide 3.png"),
        ("Tide 3", "Tide III.png"),
        ("Tide 4", "TideIV.png"),
        ("Tide IX", "tide_09.png"),
        ("Three Buoys", "3 buoys.png"),
        ("Tide, Vol. 2", "Tide Volume 2.png"),
        ("Tide²", "Tide 2.png"),
        ("Ropes 1,000", "ropes 1000.png"),
        ("Café Ébène", "cafe ebene.png"),
        ("Café Ébène", unicodedata.normalize("NFD", "Café Ébène.png")),
        ("Smørbrød", "smorbrod.png"),
        ("Übersee", "Uebersee.png"),
        ("Salt & Rope", "Salt and Rope.png"),
        ("Salt & Rope", "salt-rope.png"),
        ("Pilot's Log", "Pilots Log.png"),
        ("Pilot's Log", "Pilot_s Log.png"),
        ("Where to? Anywhere!", "Where to_ Anywhere_.png"),
        ("Return of the Tide", "Return of Tide.png"),
        ("Harbour Lights", "Harbor Lights.png"),
        ("Night Harbour", "Harbour Night.png"),
        ("灯台の夜", "灯台の夜.png"),
        ("X", "x.png"),
        ("1931", "1931.png"),
        ("12 Knots", "12 Knots.png"),
        ("Tide (Trial)", "Tide Trial.png"),
    ],
)
def test_a_way_of_writing_is_no_difference(title: str, file: str) -> None:
    found, confidence = match([title], [file])[title]
    assert found == file
    assert confidence >= SURE


@pytest.mark.parametrize(
    ("title", "file"),
    [
        ("Tide", "Tide 2.png"),
        ("Tide 2", "Tide.png"),
        ("Tide 2", "Tide 3.png"),
        ("Tide 2", "Tide III.png"),
        ("Tide V", "Tide.png"),
        ("Tide 2", "tide_2_3.png"),
        ("Tide Two", "Tide Three.png"),
        ("Tide 12", "Tide 1 2.png"),
        ("Tide", "Tide (2).png"),
        ("Tide (1994)", "Tide (1998).png"),
        ("Tide (Disc 1)", "Tide (Disc 2).png"),
        ("Mooring", "Tide.png"),
        ("Tide 2", "2.png"),
        ("???", "!!!.png"),
    ],
)
def test_other_games_are_not_even_proposed(title: str, file: str) -> None:
    assert match([title], [file]) == {}


@pytest.mark.parametrize(
    ("title", "file"),
    [
        ("Tide: Night Watch", "Tide.png"),
        ("Harbour Gold", "Harbour Silver.png"),
        ("Harbour Light", "Harbour Night.png"),
        ("Plan A", "Plan.png"),
        ("Plan A", "Plan B.png"),
        ("Tide Trial", "Tide.png"),
        ("Harbour", "Harbour Back.png"),
        ("Tide 2", "2 - Tide.png"),
        ("Quay Lights Over Water", "Quay Lights Over Warter Bay.png"),
    ],
)
def test_what_could_be_another_game_is_left_to_the_person(title: str, file: str) -> None:
    found = match([title], [file])
    assert not found or found[title][1] < SURE


def test_sequels_each_get_their_own() -> None:
    titles = ["Tide", "Tide 2", "Tide III", "Tide 4", "Tide 10"]
    files = ["tide 10.png", "tide ii.png", "tide.png", "tide_3.png", "tide 5.png"]
    assert match(titles, files) == {
        "Tide": ("tide.png", 1.0),
        "Tide 2": ("tide ii.png", 1.0),
        "Tide III": ("tide_3.png", 1.0),
        "Tide 10": ("tide 10.png", 1.0),
    }


def test_a_runner_up_close_behind_makes_a_match_less_sure() -> None:
    alone = match(["Tide"], ["Tide (USA).png"])["Tide"]
    beside = match(["Tide"], ["Tide (Europe).png", "Tide (USA).png"])["Tide"]
    assert alone[1] >= SURE > beside[1]
    assert beside[0] == "Tide (Europe).png"


def test_the_very_name_has_no_rivals_but_its_equals() -> None:
    assert match(["Tide"], ["Tide (USA).png", "Tide.png"])["Tide"] == ("Tide.png", 1.0)
    found, confidence = match(["Tide"], ["a/Tide.png", "b/Tide.png"])["Tide"]
    assert (found, confidence < SURE) == ("a/Tide.png", True)


def test_a_file_that_another_title_explains_is_no_rival() -> None:
    found = match(["Harbour Lights", "Harbour Light"], ["Harbour Lights.png", "Harbor Light.png"])
    assert found["Harbour Lights"] == ("Harbour Lights.png", 1.0)
    assert found["Harbour Light"][0] == "Harbor Light.png"
    assert found["Harbour Light"][1] >= SURE


def test_two_titles_that_want_one_file_make_it_less_sure() -> None:
    found = match(["Harbor Lights", "Harbour Light"], ["Harbour Lights.png"])
    ((_, confidence),) = found.values()
    assert confidence < SURE


def test_the_front_goes_before_the_back() -> None:
    found = match(["Tide Table"], ["Tide Table/back.png", "Tide Table/front.png"])
    assert found["Tide Table"][0] == "Tide Table/front.png"


def test_a_numbered_folder_is_known_by_all_its_files() -> None:
    titles = ["Tide", "Reef", "Quay", "Buoy"]
    files = ["1 Tide.png", "2 Reef.png", "3 Quay.png", "4 Buoy.png"]
    assert all(confidence >= SURE for _, confidence in match(titles, files).values())
    assert match(["Knots"], ["3 Knots.png"]) == {}


def test_a_word_at_the_end_of_all_files_is_a_remark() -> None:
    files = ["tide front.png", "reef front.png", "quay front.png"]
    assert all(found[1] >= SURE for found in match(["Tide", "Reef", "Quay"], files).values())


def test_titles_that_are_the_same_share_a_file() -> None:
    found = match_pictures(
        {"tide": "The Tide", "tide-b": "Tide, The", "reef": "Reef"}, ["tide.png"]
    )
    assert set(found) == {"tide", "tide-b"}
    assert found["tide"] == found["tide-b"]


def test_nothing_to_match() -> None:
    assert match_pictures({}, ["tide.png"]) == {}
    assert match_pictures({"tide": "Tide"}, []) == {}


def test_long_lists_are_not_compared_all_with_all(monkeypatch: pytest.MonkeyPatch) -> None:
    """The looks that are taken grow with the list, not with its square."""
    looks = [0]

    def counted(title: NameReading, file: NameReading) -> float:
        looks[0] += 1
        return likeness(title, file)

    monkeypatch.setattr(matching, "likeness", counted)
    chance = random.Random(3)
    words = ["".join(chance.choices(SYLLABLES, k=5)) for _ in range(900)]
    titles = [f"{word.title()} {place}" for word in dict.fromkeys(words) for place in PLACES]
    files = [f"{title.lower().replace('a', '', 1)}.png" for title in titles]  # none is the same
    chance.shuffle(files)
    found = match(titles, files)
    assert len(found) > 0.9 * len(titles)
    assert looks[0] < 60 * len(titles)
