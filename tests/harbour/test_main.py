"""Drawing the shelf anew, and the check that what ships is up to date."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from PIL import Image

import harbour.__main__ as command
from engine import Picture
from engine.demo import FOUND, PICTURES, found_pictures
from harbour import covers, finding, scans, shelf

SMALL = tuple(
    cover for cover in shelf.covers() if cover.finish == "screen" or cover.file.startswith("zolty")
)
"""The little screens and a cover of another kind: quick to draw."""


@pytest.fixture
def few(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shelf of few covers, to be drawn in a folder of its own."""
    monkeypatch.setattr(command, "covers", lambda: SMALL)
    monkeypatch.setattr(command, "PICTURES", tmp_path / "pictures")
    monkeypatch.setattr(command, "FOUND", tmp_path / "found.json")
    return tmp_path


def test_drawing_twice_gives_the_same_bytes_and_leaves_nothing_else(few: Path) -> None:
    assert command.main([]) == 0
    once = {path.name: path.read_bytes() for path in few.rglob("*.*")}
    (few / "pictures" / "no cover.jpg").write_bytes(b"left behind")
    (few / "found.json").unlink()
    assert command.main([]) == 0
    assert {path.name: path.read_bytes() for path in few.rglob("*.*")} == once
    assert set(once) == {"found.json", *(cover.file for cover in SMALL)}


def test_looking_anew_writes_only_what_is_found(few: Path) -> None:
    command.main([])
    (few / "pictures" / SMALL[0].file).unlink()
    before = {path.name: path.stat().st_mtime_ns for path in (few / "pictures").iterdir()}
    assert command.main(["--look"]) == 0
    assert {path.name: path.stat().st_mtime_ns for path in (few / "pictures").iterdir()} == before
    found = msgspec.json.decode((few / "found.json").read_bytes(), type=tuple[Picture, ...])
    assert {picture.source for picture in found} == set(before)


def test_the_covers_that_ship_are_those_that_are_drawn() -> None:
    """Compared at thumbnail size, since another build of Pillow may smooth otherwise."""
    for cover in SMALL:
        drawn = covers.draw(cover).resize((24, 24)).tobytes()
        with Image.open(PICTURES / cover.file) as file:
            shipped = file.convert("RGB").resize((24, 24)).tobytes()
        apart = sum(abs(a - b) for a, b in zip(drawn, shipped, strict=True)) / len(drawn)
        assert apart < 8, cover.file


def test_the_check_names_what_is_missing_and_what_is_left_over(
    few: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    command.main([])
    said = msgspec.json.decode((few / "found.json").read_bytes(), type=tuple[Picture, ...])
    assert len(said) == len(SMALL)
    monkeypatch.setattr(command, "found_pictures", lambda: said)
    assert command.main(["--check"]) == 0
    (few / "pictures" / "no cover.jpg").write_bytes((few / "pictures" / SMALL[0].file).read_bytes())
    (few / "pictures" / SMALL[1].file).unlink()
    capsys.readouterr()
    assert command.main(["--check"]) == 1
    told = capsys.readouterr().out
    assert f"{SMALL[1].file}: not drawn" in told
    assert f"{SMALL[1].file}: said to be what no file is" in told
    assert "no cover.jpg: no cover of the list" in told


def test_what_is_seen_otherwise_than_was_said_is_told_and_rounding_is_not() -> None:
    said = next(picture for picture in found_pictures() if any(picture.trim))
    left = said.trim.left
    rounded = msgspec.structs.replace(said, trim=said.trim._replace(left=left + 0.001))
    moved = msgspec.structs.replace(said, trim=said.trim._replace(left=left + 0.01))
    assert finding.differences([said], [rounded]) == []
    (told,) = finding.differences([said], [moved])
    assert said.source in told
    assert "trim" in told
    (told,) = finding.differences([said], [msgspec.structs.replace(said, side="#123456")])
    assert "side" in told
    (told,) = finding.differences([said], [msgspec.structs.replace(said, dot=said.dot + 1)])
    assert "dot" in told
    assert len(finding.differences([said], [msgspec.structs.replace(said, name="x.jpg")])) == 2


def test_nonsense_is_answered_with_how_to_use_it(capsys: pytest.CaptureFixture[str]) -> None:
    before = FOUND.stat().st_mtime_ns
    assert command.main(["--chekc"]) == 2
    assert "--check" in capsys.readouterr().err
    assert FOUND.stat().st_mtime_ns == before


def test_a_scan_is_written_as_the_same_file_twice(tmp_path: Path) -> None:
    (cover,) = (c for c in shelf.covers() if c.finish == "white border" and "scan" in c.file)
    files = [tmp_path / turn / cover.file for turn in ("one", "two")]
    for file in files:
        file.parent.mkdir()
        scans.write(file, covers.draw(cover), cover.finish)
    assert files[0].read_bytes() == files[1].read_bytes()
