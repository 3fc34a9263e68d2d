"""Keys are pressed on the real thing, and commands are run on it: a small made collection."""

from __future__ import annotations

import json
import shutil
from collections.abc import AsyncIterator, Callable, Iterator, Mapping
from contextlib import AbstractAsyncContextManager, ExitStack, asynccontextmanager, closing
from pathlib import Path
from typing import Any

import pytest
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet

from engine import open_workshop
from tests.conftest import Clock
from tests.tui.driving import Hand, driven
from tests.tui.shelf import Shelf
from tui.app import DECLARED_KEYS
from tui.cli.dispatch import run


@pytest.fixture(scope="session")
def stages(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    """The collection that the terminal program is driven on, at any of its stages."""
    return Shelf(tmp_path_factory.mktemp("stages"))


@pytest.fixture(scope="session", autouse=True)
def style_sheets_read_once() -> Iterator[None]:
    """Let each program that a test opens take the style sheets as the first one read them.

    A program reads its widgets' style sheets at its start: a third of a second, at every key.
    """
    read = Stylesheet._parse_rules
    kept: dict[tuple[object, ...], list[RuleSet]] = {}

    def once(sheet: Stylesheet, *of: Any, **more: Any) -> list[RuleSet]:
        key = (of, frozenset(more.items()), frozenset(sheet._variables.items()))
        if key not in kept:
            kept[key] = read(sheet, *of, **more)
        return kept[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Stylesheet, "_parse_rules", once)
        yield


AtWork = Callable[..., AbstractAsyncContextManager[Hand]]


@pytest.fixture
def at_work(stages: Shelf, tmp_path: Path) -> AtWork:
    """Run the program on a collection as it stands at a stage."""

    @asynccontextmanager
    async def work(
        stage: str = "listed",
        *,
        size: tuple[int, int] = (80, 24),
        rests: bool = False,
        twice: bool = False,
        reads: bool = False,
        keys: Mapping[str, str] = DECLARED_KEYS,
        notices: bool = False,
    ) -> AsyncIterator[Hand]:
        folder = stages.copy(stage, tmp_path / "harbour-street")
        with ExitStack() as opened:
            first = opened.enter_context(closing(open_workshop(folder))) if twice else None
            workshop = opened.enter_context(closing(open_workshop(folder, Clock())))
            way = {"rests": rests, "reads": reads, "keys": keys, "notices": notices}
            async with driven(workshop, size, **way) as hand:
                hand.first = first
                yield hand

    return work


@pytest.fixture
def shelf(made: Path, tmp_path: Path) -> Path:
    """A collection of twelve games."""
    return Path(shutil.copytree(made / "shelf", tmp_path / "shelf"))


class Said:
    """Runs commands on one collection and reads what they print."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self.capsys = capsys

    def __call__(self, *arguments: str, code: int = 0) -> str:
        assert run([*arguments, "--collection", str(self.folder)]) == code
        read = self.capsys.readouterr()
        return read.err if code and not read.out else read.out

    def json(self, *arguments: str, code: int = 0) -> dict:
        return json.loads(self(*arguments, "--json", code=code))


@pytest.fixture
def say(shelf: Path, capsys: pytest.CaptureFixture[str]) -> Said:
    return Said(shelf, capsys)
