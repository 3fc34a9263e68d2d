"""Titles of a collection: even and free, abridged and told apart, in fonts that may be gone."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import msgspec
import pytest
from pypdf import PdfReader

from engine import (
    CaseError,
    Decision,
    FontChoice,
    FontError,
    InputError,
    PictureError,
    RefusedError,
    Stage,
    Workshop,
    open_workshop,
)
from engine.colours.groups import TOLD_APART
from engine.lettering.edgemarks import STRIPES, mark_of
from engine.lettering.titler import Titler
from engine.model import Design, EdgeTitle, Furniture, Game, bare
from engine.model.settings import Settings
from tests.colours.telling import smallest_difference
from tests.conftest import Clock
from tests.lettering.making_fonts import make_font
from tests.lettering.titles import shelf
from tests.lettering.typefaces import JAPANESE

LONG = "The Extraordinarily Patient Lighthouse Keeper and the Seventeen Whispering Moles"


def take_in(shop: Workshop, folder: Path, rows: list[str], header: str = "title") -> list[str]:
    """Take in a list; return the games' ids in its order."""
    path = folder / "list.csv"
    path.write_text("\n".join([header, *rows]) + "\n", encoding="utf-8")
    known = {game.id for game in shop.games.lines()}
    shop.games.intake(path, None, "snap-shell")
    return [game.id for game in shop.games.lines() if game.id not in known]


def quoted(titles: list[str]) -> list[str]:
    return ['"' + title.replace('"', '""') + '"' for title in titles]


@pytest.fixture
def shelved(workshop: Workshop, tmp_path: Path) -> Workshop:
    """Sixty made-up games with the lengths and scripts of a real shelf."""
    take_in(workshop, tmp_path, quoted(list(dict.fromkeys(shelf(60, plain=0.9)))))
    return workshop


@pytest.fixture
def long(workshop: Workshop, tmp_path: Path) -> tuple[Workshop, str]:
    """A shelf of short titles and one that has to be abridged."""
    rows = [f"Tide {n}" for n in range(12)]
    *_, game = take_in(workshop, tmp_path, quoted([*rows, f"{LONG}: {LONG}"]))
    return workshop, game


def edges(shop: Workshop, panel: str = "long") -> dict[str, EdgeTitle]:
    return {
        one.game: next(t for t in one.design.title if t.panel == panel)
        for one in shop.designs.proposals()
    }


# --- even and free ----------------------------------------------------------------------


def test_even_has_one_size_but_for_those_it_lists(shelved: Workshop) -> None:
    shelved.setup.change(mode="even")
    report = shelved.titles.report(helps=False)
    assert {one.panel for one in report.even} == {"long", "short"}
    for one in report.even:
        heights = {
            edge.cap_height
            for p in shelved.designs.proposals()
            for edge in p.edges
            if edge.panel == one.panel and p.game not in one.apart and edge.lines[0].isascii()
        }
        assert max(heights) - min(heights) < 1e-9
        assert len(one.apart) <= one.titles // 10 + sum(
            "no font" in why or "smaller than" in why for why in one.apart.values()
        )


def test_free_is_as_large_as_it_can_be(shelved: Workshop) -> None:
    shelved.setup.change(mode="free")
    sizes = {title.size for title in edges(shelved).values()}
    assert len(sizes) > 5
    assert not shelved.titles.report(helps=False).even


def test_accepting_and_printing_leave_the_even_size_alone(shelved: Workshop) -> None:
    shelved.setup.change(mode="even")
    before = edges(shelved)
    first, *rest = before
    shelved.designs.accept([first])
    assert {key: edges(shelved)[key] for key in rest} == {key: before[key] for key in rest}


