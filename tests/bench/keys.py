"""How many keys a game takes: python -m tests.bench.keys [matched|mixed|demo|first].

- matched: 60 games, the pictures of which were all found; a batch at a time, and one by one.
- mixed: 200 games, a third of the pictures missing or doubtful, a tenth of the titles too long.
- demo: all listed games of the demo, a quarter of them in doubt.
- first: from an empty folder to the first pressed sheet of six games, besides typed paths.

Each but the last is gone through as a person would who trusts what is called sure and looks at the
rest, which stands first: what is sure is accepted a batch at a time, and the full sheets are
pressed at the end. Of what is in doubt, a game without a picture is accepted with its title set
large; of two doubtful pictures of three it is seen that they are right, for the third the next
likeliest is taken; anything else is fitted another way. A title that is too long to be read from
the shelf's distance is walked to, and worded shorter.
"""

from __future__ import annotations

import asyncio
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import chdir, closing
from pathlib import Path
from tempfile import TemporaryDirectory

from engine import Proposal, Workshop, open_workshop
from engine.demo import make_demo
from engine.model import Decision, Stage
from tests.conftest import draw_cover
from tests.tui.driving import Hand, driven
from tests.tui.shelf import FIRST as SIX
from tests.tui.start_stories import paste
from tui.welcome import Welcome

OPENING = ("down", "down", "enter", "enter")
"""The keys that choose a new collection and its folder."""

MOST_TO_BEGIN = 40
"""Keys that the project allows itself from an empty folder to the first pressed sheet."""

MOST = 200
"""Batches after which something is wrong."""

FIRST = (
    *("Amber", "Brass", "Copper", "Dapple", "Ember", "Fennel", "Gorse", "Hollow", "Ivory", "Kelp"),
    *("Linden", "Marble", "Nettle", "Oaken", "Pewter", "Quartz", "Russet", "Saffron", "Thistle"),
    "Umber",
)
SECOND = ("Anchor", "Bridge", "Causeway", "Dune", "Estuary", "Ferry", "Gate", "Harbour", "Inlet")
SECOND = (*SECOND, "Jetty")
LONG = "The Extraordinarily Long and Entirely Truthful Chronicle of the Lighthouse Keepers"


# --- the collections --------------------------------------------------------------------


def matched(folder: Path) -> Workshop:
    """Make sixty games, the pictures of which are all found."""
    return taken_in(folder, {f"Lantern Bay {n}": f"Lantern Bay {n}" for n in range(1, 61)})


def mixed(folder: Path) -> Workshop:
    """Make two hundred games: a third without a picture or with a doubtful one, a tenth long."""
    names = {}
    for n in range(200):
        title = f"{FIRST[n % 20]} {SECOND[n // 20]}"
        title = f"{title}: {LONG}" if n % 10 == 9 else title
        names[title] = {1: "", 4: f"{title.lower()}s day"}.get(n % 6, title)
    return taken_in(folder, names)


def taken_in(folder: Path, names: dict[str, str]) -> Workshop:
    """Take in games with pictures named so; '' for none."""
    (folder / "covers").mkdir()
    for n, name in enumerate(filter(None, names.values())):
        colour = (n % 250, 90, 255 - n % 250)
        draw_cover(folder / "covers" / f"{name}.png", colour, (180, 156))
    (folder / "list.txt").write_text("\n".join(names) + "\n", encoding="utf-8")
    workshop = open_workshop(folder / "shelf")
    workshop.games.intake(folder / "list.txt", folder / "covers", "snap-shell")
    return workshop


# --- beginning --------------------------------------------------------------------------


