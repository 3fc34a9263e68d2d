"""Pictures of the screens as text, to be compared: python -m tests.tui.pictures draws them anew.

Text, not coloured SVG: it says the same on a machine without fonts and under every release of
Textual that is allowed, and a change of it can be read in a diff. A blinking cursor is no text.
"""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from engine import open_workshop
from tests.conftest import Clock
from tests.tui.driving import driven
from tests.tui.shelf import Shelf

FOLDER = Path(__file__).parent / "pictures"
SIZES = ((80, 24), (140, 40))


class Scene(NamedTuple):
    """What is in a picture."""

    stage: str
    """Of the collection."""
    acts: Sequence[str]
    """The actions that lead to it, by their keys."""


SCENES = {
    "start": Scene("empty", ("start",)),
    "bench": Scene("second", ("accept",)),
    "backlog": Scene("settled", ("backlog", "mark", "mark")),
    "sheets": Scene("pressed", ("sheets", "next_insert", "spoil")),
    "cuts": Scene("pressed", ("sheets", "cuts", *["check"] * 5)),
    "fitting": Scene("settled", ("sheets", "fitting", "choose")),
    "setup": Scene("listed", ("setup", "other_list")),
    "setting": Scene("listed", ("setup", "other_list", "change_setting")),
    "shelf": Scene("batch", ("shelf",)),
    "case": Scene("batch", ("change_case",)),
    "art": Scene("batch", ("edit_art",)),
    "fillers": Scene("full", ("bench", "next_batch", "accept", "sheets", "press_part")),
}


def path_of(name: str, size: tuple[int, int]) -> Path:
    """Return where a picture lies."""
    return FOLDER / f"{name}-{size[0]}x{size[1]}.txt"


async def drawn(shelf: Shelf, name: str, size: tuple[int, int], folder: Path) -> str:
    """Return a picture, taken in a collection that is made in an empty folder."""
    scene = SCENES[name]
    collection = shelf.copy(scene.stage, folder / "harbour-street")
    with closing(open_workshop(collection, Clock())) as workshop:
        async with driven(workshop, size, rests=True) as hand:
            await hand.do(*scene.acts)
            hand.app.clear_notifications()
            await hand.settle()
            lines = hand.sees().splitlines()
    return "".join(f"{line.rstrip()}\n" for line in lines)


def main() -> None:
    """Draw every picture anew."""
    FOLDER.mkdir(exist_ok=True)
    with TemporaryDirectory() as place:
        shelf = Shelf(Path(place) / "stages")
        for name in SCENES:
            for size in SIZES:
                path = path_of(name, size)
                picture = asyncio.run(drawn(shelf, name, size, Path(place) / path.stem))
                path.write_text(picture, encoding="utf-8")


if __name__ == "__main__":
    main()
