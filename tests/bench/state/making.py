"""A made collection of any size: invented titles, pictures as inspection would have found them."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from engine import open_workshop
from engine.collection import Collection
from engine.model import Game, Match, Picture

FIRST = [
    "Amber",
    "Brass",
    "Copper",
    "Dapple",
    "Ember",
    "Fennel",
    "Gorse",
    "Hollow",
    "Ivory",
    "Juniper",
    "Kelp",
    "Linden",
]
SECOND = [
    "Anchor",
    "Bridge",
    "Causeway",
    "Dune",
    "Estuary",
    "Ferry",
    "Gate",
    "Harbour",
    "Inlet",
    "Jetty",
    "Keel",
    "Lighthouse",
]
SERIES = [f"{word} Tales" for word in SECOND]
KINDS = ("snap-shell", "soft-cassette", "keep-case-short", "jewel-front")
BEGUN = datetime(2026, 1, 1, tzinfo=UTC)


def title(n: int, chance: Random) -> str:
    """Return a title, no two alike: one in five has a subtitle."""
    words = f"{chance.choice(FIRST)} {chance.choice(SECOND)} {n}"
    return f"{words}: The {chance.choice(FIRST)} {chance.choice(SECOND)}" if n % 5 == 0 else words


def game(n: int, chance: Random) -> Game:
    """Return a game as intake lists it; nine in ten have a picture of their own."""
    match = None if n % 10 == 0 else Match(f"{n:020x}.jpg", 0.97)
    return Game(
        id=f"game-{n}",
        title=title(n, chance),
        added_at=BEGUN,
        series=chance.choice(SERIES),
        year=str(1989 + n % 12),
        case=KINDS[n % len(KINDS)],
        match=match,
    )


def picture(n: int, chance: Random) -> Picture:
    """Return what was found in a cover."""
    side = f"#{chance.randrange(1 << 24):06x}"
    return Picture(
        name=f"{n:020x}.jpg",
        source=f"cover {n}.jpg",
        width=900 + 10 * (n % 60),
        height=1000 + 10 * (n % 45),
        side=side,
        palette=(side,),
    )


def make(folder: Path, size: int) -> None:
    """Make a collection of ``size`` games: half of them finished, some of those printed."""
    chance = Random(size)
    clock = iter(BEGUN + timedelta(minutes=n) for n in range(10 * size))
    collection = Collection.open(folder, now=lambda: next(clock))
    collection.record(
        "made",
        games=[game(n, chance) for n in range(size)],
        pictures=[picture(n, chance) for n in range(size) if n % 10],
    )
    collection.close()
    shop = open_workshop(folder, lambda: next(clock))
    shop.designs.accept([f"game-{n}" for n in range(0, size, 2)])
    shop.close()
