"""What a cutting machine is told, read back by ezdxf and by ElementTree."""

from __future__ import annotations

from io import BytesIO, StringIO
from xml.etree import ElementTree as ET

import ezdxf
import msgspec
import pdfplumber
import pytest

from engine.model import Rect, Sheet
from engine.press import Insert, machine_file, sheet_page
from engine.press.registration import rooms
from tests.press.dielines import SVG, Dieline, from_dxf, from_svg
from tests.press.making import A4, insert, place, sheet

MM = 25.4 / 72  # ISO 32000-1, 8.3.2.3
NAMES = {"kite": "Kite", "tide": "Tide"}


@pytest.fixture(scope="module")
def inserts() -> dict[str, Insert]:
    return {"kite": insert("snap-shell", "", None), "tide": insert("soft-cassette", "", None)}


@pytest.fixture(scope="module")
def made(inserts) -> Sheet:
    field = sheet(A4, []).forme.field
    placed = [
        place("kite", inserts["kite"], field.x, field.y),
        place("tide", inserts["tide"], field.x, field.y + 90.0, rotated=True),
    ]
    return msgspec.structs.replace(sheet(A4, placed), machine="dxf")


def told(made: Sheet, inserts, form: str) -> bytes:
    return machine_file(msgspec.structs.replace(made, machine=form), inserts)


def test_a_dxf_has_each_thing_on_a_layer_of_its_own(made, inserts) -> None:
    document = ezdxf.read(StringIO(told(made, inserts, "dxf").decode()))
    assert not document.audit().has_errors
    space = document.modelspace()
    layers = [entity.dxf.layer for entity in space]
    assert {name: layers.count(name) for name in set(layers)} == {
        "CUT": 2, "SCORE": 4, "REGISTRATION": 3
    }  # fmt: skip
    assert document.header["$INSUNITS"] == 4  # DXF reference: millimetres


@pytest.mark.parametrize("read", [from_dxf, from_svg])
def test_cuts_and_scores_lie_where_they_are_printed(made, inserts, read) -> None:
    form = read.__name__.removeprefix("from_")
    found: Dieline = read(told(made, inserts, form))
    for placement, ring in zip(made.placements, found.cut, strict=True):
        xs, ys = [x for x, _ in ring], [y for _, y in ring]
        assert (min(xs), min(ys)) == pytest.approx((placement.x, placement.y), abs=0.001)
        assert (max(xs), max(ys)) == pytest.approx(
            (placement.x + placement.width, placement.y + placement.height), abs=0.001
        )
    kite = made.placements[0]
    # The inside of a snap shell less clearance and half a caliper; see dielines.FLAT.
    assert any(x1 == x2 == pytest.approx(kite.x + 63.375) for (x1, _), (x2, _) in found.scores)


def test_the_print_carries_the_registration_marks_of_the_file(made, inserts) -> None:
    document = ezdxf.read(StringIO(told(made, inserts, "dxf").decode()))
    circles = sorted(
        (entity.dxf.center.x, entity.dxf.center.y, entity.dxf.radius)
        for entity in document.modelspace().query("CIRCLE")
    )
    root = ET.fromstring(told(made, inserts, "svg"))  # noqa: S314 - the file is our own
    in_svg = sorted(
        (float(one.attrib["cx"]), 297 - float(one.attrib["cy"]), float(one.attrib["r"]))
        for one in root.iter(f"{SVG}circle")
    )
    assert [value for one in circles for value in one] == pytest.approx(
        [value for one in in_svg for value in one], abs=0.001
    )
    with pdfplumber.open(BytesIO(sheet_page(made, inserts, NAMES))) as opened:
        page = opened.pages[0]
        discs = [one for one in page.curves if one["fill"] and abs(one["width"] * MM - 5) < 0.02]
        others = [*page.chars, *page.lines, *page.rects]
        boxes = [tuple(one[k] * MM for k in ("x0", "y0", "x1", "y1")) for one in others]
    printed = sorted(
        ((d["x0"] + d["x1"]) * MM / 2, (d["y0"] + d["y1"]) * MM / 2, d["width"] * MM / 2)
        for d in discs
    )
    assert [value for one in printed for value in one] == pytest.approx(
        [value for one in circles for value in one], abs=0.01
    )
    for x, y, r in printed:
        around = Rect(x - r, y - r, 2 * r, 2 * r)
        clear = [Rect(a, b, c - a, d - b) for a, b, c, d in boxes if c - a > 0 or d - b > 0]
        assert not any(map(around.overlaps, clear)), "white around it"


@pytest.mark.parametrize("beside", [False, True])
def test_marks_keep_to_the_strips_and_tell_which_way_up(made, beside: bool) -> None:
    forme = made.forme.with_names_beside if beside else made.forme
    one = msgspec.structs.replace(made, forme=forme)
    field = forme.field.inset(-forme.bleed)
    found = rooms(one)
    assert len(found) == 3
    assert not any(field.inset(0.01).overlaps(room) for room in found)
    middle = sum(room.x for room in found) / 3, sum(room.y for room in found) / 3
    assert middle[0] < 105, "two at the left"
    assert middle[1] < 148.5, "two at the foot"


def test_a_sheet_cut_by_hand_has_no_marks(made, inserts) -> None:
    by_hand = msgspec.structs.replace(made, machine="none")
    with pdfplumber.open(BytesIO(sheet_page(by_hand, inserts, NAMES))) as opened:
        assert not [one for one in opened.pages[0].curves if abs(one["width"] * MM - 5) < 0.02]
