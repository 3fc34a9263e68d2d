"""Stories that press the keys of the Shelf."""

from __future__ import annotations

from tests.tui.driving import Hand
from tests.tui.stories import presses


def order(hand: Hand) -> list[str]:
    return list(hand.workshop.shelf.order())


@presses("shelf", "batch")
async def shelf(hand: Hand) -> None:
    await hand.press("down")
    at = hand.current
    await hand.do("shelf")
    assert hand.app.current_mode == "shelf"
    assert hand.screen.current_game == at, "it is the game that the Bench was at"
    assert "Harbour Bay" in hand.sees("#about")


@presses("to_bench", "batch")
async def to_bench(hand: Hand) -> None:
    await hand.do("shelf")
    await hand.press("end")
    at = hand.screen.current_game
    assert at not in hand.workshop.batch.games()
    await hand.do("to_bench")
    assert hand.app.current_mode == "bench"
    assert hand.current == at == hand.workshop.batch.games()[-1]


@presses("next_clash", "pressed", rests=True)
async def next_clash(hand: Hand) -> None:
    hand.workshop.designs.change_colour("lantern-parade", "#aa3311")
    hand.workshop.designs.change_colour("lantern-bay", "#aa3311")
    await hand.do("shelf", "next_clash")
    assert hand.screen.current_game == "lantern-parade"
    assert "Lantern Parade has the colour of Lantern Bay beside it: b gives" in hand.reads("#about")
    await hand.do("change_colour")
    await hand.type("#3366cc")
    await hand.do("choose")
    proposal = hand.workshop.designs.proposal("lantern-parade")
    assert proposal.design.colours.base == "#3366cc"
    assert "beside it" not in hand.reads("#about")


@presses("farther", rests=True)
async def farther(hand: Hand) -> None:
    await hand.do("shelf", "farther")
    assert len(hand.screen.query_one("ShelfPicture").spots) == 14


@presses("closer", rests=True)
async def closer(hand: Hand) -> None:
    await hand.do("shelf")
    spots = hand.screen.query_one("ShelfPicture").spots
    wide = spots[hand.screen.current_game].width
    await hand.do("closer")
    spots = hand.screen.query_one("ShelfPicture").spots
    assert spots[hand.screen.current_game].width > 1.8 * wide


@presses("what_if", rests=True)
async def what_if(hand: Hand) -> None:
    before = hand.saved
    await hand.do("shelf", "what_if")
    await hand.pick("order=year")
    assert "below: Order: year: by year, then title" in hand.reads("#about")
    heights = [
        spot.y + spot.height for spot in hand.screen.query_one("ShelfPicture").spots.values()
    ]
    assert max(heights) < 0.5, "the shelf as it is stands above"
    await hand.do("what_if", "choose")
    assert "below" not in hand.reads("#about")
    assert hand.saved == before


@presses("arrange")
async def arrange(hand: Hand) -> None:
    await hand.do("shelf", "arrange")
    await hand.pick("year")
    assert hand.workshop.setup.settings().order == "year"
    assert order(hand)[0] == "lantern-bay"
    assert "by year, then title" in hand.reads("#about")


@presses("dividers")
async def dividers(hand: Hand) -> None:
    await hand.do("shelf", "dividers")
    assert hand.workshop.setup.settings().dividers
    await hand.do("dividers")
    assert not hand.workshop.setup.settings().dividers


@presses("file_under", rests=True)
async def file_under(hand: Hand) -> None:
    await hand.do("shelf", "file_under")
    await hand.press("end", *["backspace"] * len(hand.screen.focused.value))
    await hand.type("zz")
    await hand.do("choose")
    assert order(hand)[-1] == "ember-reef"
    assert "filed as zz" in hand.reads("#about")
    await hand.do("undo")
    assert order(hand)[0] == "ember-reef"


@presses("move_on")
async def move_on(hand: Hand) -> None:
    await hand.do("shelf")
    first, second, *others = order(hand)
    await hand.do("move_on")
    assert order(hand) == [second, first, *others]
    assert hand.workshop.setup.settings().order == "hand"
    assert hand.screen.current_game == first, "it is followed"


@presses("move_back")
async def move_back(hand: Hand) -> None:
    await hand.do("shelf")
    *others, before, last = order(hand)
    await hand.press("end")
    await hand.do("move_back")
    assert order(hand) == [*others, last, before]
