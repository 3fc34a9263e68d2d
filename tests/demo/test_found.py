"""What is said to be found in the covers is what intake finds in them."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from engine import artwork, unpack
from engine.demo import LIST, PICTURES, found_pictures
from harbour import finding
from harbour.shelf import Cover, covers


def sample() -> list[Cover]:
    """One cover of each finish, of each format without one, and some more."""
    kinds: dict[object, Cover] = {}
    for number, cover in enumerate(covers()):
        kind = cover.finish or Path(cover.file).suffix
        kinds.setdefault(kind, cover)
        if number % 30 == 0:
            kinds[number] = cover
    return list(dict.fromkeys(kinds.values()))


def test_a_fresh_look_at_some_covers_finds_what_the_file_says(tmp_path: Path) -> None:
    """All of them are compared by ``python -m harbour --check``."""
    chosen = sample()
    assert len(chosen) >= 12
    assert {cover.finish for cover in chosen} == {cover.finish for cover in covers()}
    for cover in chosen:
        shutil.copy(PICTURES / cover.file, tmp_path)
    names = {cover.file for cover in chosen}
    said = [picture for picture in found_pictures() if picture.source in names]
    assert finding.differences(said, finding.look(tmp_path)) == []


def test_no_cover_has_to_be_opened_and_none_is_made_up(monkeypatch: pytest.MonkeyPatch) -> None:
    def opened(path: Path, source: str) -> None:
        raise AssertionError(f"{source} was opened")

    monkeypatch.setattr(artwork, "inspect", opened)
    found = unpack(LIST, PICTURES, known=found_pictures()).pictures
    assert set(found) == {cover.file for cover in covers()}
    assert tuple(found.values()) == found_pictures()
