"""Fonts that stand in: chosen for what a title lacks, kept with the collection once accepted."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest

from engine import Decision, Design, FontError, Pattern, Workshop, open_workshop
from engine.lettering import StandIns, default_font, fallbacks, keep_fonts, machine_fonts
from engine.model import Accepted, Art, Colours, EdgeTitle, FontRef, Game
from tests.conftest import Clock
from tests.lettering.making_fonts import make_font
from tests.lettering.typefaces import ARABIC, HEBREW, TAMIL

Have = Callable[..., None]
SHIPS = default_font()
SEMI_BOLD = (("wdth", 100.0), ("wght", 600.0))


# --- which they are ---------------------------------------------------------------------


def test_nothing_stands_in_where_nothing_lacks(tmp_path: Path) -> None:
    assert StandIns(tmp_path).of(SHIPS, "Rook Φάρος Маяк \u200d\u3000") == ()


def test_the_best_font_to_hand_stands_in_at_semi_bold(tmp_path: Path) -> None:
    assert StandIns(tmp_path).of(SHIPS, "كتاب") == (FontRef(ARABIC.path, 0, SEMI_BOLD),)


def test_a_font_that_has_all_goes_before_two_that_share(tmp_path: Path, to_hand: Have) -> None:
    one, two, both = (
        make_font(tmp_path / f"{name}.ttf", chars=chars)
        for name, chars in (("a", "灯"), ("b", "台"), ("c", "灯台"))
    )
    to_hand(one, two)
    assert [Path(f.path) for f in StandIns(tmp_path).of(SHIPS, "灯台守")] == [one, two]
    to_hand(one, two, both)
    assert [Path(f.path) for f in StandIns(tmp_path).of(SHIPS, "灯台")] == [both]
    assert StandIns(tmp_path).of(SHIPS, "☃") == ()


def test_what_stands_in_already_is_asked_first(tmp_path: Path, to_hand: Have) -> None:
    first = make_font(tmp_path / "z.ttf", chars="灯台")
    second = make_font(tmp_path / "a.ttf", chars="台守")
    to_hand(first, second)
    found = StandIns(tmp_path).of(SHIPS, "灯", "台", "守")
    assert [Path(font.path) for font in found] == [first, second]


def test_only_what_is_said_needs_its_fonts(tmp_path: Path) -> None:
    stand_ins = StandIns(tmp_path)
    found = stand_ins.of(SHIPS, "灯 אור")
    assert len(found) == 2
    assert [font.path for font in stand_ins.used(found, SHIPS, "Rook אור")] == [HEBREW.path]


def test_the_font_that_ships_stands_in_for_another_first(tmp_path: Path) -> None:
    boxes = FontRef(str(make_font(tmp_path / "boxes.ttf")))
    assert StandIns(tmp_path).of(boxes, "Маяк") == ()
    assert fallbacks(boxes, (TAMIL,)) == (SHIPS, TAMIL)
    assert fallbacks(SHIPS, (TAMIL,)) == (TAMIL,)


def accepted_in(font: FontRef, key: str = "a") -> Game:
    title = EdgeTitle("long", ("灯",), 9.0, stand_ins=(font,))
    return Game(key, "灯", Clock()(), accepted=Accepted(title=(title,)))


def test_what_the_collection_keeps_is_asked_first(tmp_path: Path, to_hand: Have) -> None:
    make_font(tmp_path / "kept.ttf", chars="灯台")
    make_font(tmp_path / "other.ttf", chars="灯台")
    better = make_font(tmp_path / "better.ttf", chars="灯台守", family="Boxes Sans", weight=600)
    to_hand(better)
    games = [
        accepted_in(FontRef("other.ttf")),
        *(accepted_in(FontRef("kept.ttf"), key) for key in "bc"),
        accepted_in(FontRef("gone.ttf"), "d"),
    ]
    stand_ins = StandIns(tmp_path, games)
    assert stand_ins.of(SHIPS, "灯台") == (FontRef("kept.ttf"),)
    assert [Path(font.path) for font in stand_ins.of(SHIPS, "灯守")] == [better]


# --- keeping them -----------------------------------------------------------------------


def test_every_font_of_the_machine_is_kept_once_and_named_so() -> None:
    mine, kept = FontRef("/fonts/x.ttf", 1), FontRef("k.ttf")
    design = Design(
        case="snap-shell",
        art=Art(words="灯", stand_ins=(mine,)),
        colours=Colours("#000000", "#ffffff"),
        title=(
            EdgeTitle("long", ("灯",), 9.0, stand_ins=(kept, mine)),
            EdgeTitle("short", ("A",), 9.0),
        ),
    )
    assert machine_fonts(design) == (mine,)
    asked: list[FontRef] = []

    def keep(font: FontRef) -> FontRef:
        asked.append(font)
        return msgspec.structs.replace(font, path="x.ttf")

    done = keep_fonts(design, keep)
    assert asked == [mine]
    assert done.art.stand_ins == (FontRef("x.ttf", 1),)
    assert [one.stand_ins for one in done.title] == [(kept, FontRef("x.ttf", 1)), ()]
    assert keep_fonts(done, keep) is done
    assert keep_fonts(Accepted(), keep) == Accepted()


# --- from end to end --------------------------------------------------------------------


def take_in(shop: Workshop, *titles: str) -> list[str]:
    path = shop.folder.parent / "list.txt"
    path.write_text("\n".join(titles) + "\n", encoding="utf-8")
    known = {game.id for game in shop.games.lines()}
    shop.games.intake(path, None, "snap-shell")
    return [game.id for game in shop.games.lines() if game.id not in known]


def fonts_of(shop: Workshop, game: str) -> set[FontRef]:
    design = shop.designs.proposal(game).design
    return {*design.art.stand_ins, *(f for title in design.title for f in title.stand_ins)}


def kept_by(shop: Workshop) -> set[str]:
    return {path.name for path in (shop.folder / "fonts").iterdir()}


def moved_to(shop: Workshop, folder: Path) -> Workshop:
    """Copy a collection, close it, and open the copy."""
    shop.close()
    shutil.copytree(shop.folder, folder)
    return open_workshop(folder, Clock())


def pressed(shop: Workshop) -> bytes:
    (sheet,) = shop.sheets.press(part_full=True).sheets
    assert sheet.file is not None
    return Path(sheet.file).read_bytes()


def test_an_accepted_title_prints_the_same_where_the_font_is_not(
    workshop: Workshop, tmp_path: Path, to_hand: Have
) -> None:
    workshop.setup.change(mark="=★")
    light, rook = take_in(workshop, "灯台守 كتاب", "Rook")
    proposed = workshop.proofs.proof(light)
    assert kept_by(workshop) == set()
    assert not any(font.is_kept for font in fonts_of(workshop, light))
    workshop.art.choose_pattern(rook, Pattern.TITLE)
    workshop.designs.accept([light, rook])
    named = fonts_of(workshop, light)
    assert len(named) == 2
    assert {font.path for font in named} == kept_by(workshop)
    assert fonts_of(workshop, rook) < named, "the mark's"
    assert workshop.check().ok
    assert workshop.proofs.proof(light) == proposed

    shutil.copytree(workshop.folder, tmp_path / "here")
    away = moved_to(workshop, tmp_path / "away")
    here = open_workshop(tmp_path / "here", Clock())
    proof, page = here.proofs.proof(light), pressed(here)
    here.close()
    to_hand()
    assert away.titles.fonts() == ()
    assert away.proofs.proof(light) == proof
    assert pressed(away) == page
    away.close()


def test_art_that_is_the_title_prints_the_same_where_the_font_is_not(
    workshop: Workshop, tmp_path: Path, to_hand: Have
) -> None:
    (light,) = take_in(workshop, "灯台守")
    art = workshop.art.choose_pattern(light, Pattern.TITLE).design.art
    assert {font.path for font in art.stand_ins} == kept_by(workshop)
    workshop.designs.accept([light], [Decision.CASE, Decision.COLOUR, Decision.TITLE])
    changed = workshop.designs.change_title(light, "灯 אור").design
    assert len(changed.art.stand_ins) == 2
    assert changed.art.stand_ins == changed.title[0].stand_ins
    proof = workshop.proofs.proof(light)
    away = moved_to(workshop, tmp_path / "away")
    to_hand()
    assert away.proofs.proof(light) == proof
    away.close()


@pytest.mark.parametrize("way", ["title", "wording", "logo"])
def test_a_title_of_ones_own_keeps_its_fonts(workshop: Workshop, tmp_path: Path, way: str) -> None:
    from PIL import Image

    Image.new("RGB", (500, 500), "#d02020").save(tmp_path / "logo.png")
    (light,) = take_in(workshop, "灯台: 守")
    workshop.art.choose_pattern(light, Pattern.DOTS)
    if way == "title":
        workshop.designs.change_title(light, "灯")
    elif way == "wording":
        workshop.titles.change_wording(light, "灯台")
    else:
        workshop.titles.change_logo(light, tmp_path / "logo.png")
    assert {font.path for font in fonts_of(workshop, light)} == kept_by(workshop) != set()


def test_a_filler_that_is_accepted_by_choosing_it_keeps_its_fonts(workshop: Workshop) -> None:
    rook, light = take_in(workshop, "Rook", "灯台守")
    workshop.art.choose_pattern(light, Pattern.DOTS)
    workshop.designs.accept([rook])
    filler = f"game:{light}"
    (sheet,) = workshop.sheets.press(part_full=True, fillers=[filler]).sheets
    assert {place.game for place in sheet.placements} == {rook, light}
    assert {font.path for font in fonts_of(workshop, light)} == kept_by(workshop) != set()
    assert sheet.number is not None
    workshop.sheets.settle(sheet.number)
    assert workshop.designs.proposal(light).stage == "printed"


def test_no_other_font_is_asked_for_what_was_accepted(
    workshop: Workshop, tmp_path: Path, to_hand: Have
) -> None:
    (light,) = take_in(workshop, "灯🦦")
    workshop.designs.accept([light])
    proof = workshop.proofs.proof(light)
    workshop.close()
    to_hand(make_font(tmp_path / "new.ttf", chars="灯🦦", family="Boxes Sans", weight=600))
    again = open_workshop(workshop.folder, Clock())
    (note,) = {note for edge in again.designs.proposal(light).edges for note in edge.notes}
    assert "otter" in note
    assert again.proofs.proof(light) == proof
    again.designs.reopen([light], [Decision.TITLE])
    assert not any(edge.notes for edge in again.designs.proposal(light).edges)
    again.close()


def test_a_shelf_goes_on_in_the_fonts_it_keeps(
    workshop: Workshop, tmp_path: Path, to_hand: Have
) -> None:
    one, other = take_in(workshop, "灯台", "台守")
    workshop.designs.accept([one])
    workshop.designs.accept([other])
    assert len(kept_by(workshop)) == 1, "the same file is kept once"
    away = moved_to(workshop, tmp_path / "away")
    to_hand()
    (late,) = take_in(away, "守灯")
    assert fonts_of(away, late) == fonts_of(away, one)
    assert away.designs.proposal(late).doubts == (
        "No picture was found. Choose one, or accept its title set large.",
    )
    away.close()


def test_a_font_that_is_gone_is_found_told_and_not_printed_without(
    workshop: Workshop,
) -> None:
    (light,) = take_in(workshop, "灯台守")
    workshop.designs.accept([light])
    (kept,) = kept_by(workshop)
    path = workshop.folder / "fonts" / kept
    data = path.read_bytes()
    path.write_bytes(data[:-1])
    assert [one.where for one in workshop.check().findings] == [str(path)]
    path.unlink()
    workshop.close()
    again = open_workshop(workshop.folder, Clock())
    (finding,) = again.check().findings
    assert finding.where == str(path)
    assert "reopen the titles" in finding.mend
    notes = [note for edge in again.designs.proposal(light).edges for note in edge.notes]
    assert any(kept in note for note in notes)
    with pytest.raises(FontError, match=kept):
        again.sheets.press(part_full=True)
    assert not again.sheets.report().pressed
    path.write_bytes(data)
    assert pressed(again)
    again.close()


def test_undo_and_accepting_anew_keep_no_second_file(workshop: Workshop) -> None:
    (light,) = take_in(workshop, "灯台守")
    workshop.designs.accept([light])
    before, files = workshop.designs.proposal(light).design, kept_by(workshop)
    workshop.undo()
    assert not any(font.is_kept for font in fonts_of(workshop, light))
    workshop.designs.accept([light])
    assert workshop.designs.proposal(light).design == before
    assert kept_by(workshop) == files


@pytest.fixture(autouse=True)
def closed(workshop: Workshop) -> None:
    yield
    workshop.close()
