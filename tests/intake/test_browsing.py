"""Paths as they are typed, completed and pasted."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.intake import PathLook, Sought, look_at_path


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("covers", "Covers 2", ".hidden"):
        (tmp_path / name).mkdir()
    for name in ("games 10.csv", "games 2.xlsx", "Games.ods", "tide.png", "note.pdf"):
        (tmp_path / name).write_bytes(b"")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path


def names(look: PathLook) -> list[str]:
    return [entry.name for entry in look.entries]


def test_what_is_sought_is_offered_folders_first(shelf: Path) -> None:
    lists = look_at_path("", Sought.LIST)
    assert names(lists) == ["covers", "Covers 2", "games 2.xlsx", "games 10.csv", "Games.ods"]
    assert names(look_at_path("", Sought.PICTURES)) == ["covers", "Covers 2"]
    assert names(look_at_path("", Sought.PICTURE)) == ["covers", "Covers 2", "note.pdf", "tide.png"]
    assert names(look_at_path(".h", Sought.LIST)) == [".hidden"]


@pytest.mark.parametrize(
    ("typed", "completed"),
    [
        ("ti", "ti"),
        ("games 1", "games 10.csv"),
        ("ga", "games"),
        ("GAMES 1", "games 10.csv"),
        ("cov", "covers"),
        ("covers/", "covers/"),
        ("nowhere", "nowhere"),
        ("~/games 2", "~/games 2.xlsx"),
    ],
)
def test_as_much_is_completed_as_is_certain(typed: str, completed: str, shelf: Path) -> None:
    assert look_at_path(typed, Sought.LIST).completed == completed


@pytest.mark.parametrize(
    "typed", ["games 2.xlsx", "'games 2.xlsx'", " games 2.xlsx ", "~/games 2.xlsx"]
)
def test_a_path_is_known_however_it_was_pasted(typed: str, shelf: Path) -> None:
    look = look_at_path(typed, Sought.LIST)
    assert (look.path, look.is_there) == (shelf / "games 2.xlsx", True)


def test_a_file_url_is_a_path(shelf: Path) -> None:
    look = look_at_path((shelf / "games 2.xlsx").as_uri(), Sought.LIST)
    assert (look.path, look.is_there) == (shelf / "games 2.xlsx", True)


@pytest.mark.parametrize(
    ("typed", "sought", "is_there"),
    [
        ("", Sought.LIST, False),
        ("covers", Sought.LIST, False),
        ("covers", Sought.PICTURES, True),
        ("tide.png", Sought.PICTURES, False),
        ("tide.png", Sought.PICTURE, True),
        ("new", Sought.COLLECTION, True),
        ("covers", Sought.COLLECTION, True),
        ("tide.png", Sought.COLLECTION, False),
        ("new.pdf", Sought.WRITTEN, True),
        ("tide.png", Sought.WRITTEN, True),
        ("covers", Sought.WRITTEN, False),
        ("nowhere/new.pdf", Sought.WRITTEN, False),
        ("new", Sought.EMPTY, True),
        ("covers", Sought.EMPTY, True),
        ("~", Sought.EMPTY, False),
        ("tide.png", Sought.EMPTY, False),
        ("a" * 5000, Sought.LIST, False),
        ("nul\0", Sought.LIST, False),
    ],
)
def test_what_a_path_names(typed: str, sought: Sought, is_there, shelf: Path) -> None:
    assert look_at_path(typed, sought).is_there is is_there


def test_it_is_told_where_a_file_is_there_already(shelf: Path) -> None:
    taken = {name: look_at_path(name, Sought.WRITTEN).is_taken for name in ("tide.png", "new", "")}
    assert taken == {"tide.png": True, "new": False, "": False}