def test_a_shelf_is_set_once_while_inserts_are_accepted(
    shelved: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelved.setup.change(mode="even")
    shelved.designs.proposals()
    monkeypatch.setattr("engine.lettering.titler.Shelf", pytest.fail)
    for game in list(edges(shelved))[:5]:
        shelved.designs.accept([game])
        shelved.designs.proposals()


def test_a_game_that_comes_later_is_set_like_the_rest(shelved: Workshop, tmp_path: Path) -> None:
    shelved.setup.change(mode="even")
    before = edges(shelved)
    (fresh,) = take_in(shelved, tmp_path, ["Nine"])
    even = {one.panel: one.size for one in shelved.titles.report(helps=False).even}
    assert edges(shelved)[fresh].size == even["long"]
    assert {key: title for key, title in edges(shelved).items() if key in before} == before


def test_own_lines_are_no_larger_than_the_even_size(long: tuple[Workshop, str]) -> None:
    shop, game = long
    shop.setup.change(mode="even")
    (even,) = {one.size for one in shop.titles.report(helps=False).even if one.panel == "long"}
    shop.designs.change_title(game, "Moles")
    assert [e.size for e in shop.designs.proposal(game).edges if e.panel == "long"] == [even]


# --- abridging --------------------------------------------------------------------------


def test_steps_are_told_and_a_truncation_is_never_sure(long: tuple[Workshop, str]) -> None:
    shop, game = long
    proposal = shop.designs.proposal(game)
    steps = [step for edge in proposal.edges for step in edge.steps]
    assert any(step.startswith("subtitle: ") for step in steps)
    cut = any("…" in line for edge in proposal.edges for line in edge.lines)
    assert cut == any("truncation" in doubt for doubt in proposal.doubts)


def test_wordings_are_walked_and_each_is_reversible(long: tuple[Workshop, str]) -> None:
    shop, game = long
    words = shop.titles.wordings(game)
    assert words[0].text == f"{LONG}: {LONG}"
    assert words[0].steps == ()
    assert [len(one.steps) for one in words] == sorted(len(one.steps) for one in words)
    shorter = words[2].text
    proposal = shop.titles.change_wording(game, shorter)
    shown = {" ".join(edge.lines) for edge in proposal.edges}
    assert shown == {shorter}
    assert [one.text for one in shop.titles.wordings(game) if one.now] == [shorter]
    assert proposal.edges[0].steps == words[2].steps
    assert Decision.TITLE in proposal.accepted
    shop.titles.change_wording(game, words[0].text)
    assert " ".join(shop.designs.proposal(game).edges[0].lines) == words[0].text
    shop.undo()
    shop.undo()
    assert Decision.TITLE not in shop.designs.proposal(game).accepted


def test_words_that_are_no_wording_are_refused(long: tuple[Workshop, str]) -> None:
    shop, game = long
    with pytest.raises(InputError, match="is no wording of"):
        shop.titles.change_wording(game, "Something Else")


def test_no_two_games_are_abridged_alike_even_in_other_cases(
    workshop: Workshop, tmp_path: Path
) -> None:
    rows = [f'"{LONG}: The First Night",snap-shell', f'"{LONG}: The Second Night",soft-cassette']
    one, other = take_in(workshop, tmp_path, rows, "title,case")
    for game in (one, other):
        texts = [wording.text for wording in workshop.titles.wordings(game)]
        assert LONG not in texts, "both would be called so"
    shown = [{" ".join(e.lines) for e in workshop.designs.proposal(g).edges} for g in (one, other)]
    assert not shown[0] & shown[1]


def test_a_persons_own_words_are_given_to_no_other(workshop: Workshop, tmp_path: Path) -> None:
    rows = quoted([f"{LONG}: Moss", "Otter"])
    one, other = take_in(workshop, tmp_path, rows)
    assert LONG in [wording.text for wording in workshop.titles.wordings(one)]
    workshop.designs.change_title(other, LONG)
    assert LONG not in [wording.text for wording in workshop.titles.wordings(one)]


def test_own_short_forms_are_used(workshop: Workshop, tmp_path: Path) -> None:
    (game,) = take_in(workshop, tmp_path, ["Lantern Keeper"])
    workshop.setup.change(dictionary={"lantern": "Ln."})
    assert [one.text for one in workshop.titles.wordings(game)] == ["Lantern Keeper", "Ln. Keeper"]
    workshop.setup.change(dictionary={"lantern": ""})
    assert len(workshop.titles.wordings(game)) == 1


# --- from how far it reads --------------------------------------------------------------


def test_no_cartridge_is_sent_into_a_divider_or_a_label(workshop: Workshop, tmp_path: Path) -> None:
    title = "The Extraordinarily Patient Voyage of a Small Boat That Would Not Sink"
    take_in(workshop, tmp_path, [title])
    workshop.setup.change(distance=900.0)
    helps = [help_.words for one in workshop.titles.report().short for help_ in one.helps]
    others = [words for words in helps if words.startswith("Use the case kind")]
    assert others
    assert not any(word in other for other in others for word in ("Label for", "Divider"))


def test_titles_that_fall_short_are_listed_with_what_helps(long: tuple[Workshop, str]) -> None:
    shop, game = long
    report = shop.titles.report()
    assert report.distance == 500
    assert report.titles == 13 * 2
    assert {one.game for one in report.short} == {game}
    for one in report.short:
        # ISO 9241-303: a capital has to span 16 minutes of arc, 2.327 mm at 500 mm.
        assert one.edge.cap_height < 2.327
        assert one.edge.reads_at < 500
        assert one.helps
        assert all(help_.reads_at >= one.edge.reads_at for help_ in one.helps)
        assert sum("case kind" in help_.words for help_ in one.helps) <= 1
    shop.setup.change(distance=100.0)
    assert not shop.titles.report().short


def test_one_game_can_be_looked_at(long: tuple[Workshop, str]) -> None:
    shop, game = long
    assert shop.titles.report([game]).titles == 2
    with pytest.raises(InputError, match="no such game"):
        shop.titles.report(["nobody"])


# --- fonts ------------------------------------------------------------------------------


def test_a_chosen_font_is_kept_in_the_collection_and_printed(
    workshop: Workshop, tmp_path: Path
) -> None:
    (game,) = take_in(workshop, tmp_path, ["AB"])
    file = make_font(tmp_path / "boxes.ttf")
    plain = workshop.designs.proposal(game).design
    workshop.setup.change(font=FontChoice(file))
    file.unlink()
    design = workshop.designs.proposal(game).design
    assert design.fingerprint != plain.fingerprint
    assert {title.font.path for title in design.title if title.font} == {
        path.name for path in (workshop.folder / "fonts").iterdir()
    }
    workshop.designs.accept([game])
    (sheet,) = workshop.sheets.press(part_full=True).sheets
    assert sheet.file is not None
    fonts = PdfReader(BytesIO(Path(sheet.file).read_bytes())).pages[0]["/Resources"]["/Font"]
    names = [f.get_object()["/DescendantFonts"][0]["/BaseFont"] for f in fonts.values()]
    assert any(name.endswith("Boxes") for name in names)
    workshop.setup.change(font=None)
    assert workshop.designs.proposal(game).design == design, "what was accepted stays"
    assert any("another font" in note for note in workshop.titles.report().notes)


def test_a_font_that_cannot_be_used_is_a_sentence_and_changes_nothing(
    workshop: Workshop, tmp_path: Path
) -> None:
    before = workshop.setup.settings()
    junk = tmp_path / "junk.ttf"
    junk.write_bytes(b"not a font" * 9)
    with pytest.raises(FontError, match=r"junk\.ttf: is no TrueType"):
        workshop.setup.change(font=FontChoice(junk))
    with pytest.raises(FontError, match="cannot be read"):
        workshop.setup.change(font=FontChoice(tmp_path / "gone.ttf"))
    with pytest.raises(FontError, match="forbid embedding"):
        workshop.setup.change(font=FontChoice(make_font(tmp_path / "closed.ttf", permission=2)))
    assert workshop.setup.settings() == before


def test_a_font_that_is_gone_is_told_and_the_usual_one_proposed(
    workshop: Workshop, tmp_path: Path
) -> None:
    one, other = take_in(workshop, tmp_path, ["AB", "BA"])
    workshop.setup.change(font=FontChoice(make_font(tmp_path / "boxes.ttf")))
    workshop.designs.accept([one])
    (kept,) = (workshop.folder / "fonts").iterdir()
    kept.unlink()
    workshop.close()
    again = open_workshop(workshop.folder, Clock())
    proposal = again.designs.proposal(other)
    assert all(title.font is None for title in proposal.design.title)
    (note,) = [note for note in again.titles.report().notes if "ships" in note]
    assert kept.name in note
    accepted = again.designs.proposal(one)
    assert any(kept.name in note for edge in accepted.edges for note in edge.notes)
    assert any(kept.name in finding.where for finding in again.check().findings)
    with pytest.raises(FontError, match=kept.name):
        again.sheets.press(part_full=True)
    assert not again.sheets.report().pressed
    again.close()


# --- what the design carries ------------------------------------------------------------


def print_one(shop: Workshop, game: str) -> None:
    shop.designs.accept([game])
    (sheet,) = shop.sheets.press(part_full=True).sheets
    assert sheet.number is not None
    shop.sheets.settle(sheet.number)


def test_a_mark_set_after_printing_is_a_reprint(workshop: Workshop, tmp_path: Path) -> None:
    (game,) = take_in(workshop, tmp_path, ["Tide,1994"], "title,year")
    print_one(workshop, game)
    assert workshop.designs.proposal(game).stage is Stage.PRINTED
    workshop.setup.change(mark="year")
    assert workshop.designs.proposal(game).stage is Stage.PRINTED, "what was accepted stays"
    workshop.designs.reopen([game], [Decision.TITLE])
    assert {title.mark for title in workshop.designs.proposal(game).design.title} == {"1994"}
    workshop.designs.accept([game])
    assert workshop.designs.proposal(game).stage is Stage.TITLE_SET
    assert workshop.progress().reprints == 1
    workshop.designs.reopen([game], [Decision.TITLE])
    workshop.setup.change(mark="")
    workshop.designs.accept([game])
    assert workshop.designs.proposal(game).stage is Stage.PRINTED, "it is what was printed again"


def test_designs_that_say_no_more_keep_their_fingerprint() -> None:
    art = b'"art":{},"colours":{"base":"#000000","text":"#ffffff"}'
    old = b'{"case":"a",' + art + b',"title":[{"panel":"long","lines":["Tide"],"size":9.0}]}'
    design = msgspec.json.decode(old, type=Design)
    assert msgspec.json.encode(design) == old
    said = EdgeTitle("long", ("Tide",), 9.0, float("1"), furniture=Furniture(), mark="".join([]))
    assert msgspec.json.encode(bare(said)) == b'{"panel":"long","lines":["Tide"],"size":9.0}'


def test_a_shelf_is_even_where_nothing_is_set() -> None:
    assert msgspec.json.decode(b'{"batch_size":4}', type=Settings).lettering.mode == "even"


# --- marks and stripes ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "mark"),
    [
        ("", ""),
        ("037", "037"),
        ("1994", "1994"),
        ("Harbour Street", "HS"),
        ("Moss", "Moss"),
        ("Tales of the Sea 2", "TOTS"),
        ("Lantern", "L"),
        ("HS 017", "HS 017"),
        ("Lantern Keeper 12", "LK12"),
    ],
)
def test_a_long_value_gives_its_first_letters(said: str, mark: str) -> None:
    game = Game(id="a", title="A", added_at=Clock()(), series=said)
    assert mark_of(game, "Series") == mark


