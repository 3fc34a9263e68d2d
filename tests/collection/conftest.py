from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from engine.collection import Collection
from engine.model import Forme, Game, Picture, Placement, Sheet, Stock


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "harbour"


Opens = Callable[[], Collection]


@pytest.fixture
def opens(folder: Path, clock: Callable[[], datetime]) -> Iterator[Opens]:
    """Opens the collection in ``folder``, and closes all that were opened."""
    opened: list[Collection] = []

    def open_it() -> Collection:
        opened.append(Collection.open(folder, now=clock))
        return opened[-1]

    yield open_it
    for collection in opened:
        collection.close()


@pytest.fixture
def collection(opens: Opens) -> Collection:
    return opens()


ADDED = datetime(2026, 3, 1, tzinfo=UTC)


@pytest.fixture
def game() -> Callable[..., Game]:
    def make(name: str, title: str = "", **fields: object) -> Game:
        return Game(id=name, title=title or name.title(), added_at=ADDED, **fields)  # type: ignore[arg-type]

    return make


@pytest.fixture
def picture() -> Callable[[str], Picture]:
    def make(name: str) -> Picture:
        return Picture(name, f"scan of {name}", width=300, height=200, side="#336699")

    return make


@pytest.fixture
def sheet() -> Callable[..., Sheet]:
    def make(number: int, *games: str, **times: datetime) -> Sheet:
        places = tuple(
            Placement(each, "soft-cassette", "0123456789abcdef", 20, 30 + 70 * place, 100, 65)
            for place, each in enumerate(games)
        )
        forme = Forme(Stock("a4", "A4", 210, 297))
        return Sheet(number, forme, places, pressed_at=ADDED, **times)

    return make
