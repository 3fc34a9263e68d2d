from __future__ import annotations

from io import StringIO

import ezdxf
import pytest
from fontTools.misc.transform import Transform

from engine.lettering import default_font, shape
from engine.press.netdrawing import net_dxf
from engine.press.pens.base import turned
from engine.press.pens.dxf import DxfPen
from tests.press.making import kinds, net

SQUARE = ((10.0, 20.0), (30.0, 20.0), (30.0, 60.0), (10.0, 60.0))


def read(data: bytes) -> ezdxf.document.Drawing:
    return ezdxf.read(StringIO(data.decode()))


@pytest.mark.parametrize("kind", kinds())
def test_the_library_finds_no_fault_in_the_file(kind: str) -> None:
    document = read(net_dxf(net(kind)))
    assert not document.audit().errors
    assert document.units == 4  # DXF reference: $INSUNITS 4 is millimetres
    assert {"CUT", "SCORE", "MARK", "NOTE"} <= {layer.dxf.name for layer in document.layers}


def test_lines_lie_on_the_layers_of_what_is_done_to_them() -> None:
    pen = DxfPen()
    pen.cut([SQUARE, SQUARE])
    pen.score(10, 30, 30, 30, 90)
    pen.tick(0, 0, 5, 0)
    found = [(e.dxftype(), e.dxf.layer) for e in read(pen.finish()).modelspace()]
    assert found == [
        ("LWPOLYLINE", "CUT"),
        ("LWPOLYLINE", "CUT"),
        ("LINE", "SCORE"),
        ("LINE", "MARK"),
    ]


def test_a_note_stands_where_and_as_it_was_set() -> None:
    pen = DxfPen()
    pen.text(shape("Note", default_font(), 10), turned(90, 12, 34), "#000000")
    (note,) = read(pen.finish()).modelspace()
    assert note.dxf.layer == "NOTE"
    assert (note.dxf.text, note.dxf.rotation) == ("Note", pytest.approx(90))
    assert tuple(note.dxf.insert)[:2] == pytest.approx((12, 34))


def test_art_leaves_no_line_to_cut() -> None:
    pen = DxfPen()
    with pen.clip([SQUARE]):
        pen.fill([SQUARE], "#ffffff")
        pen.image(b"", Transform())
    assert len(read(pen.finish()).modelspace()) == 0


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert net_dxf(net("snap-shell")) == net_dxf(net("snap-shell"))