def test_a_sign_of_ones_own_is_the_mark_of_every_edge(workshop: Workshop, tmp_path: Path) -> None:
    list_file = tmp_path / "two.txt"
    list_file.write_text("Lantern Bay\nOtter Ferry\n", encoding="utf-8")
    workshop.games.intake(list_file)
    assert workshop.setup.change(mark="=★").lettering.mark == "=★"
    edges = [edge for proposal in workshop.designs.proposals() for edge in proposal.edges]
    assert {edge.mark for edge in edges} == {"★"}
    for slip in ("=", "= ", "no such column"):
        with pytest.raises(InputError, match="no such column"):
            workshop.setup.change(mark=slip)


def test_each_value_of_a_column_has_its_stripe_and_later_ones_change_none(
    workshop: Workshop, tmp_path: Path
) -> None:
    rows = ["Tide,Puzzle,7", "Moss,Sport,8", "Otter,Puzzle,9"]
    take_in(workshop, tmp_path, rows, "title,genre,Shelf mark")
    workshop.setup.change(stripe="Genre", mark="shelf MARK")
    titles = edges(workshop)
    assert titles["tide"].stripe == titles["otter"].stripe != titles["moss"].stripe
    assert [titles[game].mark for game in ("tide", "moss", "otter")] == ["7", "8", "9"]
    take_in(workshop, tmp_path, ["Fern,Racing,1"], "title,genre,Shelf mark")
    assert {key: title for key, title in edges(workshop).items() if key != "fern"} == titles


