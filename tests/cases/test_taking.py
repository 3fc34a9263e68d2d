from __future__ import annotations

from datetime import UTC, datetime

import pytest

from engine.cases import load_kinds
from engine.cases.kindfile import kind_text, parse_kind
from engine.cases.taking import main_picture, other_picture, taken_by
from engine.model import Accepted, Game, Match, PictureRole, SidePicture
from engine.model.errors import CaseError

FRONT, BACK, WRAP, SCREEN, CARTRIDGE = (
    PictureRole.FRONT,
    PictureRole.BACK,
    PictureRole.WRAP,
    PictureRole.SCREEN,
    PictureRole.CARTRIDGE,
)


def game(match: PictureRole | None, *sides: PictureRole, **shown: str) -> Game:
    """A game whose pictures are called by the side that they show."""
    return Game(
        "tide",
        "Tide",
        datetime(2026, 3, 1, tzinfo=UTC),
        match=Match(match, 0.9, role=match) if match else None,
        sides=tuple(SidePicture(role, role) for role in sides),
        accepted=Accepted(shown=shown),
    )


def main_of(kind: str, owner: Game) -> str | None:
    found = main_picture(owner, taken_by(load_kinds()[kind].panels[0]))
    return found.picture if found else None


@pytest.mark.parametrize(
    ("kind", "owner", "wanted"),
    [
        ("keep-case", game(FRONT, BACK, SCREEN), "front"),
        ("keep-case", game(BACK, SCREEN, WRAP), "wrap"),
        ("keep-case", game(BACK, SCREEN), "screen"),
        ("keep-case", game(BACK), "back"),
        ("keep-case", game(None), None),
        ("cartridge-label", game(FRONT, CARTRIDGE), "cartridge"),
        ("cartridge-label", game(FRONT), "front"),
    ],
)
def test_the_main_panel_takes_the_first_side_that_there_is(
    kind: str, owner: Game, wanted: str | None
) -> None:
    assert main_of(kind, owner) == wanted


def test_a_back_takes_the_back_else_a_screen_else_nothing() -> None:
    takes = taken_by(next(one for one in load_kinds()["keep-case"].panels if one.part == "back"))
    for owner, wanted in (
        (game(FRONT, SCREEN, BACK), "back"),
        (game(FRONT, SCREEN), "screen"),
        (game(FRONT), None),
        (game(FRONT, BACK, back="screen"), "screen"),
        (game(FRONT, BACK, back=""), None),
    ):
        found = other_picture(owner, "back", takes, {"front"})
        assert (found.picture if found else None) == wanted


def test_what_the_main_panel_shows_whole_is_not_shown_again() -> None:
    assert other_picture(game(SCREEN), "back", (SCREEN,), {"screen"}) is None


KIND = """name = "Tin"
[inside]
width = 60.0
height = 70.0
[[panels]]
name = "lid"
role = "art"
takes = [{}]
width = "width"
height = "height"
"""


def test_a_kind_states_the_order() -> None:
    kind = parse_kind(KIND.format('"screen", "front"'), "tin.toml")
    assert taken_by(kind.panels[0]) == (SCREEN, FRONT)
    assert parse_kind(kind_text(kind), "tin.toml") == kind
    with pytest.raises(CaseError, match="takes"):
        parse_kind(KIND.format('"lid"'), "tin.toml")
