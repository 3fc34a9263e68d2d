"""Pictures by side: owned, given by hand, shown on panels; and whose they are once read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

import msgspec
import pytest
from PIL import Image

from engine import InputError, PictureRole, Workshop, reading
from engine.model import Art, PanelArt, Reading, TextLine
from engine.model.waiting import Cancel
from tests.conftest import draw_cover

SAYS = {"IMG_1": "Tin Gate", "IMG_2": "Copper Kite", "Copper Kite": "Plum Mill"}
"""What the lettering says on the pictures whose file is named so."""


@pytest.fixture
def delivery(tmp_path: Path) -> tuple[Path, Path]:
    """Three games; for the first its sides, for the others what a camera or a slip called so."""
    covers = tmp_path / "covers"
    covers.mkdir()
    names = ("Lantern Bay", "Lantern Bay back", "Lantern Bay screenshot", *SAYS)
    for n, name in enumerate(names):
        draw_cover(covers / f"{name}.png", (20 * n, 90, 40))
    listed = tmp_path / "list.txt"
    listed.write_text("Lantern Bay\nTin Gate\nCopper Kite\nPlum Mill\n", encoding="utf-8")
    return listed, covers


@pytest.fixture
def shop(workshop: Workshop, delivery: tuple[Path, Path]) -> Workshop:
    workshop.games.intake(*delivery, "keep-case")
    return workshop


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch, shop: Workshop) -> None:
    """The covers read, by a reader that knows what they say."""

    def read_all(
        paths: Mapping[str, Path], cancel: Cancel | None = None
    ) -> Iterator[tuple[str, Reading]]:
        for name in paths:
            source = shop._session.snapshot.pictures[name].source
            text = SAYS.get(source.removesuffix(".png"), "")
            lines = (TextLine(text, 0.1, 0.1, 0.9, 0.2),) if text else ()
            yield name, Reading(lines=lines)

    monkeypatch.setattr(reading, "read_all", read_all)
    monkeypatch.setattr(reading, "can_read", lambda: True)


def draw_wrap(path: Path) -> None:
    """Draw a flat cover scan in plain colours: back, spine, front."""
    scan = Image.new("RGB", (1092, 736), (150, 60, 40))
    scan.paste((20, 30, 60), (518, 0, 574, 736))
    scan.paste((60, 120, 150), (574, 0, 1092, 736))
    scan.save(path)


def sources(shop: Workshop) -> dict[str, str | None]:
    return {line.id: shop.designs.proposal(line.id).art.source for line in shop.games.lines()}


def doubts(shop: Workshop, game: str) -> str:
    return " ".join(shop.designs.proposal(game).doubts)


def test_a_game_owns_its_sides_and_panels_take_them(shop: Workshop) -> None:
    found = shop.sides.of("lantern-bay")
    assert [(one.source, one.role.value) for one in found.pictures] == [
        ("Lantern Bay.png", "front"),
        ("Lantern Bay back.png", "back"),
        ("Lantern Bay screenshot.png", "screen"),
    ]
    assert [(one.panel, one.source) for one in found.panels] == [
        ("front", "Lantern Bay.png"),
        ("back", "Lantern Bay back.png"),
    ]


def test_without_a_back_the_back_panel_takes_the_screen(shop: Workshop) -> None:
    shop.sides.give("tin-gate", "Lantern Bay back.png", PictureRole.OTHER)
    assert shop.sides.of("lantern-bay").panels[1].source == "Lantern Bay screenshot.png"


def test_a_person_chooses_what_a_panel_shows(shop: Workshop) -> None:
    found = shop.sides.show("lantern-bay", "back", "Lantern Bay screenshot.png")
    assert (found.panels[1].source, found.panels[1].chosen) == ("Lantern Bay screenshot.png", True)
    assert shop.sides.show("lantern-bay", "back", None).panels[1].source == ""
    found = shop.sides.show("lantern-bay", "front", "Lantern Bay screenshot.png")
    assert found.panels[0].source == "Lantern Bay screenshot.png"
    assert shop.designs.proposal("lantern-bay").art.source == "Lantern Bay screenshot.png"
    shop.undo()
    assert shop.designs.proposal("lantern-bay").art.source == "Lantern Bay.png"


def art_of(shop: Workshop, game: str = "lantern-bay") -> Art:
    return shop.designs.proposal(game).design.art


def shown_besides(shop: Workshop, game: str = "lantern-bay") -> dict[str, str]:
    return {one.panel: one.source for one in shop.designs.proposal(game).art.others}


def test_what_a_panel_takes_is_designed_and_accepted_with_the_art(shop: Workshop) -> None:
    assert shown_besides(shop) == {"back": "Lantern Bay back.png"}
    assert art_of(shop).back == ()
    shop.designs.accept(["lantern-bay"])
    accepted = art_of(shop)
    shop.sides.give("tin-gate", "Lantern Bay back.png", PictureRole.BACK)
    assert art_of(shop) == accepted
    assert shown_besides(shop) == {"back": "Lantern Bay back.png"}
    shop.designs.reopen(["lantern-bay"])
    assert shown_besides(shop) == {"back": "Lantern Bay screenshot.png"}


@pytest.mark.parametrize("accepted", [False, True])
def test_a_panel_set_to_no_picture_says_words(shop: Workshop, accepted: bool) -> None:
    if accepted:
        shop.designs.accept(["lantern-bay"])
    shop.sides.show("lantern-bay", "back", None)
    assert shown_besides(shop) == {}
    assert art_of(shop).back == ("Lantern Bay",)
    shop.sides.show("lantern-bay", "back", "Lantern Bay screenshot.png")
    assert shown_besides(shop) == {"back": "Lantern Bay screenshot.png"}
    shop.undo()
    assert shown_besides(shop) == {}


def test_art_accepted_before_stays_as_it_was(shop: Workshop) -> None:
    before = msgspec.structs.replace(art_of(shop), others=())
    shop.designs.change_art("lantern-bay", before)
    assert art_of(shop) == before
    assert shop.sides.of("lantern-bay").panels[1].source == ""


def test_the_back_stays_while_the_front_is_fitted_otherwise(shop: Workshop) -> None:
    others = art_of(shop).others
    for change in (
        lambda: shop.art.next_fit("lantern-bay"),
        lambda: shop.art.next_matte("lantern-bay"),
        lambda: shop.art.next_pattern("lantern-bay"),
        lambda: shop.sides.show("lantern-bay", "front", None),
        lambda: shop.designs.swap_picture("lantern-bay", others[0].art.picture or ""),
    ):
        change()
        assert art_of(shop).others == others


def test_a_wrap_gives_the_back_its_part_but_to_a_back_or_none(
    workshop: Workshop, tmp_path: Path
) -> None:
    covers = tmp_path / "wraps"
    covers.mkdir()
    draw_wrap(covers / "Plum Mill.png")
    draw_cover(covers / "screen.png", (10, 90, 20))
    draw_cover(covers / "rear.png", (90, 10, 20))
    listed = tmp_path / "wrap.txt"
    listed.write_text("Plum Mill\n", encoding="utf-8")
    workshop.games.intake(listed, covers, "keep-case")
    assert art_of(workshop, "plum-mill").split is not None
    workshop.sides.give("plum-mill", "screen.png", PictureRole.SCREEN)
    assert art_of(workshop, "plum-mill").others == ()
    assert workshop.sides.of("plum-mill").panels[1].source == "Plum Mill.png"
    workshop.sides.give("plum-mill", "rear.png", PictureRole.BACK)
    assert shown_besides(workshop, "plum-mill") == {"back": "rear.png"}
    workshop.sides.show("plum-mill", "back", None)
    assert art_of(workshop, "plum-mill").others == (PanelArt("back", Art()),)
    assert art_of(workshop, "plum-mill").back == ("Plum Mill",)


def test_what_may_be_wrong_on_the_back_counts(shop: Workshop) -> None:
    proposal = shop.designs.proposal("lantern-bay")
    (own,) = proposal.art.others
    assert own.chance < 0.9, "its shape is another, and it was not read"
    assert any(doubt.startswith("On the panel back: ") for doubt in proposal.doubts)
    shop.sides.show("lantern-bay", "back", None)
    alone = shop.designs.proposal("lantern-bay")
    assert proposal.art.chance == pytest.approx(alone.art.chance * own.chance)
    assert not any("panel back" in doubt for doubt in alone.doubts)


def test_a_back_that_may_be_another_games_is_doubted(shop: Workshop) -> None:
    game = shop._session.snapshot.game("lantern-bay")
    unsure = [msgspec.structs.replace(one, confidence=0.5) for one in game.sides]
    changed = msgspec.structs.replace(game, sides=tuple(unsure))
    shop._session.keep_games("changed", [changed])
    said = "That Lantern Bay back.png is its picture is only 50% sure"
    assert said in doubts(shop, "lantern-bay")
    shop.sides.show("lantern-bay", "back", "Lantern Bay back.png")
    assert said not in doubts(shop, "lantern-bay")


def test_what_is_no_panel_or_no_picture_is_named(shop: Workshop) -> None:
    with pytest.raises(InputError, match="spine: is no art panel of Lantern Bay"):
        shop.sides.show("lantern-bay", "spine", None)
    with pytest.raises(InputError, match="is not among the pictures"):
        shop.sides.give("lantern-bay", "nothing.png", PictureRole.BACK)


def test_games_find_their_pictures_by_what_these_say(shop: Workshop, read: None) -> None:
    before = sources(shop)
    assert before["tin-gate"] is None
    assert before["copper-kite"] == "Copper Kite.png"
    report = shop.readings.read()
    assert report.found > 0
    found = sources(shop)
    assert found["tin-gate"] == "IMG_1.png"
    assert found["copper-kite"] == "IMG_2.png"
    assert "picture" not in doubts(shop, "tin-gate")
    assert "its name says Copper Kite, but its cover Plum Mill" in doubts(shop, "plum-mill")
    assert shop.undo().endswith("by what covers say")
    assert sources(shop) == before


def test_what_a_person_chose_before_is_not_undone(shop: Workshop, read: None) -> None:
    shop.designs.accept(["copper-kite"])
    shop.sides.give("plum-mill", "IMG_1.png", PictureRole.FRONT)
    shop.readings.read()
    found = sources(shop)
    assert found["copper-kite"] == "Copper Kite.png"
    assert found["plum-mill"] == "IMG_1.png"
    assert found["tin-gate"] is None


def test_two_files_with_the_same_bytes_keep_both_names(workshop: Workshop, tmp_path: Path) -> None:
    covers = tmp_path / "twice"
    covers.mkdir()
    draw_cover(covers / "Tide.png", (10, 20, 90))
    (covers / "Reef.png").write_bytes((covers / "Tide.png").read_bytes())
    listed = tmp_path / "two.txt"
    listed.write_text("Tide\nReef\n", encoding="utf-8")
    assert workshop.games.intake(listed, covers).matched == 2
    (picture,) = workshop._session.snapshot.pictures.values()
    assert {picture.source, *picture.names} == {"Tide.png", "Reef.png"}
    before = dict(workshop._session.snapshot.pictures)
    workshop.games.intake(listed, covers)
    assert workshop._session.snapshot.pictures == before
