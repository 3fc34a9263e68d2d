"""Wrong TOML: a sentence that names file, line and field."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.cases import CaseKind, load_kinds, parse_kind, read_kind
from engine.cases.kindfile import kind_text
from engine.model.errors import CaseError
from tests.cases.nets import nets

GOOD = """\
name = "Tin"
unit = "mm"
clearance = 0.5

[inside]
width = 60.0
height = 90.0
depth = 11.0

[[panels]]
name = "front"
role = "art"
width = "width"
height = "height"

[[panels]]
name = "spine"
role = "edge"
on = "front"
side = "left"
width = "depth"

[[notches]]
panel = "front"
side = "right"
width = 12
depth = 3
"""


def said(text: str) -> str:
    with pytest.raises(CaseError) as fault:
        parse_kind(text, "tin.toml")
    return str(fault.value)


def wrong(old: str, new: str) -> str:
    assert GOOD.count(old) >= 1
    return said(GOOD.replace(old, new, 1))


def test_the_good_one_is_good() -> None:
    kind = parse_kind(GOOD, "tin.toml")
    assert kind.id == "tin"
    assert [p.name for p in kind.panels] == ["front", "spine"]


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (
            'on = "front"',
            'on = "lid"',
            'tin.toml, line 19, on: there is no panel "lid". There are front, spine.',
        ),
        (
            "width = 60.0",
            "width = -60.0",
            "tin.toml, line 6, width: -60 is not a length. Give it in mm, above 0.",
        ),
        (
            'width = "depth"',
            "width = -3",
            "tin.toml, line 21, width: -3 is not a length. Give it in mm, above 0.",
        ),
        (
            'height = "height"\n',
            'height = "height"\non = "spine"\nside = "right"\n',
            (
                "tin.toml, line 15, on: the panels hang in a circle: "
                '"front" on "spine" on "front". One of them must hang on nothing.'
            ),
        ),
        (
            'unit = "mm"',
            'unit = "in"',
            'tin.toml, line 2, unit: "in" is not the unit. Lengths are in mm: give them as "mm".',
        ),
        (
            'width = "width"',
            'width = "2.5in"',
            (
                'tin.toml, line 13, width: there is no measure "2.5in". Lengths are plain numbers '
                "in mm, or one of width, height, depth."
            ),
        ),
        (
            "width = 60.0",
            'width = "60 mm"',
            'tin.toml, line 6, width: "60 mm" is not a number.',
        ),
        (
            'role = "edge"',
            'role = "edge"\ncolour = "red"',
            "tin.toml, line 19, colour: is not a key that is known here. Delete or mend it.",
        ),
        (
            "clearance = 0.5",
            "clearence = 0.5",
            "tin.toml, line 3, clearence: is not a key that is known here. Delete or mend it.",
        ),
        (
            'role = "edge"',
            'role = "spine"',
            'tin.toml, line 18, role: "spine" is not one of its values: art, edge, blank.',
        ),
        (
            'side = "left"',
            'side = "up"',
            'tin.toml, line 20, side: "up" is not one of its values: left, bottom, right, top.',
        ),
        (
            'side = "left"',
            'side = "left"\nangle = 45',
            "tin.toml, line 21, angle: 45 is no fold. It is 90 or 180, or negative.",
        ),
        (
            'name = "spine"\n',
            "",
            'tin.toml, line 16, panels: the key "name" is missing. Add it.',
        ),
        (
            'name = "Tin"\n',
            "",
            'tin.toml: the key "name" is missing. Add it.',
        ),
        (
            'side = "left"\n',
            "",
            'tin.toml, line 16, panels: panel "spine" lacks its "side". Say which of "front".',
        ),
        (
            'on = "front"\nside = "left"\n',
            "",
            (
                'tin.toml, line 16, panels: panel "spine" hangs on nothing. Only one panel is the '
                'root: give the others "on" and "side".'
            ),
        ),
        (
            'width = "depth"\n',
            "",
            'tin.toml, line 16, width: panel "spine" lacks its width. Give it in mm.',
        ),
        (
            'name = "spine"',
            'name = "front"',
            'tin.toml, line 17, name: "front" is taken. Rename it.',
        ),
        (
            'panel = "front"',
            'panel = "lid"',
            'tin.toml, line 24, panel: there is no panel "lid". Mend its name.',
        ),
        (
            "depth = 3",
            "depth = 0",
            "tin.toml, line 27, depth: 0 is not a length. Give it in mm, above 0.",
        ),
        (
            "clearance = 0.5",
            "clearance = -0.5",
            "tin.toml, line 3, clearance: -0.5 is negative. Give it in mm, 0 or more.",
        ),
        (
            "clearance = 0.5",
            'clearance = 0.5\nfront = "lid"',
            'tin.toml, line 4, front: there is no panel "lid". Name one of the panels.',
        ),
        (
            "clearance = 0.5",
            "clearance = 11.0",
            (
                'tin.toml, line 16, panels: nothing is left of panel "spine" after clearance and '
                "folds. Measure it again, or lower the clearance."
            ),
        ),
        (
            "[inside]",
            "[around]\nheight = 3.0\n[inside]",
            (
                "tin.toml, line 5, around: needs its measures in one table, [inside] or [around]. "
                "[inside] is a space that the insert goes into, [around] a body it wraps."
            ),
        ),
        (
            "depth = 11.0",
            "depth = inf",
            "tin.toml, line 8, depth: inf is not a length. Give it in mm, above 0.",
        ),
        (
            "depth = 11.0",
            "depth = 11000",
            "tin.toml, line 8, depth: 11000 mm is longer than any case. Give it in mm, above 0.",
        ),
        (
            "depth = 3",
            "depth = inf",
            "tin.toml, line 27, depth: inf is not a length. Give it in mm, above 0.",
        ),
        (
            'side = "left"',
            'side = "left"\noffset = nan',
            "tin.toml, line 21, offset: nan is no place on a panel. Give it in mm.",
        ),
        (
            'name = "Tin"',
            'name = ""',
            "tin.toml, line 1, name: is no name. Say in one line what case it is.",
        ),
        (
            'name = "spine"',
            'name = "a\\nb"',
            "tin.toml, line 17, name: is no name. Give the panel a word that can be read.",
        ),
        (
            'side = "left"',
            "side = [1]",
            "tin.toml, line 20, side: this is not text.",
        ),
        (
            "clearance = 0.5",
            "grain = 1",
            "tin.toml, line 3, grain: 1 is not true or false.",
        ),
        (
            "[[panels]]",
            "[[panels]",
            "tin.toml, line 10: is not TOML: expected ']]' at the end of an array declaration.",
        ),
    ],
)
def test_a_fault_is_told_with_file_line_and_field(old: str, new: str, sentence: str) -> None:
    assert wrong(old, new) == sentence


def test_panels_that_collide_are_told_with_the_line_of_the_later_one() -> None:
    lid = '[[panels]]\nname = "lid"\nrole = "blank"\non = "spine"\nside = "right"\nwidth = 9\n'
    assert said(GOOD + lid).startswith(
        'tin.toml, line 28, panels: panels "front" and "lid" overlap when the net lies flat.'
    )


def test_what_is_no_text_or_no_file_is_told(tmp_path: Path) -> None:
    junk = tmp_path / "junk.toml"
    junk.write_bytes(b"\xff\xfe\x00\x01\x80")
    with pytest.raises(CaseError, match=r"^junk\.toml: is not UTF-8 text\."):
        read_kind(junk)
    with pytest.raises(CaseError, match=r"^gone\.toml: cannot be read"):
        read_kind(tmp_path / "gone.toml")
    (tmp_path / "folder.toml").mkdir()
    with pytest.raises(CaseError, match=r"^folder\.toml: cannot be read"):
        read_kind(tmp_path / "folder.toml")
    named = tmp_path / "My Case.toml"
    named.write_text(GOOD)
    with pytest.raises(CaseError, match="is no name for a case kind"):
        read_kind(named)
    empty = tmp_path / "empty.toml"
    empty.write_text("")
    with pytest.raises(CaseError, match='the key "name" is missing'):
        read_kind(empty)


def test_a_byte_order_mark_does_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "tin.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.encode())
    assert read_kind(path) == parse_kind(GOOD, "tin.toml")


@pytest.mark.parametrize("name", load_kinds())
def test_a_kind_survives_being_written_and_read(name: str) -> None:
    kind = load_kinds()[name]
    assert parse_kind(kind_text(kind), f"{name}.toml") == kind


@given(nets())
@settings(max_examples=40)
def test_any_net_survives_being_written_and_read(kind: CaseKind) -> None:
    try:
        again = parse_kind(kind_text(kind), "random.toml")
    except CaseError as error:
        assume("overlap" not in error.what and "run into" not in error.what)
        assume("neither front" not in error.what)
        raise
    assert again == kind


JUNK = """

= 1
[[panels]]
[inside]
[around]
name = "x"
width = -1
angle = true
on = "spine"
side = "top"
height = {}
part = "a\\nb"
at = inf
offset = 1e9
\x00
""".splitlines()


@given(st.data())
@settings(max_examples=80)
def test_any_muddled_file_is_a_kind_or_a_sentence(data: st.DataObject) -> None:
    lines = GOOD.splitlines()
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(lines) - 1))
        lines[at : at + data.draw(st.integers(0, 2))] = [data.draw(st.sampled_from(JUNK))]
    text, told = "\n".join(lines), "tin.toml"
    try:
        assert kind_text(parse_kind(text, "tin.toml")).startswith("name = ")
    except CaseError as error:
        told = str(error)
    assert told.startswith("tin.toml")
    assert told.isprintable()
