"""What many tests start from: a clock that only they move, and a small shelf of games."""

import csv
import gc
import os
import shutil
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest
from hypothesis import settings

from engine import Workshop, open_workshop
from engine.lettering import machine
from tests.lettering.typefaces import FILES

SERIES = ("Harbour", "Orchard", "Lantern")
"""Of the games of ``grouped`` in turn; every fourth has none."""
TITLES = [f"Lantern Bay {n}" for n in range(1, 13)]

# Modules of tests, and what programs started by tests import, are compiled once and kept, whatever
# the environment says: compiling them takes as long as all the rest of collecting the tests.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

gc.disable()

# A time limit is never a test: a busy machine takes as long as it takes.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")


def pytest_collection_finish() -> None:
    """Look for garbage, but seldom and in what tests make: a tenth of the suite's time went there.

    The program holds many objects while it is open, and all are gone through each time.
    """
    gc.freeze()
    gc.set_threshold(10_000)
    gc.enable()


class Clock:
    """A clock that moves a minute each time it is read."""

    def __init__(self) -> None:
        self.now = datetime(2026, 3, 1, 12, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.now += timedelta(minutes=1)
        return self.now


@pytest.fixture(scope="session")
def homes(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Folders for what is remembered of a person, one after the other; none is there yet.

    Pytest numbers a folder by reading the names of all others, which adds up.
    """
    folder = tmp_path_factory.mktemp("homes")
    return (folder / str(n) for n in count())


@pytest.fixture(autouse=True)
def own_state(homes: Iterator[Path], monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep tests from what the person at this machine has opened, and chose of keys."""
    home = next(homes)
    monkeypatch.setenv("XDG_STATE_HOME", str(home / "state"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(home / "config"))


@pytest.fixture(scope="session", autouse=True)
def covers_unread() -> Iterator[None]:
    """Read no cover, which takes a second each, but where a test asks for it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("engine.reading.can_read", lambda: False)
        yield


@pytest.fixture(scope="session", autouse=True)
def fonts_of_the_suite() -> Iterator[None]:
    """Keep tests from the fonts of this machine: to hand are those of the test extra."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(machine, "_packaged", lambda: FILES)
        patch.setattr(machine, "_installed", tuple)
        machine.fonts_to_hand.cache_clear()
        yield
    machine.fonts_to_hand.cache_clear()


@pytest.fixture
def to_hand(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[..., None]]:
    """What lets the machine have just these font files."""

    def have(*files: Path) -> None:
        monkeypatch.setattr(machine, "_packaged", tuple)
        monkeypatch.setattr(machine, "_installed", lambda: files)
        machine.fonts_to_hand.cache_clear()

    yield have
    monkeypatch.undo()
    machine.fonts_to_hand.cache_clear()


@pytest.fixture
def clock() -> Clock:
    return Clock()


def draw_cover(
    path: Path, colour: tuple[int, int, int], size: tuple[int, int] = (330, 385)
) -> None:
    from PIL import Image, ImageDraw

    picture = Image.new("RGB", size, colour)
    draw = ImageDraw.Draw(picture)
    draw.ellipse([size[0] // 3, size[1] // 3, size[0] * 2 // 3, size[1] * 2 // 3], fill="white")
    picture.save(path)


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A list of twelve games, a picture of each, and a collection that took them in."""
    folder = tmp_path_factory.mktemp("made")
    pictures = folder / "covers"
    pictures.mkdir()
    for n, title in enumerate(TITLES):
        draw_cover(pictures / f"{title.replace(' ', '_')} (Rev 1).png", (20 * n, 60, 120))
    list_file = folder / "games.csv"
    list_file.write_text("title\n" + "\n".join(TITLES) + "\n", encoding="utf-8")
    shop = open_workshop(folder / "shelf", Clock())
    shop.games.intake(list_file, pictures, "snap-shell")
    shop.close()
    return folder


@pytest.fixture
def delivery(made: Path, tmp_path: Path) -> tuple[Path, Path]:
    """A list of twelve games and a folder with a picture of each."""
    shutil.copytree(made / "covers", tmp_path / "covers")
    shutil.copy(made / "games.csv", tmp_path / "games.csv")
    return tmp_path / "games.csv", tmp_path / "covers"


@pytest.fixture
def workshop(tmp_path: Path, clock: Clock) -> Iterator[Workshop]:
    """A workshop on an empty collection."""
    shop = open_workshop(tmp_path / "shelf", clock)
    yield shop
    shop.close()


@pytest.fixture
def stocked(made: Path, tmp_path: Path, clock: Clock) -> Iterator[Workshop]:
    """A workshop with twelve games, pictures matched."""
    shutil.copytree(made / "shelf", tmp_path / "shelf")
    shop = open_workshop(tmp_path / "shelf", clock)
    yield shop
    shop.close()


@pytest.fixture(scope="session")
def grouped(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Sixteen games in three series, the pictures of each series in one colour."""
    folder = tmp_path_factory.mktemp("grouped")
    (folder / "covers").mkdir()
    with (folder / "games.csv").open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["title", "series", "shelf"])
        for n in range(16):
            series = SERIES[n % 4] if n % 4 < 3 else ""
            rows.writerow([f"Copper Kite {n + 1}", series, f"row {n % 2}"])
            hue = ((170, 40, 40), (30, 120, 50), (30, 60, 160), (90, 90, 90))[n % 4]
            draw_cover(folder / "covers" / f"Copper Kite {n + 1}.png", hue)
    shop = open_workshop(folder / "shelf", Clock())
    shop.games.intake(folder / "games.csv", folder / "covers", "snap-shell")
    shop.close()
    return folder / "shelf"