async def begun(folder: Path) -> str:
    """Return what the first sheet took, from an empty folder."""
    (folder / "covers").mkdir()
    titles = [f"{one} Bay" for one in SIX]
    for title in titles:
        draw_cover(folder / "covers" / f"{title}.png", (90, 20, 20))
    (folder / "games.txt").write_text("\n".join(titles), encoding="utf-8")
    app = Welcome()
    with chdir(folder):
        async with app.run_test() as pilot:
            for key in OPENING:
                await pilot.press(key)
                await app.workers.wait_for_complete()
                await pilot.pause()
        assert app.return_value is not None
    with closing(open_workshop(app.return_value.folder)) as workshop:
        async with driven(workshop, leads=True) as hand:
            for path in ("games.txt", "covers"):
                await hand.do("choose")
                await paste(hand, str(folder / path))
                await hand.do("choose", "choose")
            for _ in ("case", "storage", "paper"):
                await hand.do("choose", "choose")
            await hand.do("choose", "choose", "leave", "choose")
            await hand.do(*["accept"] * len(titles), "sheets", "press")
            assert len(workshop.sheets.report().pressed) == 1, "the sheet is not pressed"
            keys = len(OPENING) + len(hand.pressed)
    assert keys <= MOST_TO_BEGIN, f"{keys} keys are more than {MOST_TO_BEGIN}"
    return f"From an empty folder to the first pressed sheet: {keys} keys besides typed paths"


# --- going through ----------------------------------------------------------------------


async def gone_through(workshop: Workshop, *, singly: bool = False) -> str:
    """Return what it took."""
    games = [one for one in workshop.designs.proposals() if one.stage is not Stage.TITLE_SET]
    doubtful = sum(not one.sure for one in games)
    met: Counter[str] = Counter()
    async with driven(workshop, (140, 40)) as hand:
        for _ in range(MOST):
            if not any(line.undecided for line in workshop.games.lines()):
                break
            await through_batch(hand, met, singly=singly)
        left = sum(line.undecided for line in workshop.games.lines())
        await hand.do("sheets", "press")
        keys = len(hand.pressed)
    said = ", ".join(f"{times} {why}" for why, times in sorted(met.items()))
    return (
        f"{len(games)} games, {doubtful} in doubt ({doubtful / len(games):.0%}), {left} left: "
        f"{keys} keys, {keys / len(games):.2f} a game" + (f" ({said})" if said else "")
    )


async def through_batch(hand: Hand, met: Counter[str], *, singly: bool) -> None:
    """Bring the next games, accept what is sure, go through what is not."""
    await hand.do("next_batch" if not singly else "accept")
    if not singly:
        for game in [one for one in hand.screen.state.batch if falls_short(one)]:
            met["titles too long"] += 1
            await hand.go_to(game.game, "#batch Table")
            await hand.do("next_wording")
            await hand.press("home")
        await hand.do("accept_sure")
    for _ in range(hand.workshop.setup.settings().batch_size):
        game = hand.screen.game
        if game is None or not hand.screen.sure_targets():
            break
        if not game.sure:
            await look_at(hand, game, met)
        await hand.do("accept")


def falls_short(game: Proposal) -> bool:
    """Return whether a title is not yet as the person wants it, and cannot be read from afar."""
    return Decision.TITLE not in game.accepted and not all(edge.reaches for edge in game.edges)


async def look_at(hand: Hand, game: Proposal, met: Counter[str]) -> None:
    """Put right what is in doubt."""
    threshold = hand.workshop.setup.settings().threshold
    if game.art.source is None:
        met["without a picture"] += 1
    elif game.art.confidence < threshold:
        met["doubtful pictures"] += 1
        if met["doubtful pictures"] % 3 == 0:
            await hand.do("change_picture")
            await hand.press("down", "enter")
    else:
        met["fitted otherwise"] += 1
        await hand.do("change_art")


def demo(folder: Path) -> Workshop:
    """Make the demo."""
    return make_demo(folder / "shelf")


RUNS: dict[str, tuple[Callable[[Path], Workshop], Sequence[bool]]] = {
    "matched": (matched, (False, True)),
    "mixed": (mixed, (False,)),
    "demo": (demo, (False,)),
}
"""What makes each collection, and whether it is gone through game by game."""


def main(wanted: Sequence[str]) -> None:
    """Print the keys, the games and the share of them in doubt."""
    for name in wanted or (*RUNS, "first"):
        if name == "first":
            with TemporaryDirectory() as folder:
                print(asyncio.run(begun(Path(folder))))
            continue
        make, ways = RUNS[name]
        for singly in ways:
            with TemporaryDirectory() as folder, closing(make(Path(folder))) as workshop:
                took = asyncio.run(gone_through(workshop, singly=singly))
            print(f"{name}{', one by one' if singly else ''}: {took}", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
