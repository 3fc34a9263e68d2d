"""Fonts: the one that ships, those a person chooses, those that stand in."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTCollection, TTFont

from engine.lettering import (
    Embedding,
    check,
    choose_font,
    default_font,
    faces_in,
    facts,
    judge,
    lay,
    shape,
)
from engine.lettering.fonts import narrowed
from engine.lettering.machine import _installed as installed_on_this_machine
from engine.lettering.machine import _packaged as packaged_on_this_machine
from engine.lettering.machine import best_first
from engine.model import FontRef, Size
from engine.model.errors import FontError
from tests.lettering.making_fonts import make_font
from tests.lettering.typefaces import ARABIC, CHAIN, HEBREW, JAPANESE, STYLE, TAMIL, THAI

EDGE = Size(101.5, 12.7)
ASKED = "find_system_fonts_filename"


def test_the_font_that_ships_may_be_embedded_and_is_semi_bold():
    known = facts(default_font())
    assert known.family == "Noto Sans"
    assert known.embedding is Embedding.INSTALLABLE
    assert known.usable
    assert dict(default_font().axes) == {"wdth": 100.0, "wght": 600.0}


@pytest.mark.parametrize("text", ["Lantern Keeper", "Łódź Đảo Ñandú", "Φάρος", "Маяк Ёлка"])
def test_it_has_latin_greek_and_cyrillic(text):
    assert check(text, default_font(), ()) == ()


def test_a_missing_character_is_named_once_with_its_code_point():
    found = check("灯 ☃ 灯", default_font(), ())
    assert [str(one) for one in found] == [
        "灯 (U+706F cjk unified ideograph-706f)",
        "☃ (U+2603 snowman)",
    ]


def test_nothing_is_missing_where_a_fallback_has_it():
    assert check("灯 אור", default_font(), CHAIN) == ()
    assert [one.char for one in check("灯 א", default_font(), (HEBREW,))] == ["灯"]


def test_spaces_and_invisible_controls_are_never_missing(tmp_path):
    font = choose_font(make_font(tmp_path / "boxes.ttf"))
    assert check("A\u200d \u3000\u00a0B", font, ()) == ()


def test_each_character_comes_from_the_first_font_that_has_it():
    title = "Rook 灯 אור"
    assert judge((title,), 12.0, EDGE, default_font(), STYLE).fits
    lines = lay((title,), 12.0, EDGE, default_font(), STYLE)
    found = {char: line.run.font for line in lines for char in line.run.text.strip()}
    assert {found[char] for char in "Rook"} == {default_font()}
    assert {found[char] for char in "אור"} == {HEBREW}
    assert found["灯"] == JAPANESE


def test_packages_come_first_then_upright_sans_near_semi_bold(tmp_path):
    """Packages are the same on most machines."""

    def made(name, **choices):
        return make_font(tmp_path / f"{name}.ttf", **choices)

    packaged = [made("packaged", family="Boxes Serif")]
    installed = [
        made("a serif", family="Boxes Serif"),
        made("b thin", family="Boxes Sans", weight=200),
        made("c bold", family="Boxes Sans", weight=700),
        made("d mono", family="Boxes Sans Mono", weight=600),
        made("e closed", permission=2),
        tmp_path / "gone.ttf",
    ]
    ranked = [Path(known.font.path).stem for known in best_first(packaged, installed)]
    assert ranked == ["packaged", "c bold", "b thin", "a serif", "d mono"]


def test_the_fonts_of_installed_packages_are_to_hand():
    found = packaged_on_this_machine()
    assert {Path(font.path) for font in (default_font(), HEBREW, ARABIC, THAI, TAMIL)} <= {*found}
    assert list(found) == sorted(found)


def test_the_fonts_of_the_machine_are_to_hand_where_it_can_be_asked(tmp_path, monkeypatch):
    from find_system_fonts_filename import FindSystemFontsFilenameException as CannotAsk

    listed = ["b.ttf", "a.OTF", "old.pfb"]
    monkeypatch.setattr(f"{ASKED}.get_system_fonts_filename", lambda: listed)
    assert [path.name for path in installed_on_this_machine()] == ["a.OTF", "b.ttf"]

    def refuse():
        raise CannotAsk("no fontconfig")

    monkeypatch.setattr(f"{ASKED}.get_system_fonts_filename", refuse)
    assert installed_on_this_machine() == ()


# OpenType specification, OS/2 fsType: bit 1 restricted, 2 preview and print, 3 editable,
# 8 no subsetting, 9 bitmaps only; where several of bits 1 to 3 are set the freest holds.
@pytest.mark.parametrize(
    ("bits", "embedding", "usable"),
    [
        (0x0000, Embedding.INSTALLABLE, True),
        (0x0002, Embedding.RESTRICTED, False),
        (0x0004, Embedding.PRINT, True),
        (0x0008, Embedding.EDITABLE, True),
        (0x000A, Embedding.EDITABLE, True),
        (0x0104, Embedding.PRINT, False),
        (0x0200, Embedding.INSTALLABLE, False),
    ],
)
def test_licence_bits(tmp_path, bits, embedding, usable):
    path = make_font(tmp_path / "boxes.ttf", permission=bits)
    known = facts(FontRef(str(path)))
    assert (known.embedding, known.usable) == (embedding, usable)
    if usable:
        assert choose_font(path).path == str(path)
    else:
        with pytest.raises(FontError, match=r"boxes.ttf: it"):
            choose_font(path)


@pytest.mark.parametrize("name", ["gone.ttf", "folder", "junk.ttf", "empty.ttf"])
def test_what_is_no_font_is_refused_in_a_sentence(tmp_path, name):
    (tmp_path / "folder").mkdir()
    (tmp_path / "junk.ttf").write_bytes(b"no font at all" * 50)
    (tmp_path / "empty.ttf").touch()
    with pytest.raises(FontError) as refused:
        choose_font(tmp_path / name)
    assert str(refused.value).startswith(f"{name}: ")


def test_an_axis_out_of_range_is_refused():
    path = Path(default_font().path)
    with pytest.raises(FontError, match="axis wght runs from 100 to 900, not to 950"):
        choose_font(path, axes=(("wght", 950.0),))
    with pytest.raises(FontError, match="has no axis slnt"):
        choose_font(path, axes=(("slnt", 0.0),))


def test_a_collection_gives_its_faces(tmp_path):
    files = [make_font(tmp_path / f"{n}.ttf", chars=chars) for n, chars in enumerate(("A", "B"))]
    collection = TTCollection()
    collection.fonts = [TTFont(file) for file in files]
    collection.save(tmp_path / "both.ttc")
    for font in collection.fonts:
        font.close()
    faces = list(faces_in(tmp_path / "both.ttc"))
    assert [known.font.face for known in faces] == [0, 1]
    second = choose_font(tmp_path / "both.ttc", 1)
    assert [one.char for one in check("AB", second, ())] == ["A"]
    with pytest.raises(FontError, match="has no face 7"):
        choose_font(tmp_path / "both.ttc", 7)


def test_cff_outlines_are_measured_like_any(tmp_path):
    font = choose_font(make_font(tmp_path / "boxes.otf", cff=True))
    run = shape("AB", font, 10.0)
    assert run.width == pytest.approx(2 * 0.6 * 10 * 25.4 / 72)
    assert judge(("AB",), 10.0, EDGE, font).cap_height == pytest.approx(0.7 * 10 * 25.4 / 72)


def test_a_font_that_states_no_capital_height_is_measured(tmp_path):
    font = choose_font(make_font(tmp_path / "boxes.ttf", chars="HI", cap=None))
    assert judge(("HI",), 10.0, EDGE, font).cap_height == pytest.approx(0.7 * 10 * 25.4 / 72)


def test_a_width_axis_is_used_as_far_as_it_goes_then_scaling(tmp_path):
    assert narrowed(default_font(), 0.8) == (
        FontRef(default_font().path, 0, (("wdth", 80.0), ("wght", 600.0))),
        1.0,
    )
    font, squeeze = narrowed(default_font(), 0.5)
    assert dict(font.axes)["wdth"] == 62.5
    assert squeeze == pytest.approx(0.8)
    static = choose_font(make_font(tmp_path / "boxes.ttf"))
    assert narrowed(static, 0.9) == (static, 0.9)