def test_stripes_are_told_apart_by_every_eye() -> None:
    assert smallest_difference(STRIPES) >= TOLD_APART


def test_a_column_that_is_not_there_is_named_with_those_that_are(
    workshop: Workshop, tmp_path: Path
) -> None:
    take_in(workshop, tmp_path, ["Tide,3"], "title,Shelf mark")
    with pytest.raises(InputError, match=r"wing: no such column.*Shelf mark"):
        workshop.setup.change(mark="wing")


# --- settings ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"mode": "wavy"}, "mode: it is even or free"),
        ({"lines": 3}, "lines: it is 1 or 2"),
        ({"narrowest": 0.3}, "narrowest: it is from 0.7 to 1"),
        ({"distance": 5.0}, "distance: it is from 100 to 10000 mm"),
        ({"smallest": 20.0, "largest": 10.0}, "smallest: is larger than"),
    ],
)
def test_a_wrong_setting_says_what_it_may_be(
    workshop: Workshop, fields: dict[str, object], words: str
) -> None:
    with pytest.raises(InputError, match=words):
        workshop.setup.change(**fields)


def test_upright_is_for_turned_edges_of_the_kinds_named(workshop: Workshop, tmp_path: Path) -> None:
    (game,) = take_in(workshop, tmp_path, ["月の港"])
    workshop.setup.change(font=FontChoice(Path(JAPANESE.path)), upright=["SNAP-SHELL"])
    assert workshop.setup.settings().lettering.upright == ("snap-shell",)
    assert {t.panel for t in workshop.designs.proposal(game).design.title if t.upright} == {
        "long",
        "short",
    }
    workshop.setup.change(poses={"snap-shell": "stack"})
    assert not any(t.upright for t in workshop.designs.proposal(game).design.title)
    with pytest.raises(CaseError, match="no such case kind"):
        workshop.setup.change(upright=["biscuit tin"])


