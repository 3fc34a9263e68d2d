from __future__ import annotations

import pytest

from engine.cases import fold, load_kinds
from engine.cases.rings import shape_of
from engine.model.errors import CaseError

KINDS = load_kinds()


@pytest.mark.parametrize("name", KINDS)
def test_panels_keep_their_sizes_in_space(name: str) -> None:
    for panel in fold(KINDS[name], 0.25).panels:
        low, right, far, up = panel.corners
        assert sum(low.plus(right, -1)) ** 2 == pytest.approx(panel.rect.width**2)
        assert sum(low.plus(up, -1)) ** 2 == pytest.approx(panel.rect.height**2)
        assert far == right.plus(up).plus(low, -1)
        assert shape_of(panel.outline).area <= panel.rect.width * panel.rect.height + 1e-6


def test_a_wrap_stands_as_three_sides_of_a_box() -> None:
    case = fold(KINDS["keep-case"], 0.25)
    front, spine, back = (case.panel(n).frame.normal for n in ("front", "spine", "back"))
    assert front == case.front
    assert back == front.scaled(-1)
    assert spine == case.front.cross(case.up)  # to the left of someone who looks at the front


def test_the_print_of_a_snap_shell_faces_out_on_all_sides() -> None:
    shell = fold(KINDS["snap-shell"], 0.25)
    back = shell.panel("back").frame.normal
    assert back == shell.front.scaled(-1)
    assert shell.panel("short").frame.normal == shell.up


def test_pieces_stand_at_their_places_in_the_case() -> None:
    whole, pieces = fold(KINDS["soft-cassette"], 0.1), fold(KINDS["soft-cassette-pieces"], 0.1)
    assert [p.frame.normal for p in whole.panels] == [p.frame.normal for p in pieces.panels]


def test_a_card_is_as_deep_as_its_paper() -> None:
    assert fold(KINDS["jewel-front"], 0.25).outside == (120.0, 120.0, 0.25)
    assert fold(KINDS["jewel-front"], 0.25).inside == (120.0, 120.0, 0.0)


def test_an_unknown_panel_is_told() -> None:
    with pytest.raises(CaseError, match='no panel "lid"'):
        fold(KINDS["jewel-front"], 0.25).panel("lid")
