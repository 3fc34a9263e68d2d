"""A collection written out and taken in again is the same collection."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path

import pytest

from tests.tui.conftest import Said
from tui.cli.dispatch import run


def tables(folder: Path) -> dict[str, list[object]]:
    """Return all records of a collection's file, whatever the numbers of their rows."""
    raw = json.loads((folder / "collection.json").read_text("utf-8"))
    names = ("games", "pictures", "sheets", "settings")
    return {name: list(raw[name].values()) for name in names}


def files(folder: Path) -> dict[str, bytes]:
    places = ("pictures", "sheets", "fonts", "cases")
    found = [path for place in places for path in (folder / place).iterdir()]
    return {f"{path.parent.name}/{path.name}": path.read_bytes() for path in found}


@pytest.fixture(scope="module")
def source(made: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A collection that went as far as a settled sheet, and beside it what it was exported to."""
    folder = tmp_path_factory.mktemp("source")
    shelf = shutil.copytree(made / "shelf", folder / "shelf")
    for command in (
        "setup --stock letter-card --machine dxf --short Lantern=L.",
        "cases new --shape wrap --name Tin --measure height=100 front=64 spine=3",
        "propose --accept lantern-bay-1 lantern-bay-2 lantern-bay-3",
        "press --part-full --cut-page",
        "settle 1 --spoiled 2",
        f"export {folder / 'out'}",
    ):
        with redirect_stdout(StringIO()):
            assert run([*command.split(), "--collection", str(shelf)]) == 0
    return folder


@pytest.fixture
def exported(source: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(source / "out", tmp_path / "out"))


@pytest.fixture
def again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Said:
    """A collection that is not there yet."""
    return Said(tmp_path / "again", capsys)


def test_the_whole_comes_back(source: Path, exported: Path, again: Said) -> None:
    names = {path.name for path in (exported / "pictures").iterdir()}
    assert "Lantern_Bay_3 (Rev 1).png" in names
    assert again.json("intake", str(exported), "--no-reading")["added"] == 12
    assert tables(again.folder) == tables(source / "shelf")
    assert files(again.folder) == files(source / "shelf")
    assert again("check") == "All is well.\n"
    assert "has games" in again("intake", str(exported), code=1)
    assert "holds something" in again("export", str(exported), code=2)
    again("undo")
    assert again.json("progress")["games"] == 0


def test_the_list_brings_back_games_with_all_that_was_decided(
    source: Path, exported: Path, again: Said, tmp_path: Path
) -> None:
    pictures = str(exported / "pictures")
    again("intake", str(exported / "games.csv"), "--pictures", pictures, "--no-reading")
    assert tables(again.folder)["games"] == tables(source / "shelf")["games"]
    bare = Said(tmp_path / "bare", again.capsys)
    said = bare("intake", str(exported / "games.csv"), "--no-reading")
    assert "lantern-bay-3: its picture is not there, so it is open again." in said
    assert bare("check") == "All is well.\n"


@pytest.mark.parametrize(
    ("spoil", "what"),
    [
        (lambda out: next((out / "pictures").iterdir()).write_bytes(b"x"), "not the picture that"),
        (lambda out: next((out / "pictures").iterdir()).unlink(), "it cannot be read"),
        (lambda out: point(out, "../spinery.json"), "outside the export"),
        (lambda out: (out / "cases" / "tin.toml").write_text("["), "tin.toml"),
        (lambda out: (out / "spinery.json").write_text('{"spinery_schema": 99,'), "no whole"),
    ],
)
def test_an_export_that_was_spoilt_is_refused_whole(
    exported: Path, again: Said, spoil: Callable[[Path], None], what: str
) -> None:
    spoil(exported)
    assert what in again("intake", str(exported), code=2)
    pictures = again.folder / "pictures"
    assert not pictures.exists() or not any(pictures.iterdir())


def point(out: Path, to: str) -> None:
    """Let the export name a file elsewhere as the first picture."""
    whole = json.loads((out / "spinery.json").read_text("utf-8"))
    whole["pictures"][0]["file"] = to
    (out / "spinery.json").write_text(json.dumps(whole), "utf-8")