def test_titlers_compare_by_what_titles_hang_on(shelved: Workshop) -> None:
    titler = shelved._session.snapshot.proposer.titler
    shelved.designs.accept([shelved.games.lines()[0].id])
    assert shelved._session.snapshot.proposer.titler is titler
    shelved.designs.change_cases([shelved.games.lines()[1].id], "soft-cassette")
    assert isinstance(shelved._session.snapshot.proposer.titler, Titler)
    assert shelved._session.snapshot.proposer.titler is not titler


@pytest.fixture(autouse=True)
def closed(workshop: Workshop) -> Iterator[None]:
    yield
    workshop.close()


# --- logos ------------------------------------------------------------------------------


def draw_logo(path: Path, size: tuple[int, int]) -> Path:
    from PIL import Image

    Image.new("RGB", size, "#d02020").save(path)
    return path


def test_a_wide_logo_stands_for_the_title_and_is_drawn(workshop: Workshop, tmp_path: Path) -> None:
    (game,) = take_in(workshop, tmp_path, ["Tide"])
    report = workshop.titles.change_logo(game, draw_logo(tmp_path / "wide.png", (1200, 140)))
    assert all("stands for the title" in words for words in report.words)
    (long, short) = report.proposal.edges
    assert (long.lines, long.logo) == ((), "logo")
    assert long.reads_at > 500
    from PIL import Image

    picture = Image.open(BytesIO(workshop.proofs.proof(game, 150))).convert("RGB")
    red = sum(r > 180 and g < 60 for r, g, b in picture.getdata())
    assert red > 3000
    workshop.designs.reopen([game], [Decision.TITLE])
    assert workshop.designs.proposal(game).edges[0].lines == ("Tide",)
    del short


def test_a_squarish_logo_is_flagged_and_gives_way(workshop: Workshop, tmp_path: Path) -> None:
    (game,) = take_in(workshop, tmp_path, ["Tide"])
    logo = draw_logo(tmp_path / "square.png", (500, 500))
    report = workshop.titles.change_logo(game, logo)
    assert all("read from only" in words for words in report.words)
    assert all(edge.lines == ("Tide",) for edge in report.proposal.edges)
    assert {edge.logo for edge in report.proposal.edges} == {"logo and title"}
    alone = workshop.titles.change_logo(game, logo, alone=True).proposal
    assert {edge.logo for edge in alone.edges} == {"logo"}
    assert alone.edges[0].cap_height < 2
    assert game in {one.game for one in workshop.titles.report().short}
    believed = workshop.titles.change_logo(game, logo, share=0.9)
    assert {edge.logo for edge in believed.proposal.edges} == {"logo"}
    with pytest.raises(InputError, match="part of the logo's height"):
        workshop.titles.change_logo(game, logo, share=3)


def test_a_logo_that_is_gone_stops_the_press(workshop: Workshop, tmp_path: Path) -> None:
    (game,) = take_in(workshop, tmp_path, ["Tide"])
    workshop.titles.change_logo(game, draw_logo(tmp_path / "wide.png", (1200, 140)))
    workshop.designs.accept([game])
    for path in (workshop.folder / "pictures").iterdir():
        path.unlink()
    with pytest.raises(PictureError, match="logo is gone"):
        workshop.sheets.press(part_full=True)


# --- walking and choosing ---------------------------------------------------------------


def test_wordings_go_round(workshop: Workshop, tmp_path: Path) -> None:
    moss, tide = take_in(workshop, tmp_path, quoted(["The Moss: A Quiet Game", "Tide"]))
    shown = [" ".join(workshop.titles.next_wording(moss).edges[0].lines) for _ in range(3)]
    assert shown == ["The Moss", "Moss", "The Moss: A Quiet Game"]
    with pytest.raises(RefusedError, match="nothing shortens it"):
        workshop.titles.next_wording(tide)


def test_fonts_are_found_by_their_names_and_files(workshop: Workshop, tmp_path: Path) -> None:
    names = [name for _, _, name in workshop.titles.fonts("noto SANS arabic")]
    assert names
    assert all("Arabic" in name for name in names)
    file = make_font(tmp_path / "boxes.ttf")
    assert workshop.titles.fonts(str(file)) == ((str(file), 0, "Boxes Regular"),)
    assert workshop.titles.fonts(str(make_font(tmp_path / "closed.ttf", permission=2))) == ()
