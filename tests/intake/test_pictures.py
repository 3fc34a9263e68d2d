from __future__ import annotations

import os
from pathlib import Path

import pytest

from engine.intake import find_pictures
from engine.model.errors import InputError


def test_pictures_are_found_in_natural_order_and_below(tmp_path: Path) -> None:
    for name in (
        "tide10.png", "tide2.JPG", "notes.txt", "Reef/front.webp", ".hidden.png",
        ".cache/a.png", "__MACOSX/tide2.jpg", "noend", "reef.TIF",
    ):  # fmt: skip
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).touch()
    found = [path.relative_to(tmp_path).as_posix() for path in find_pictures(tmp_path)]
    assert found == ["Reef/front.webp", "reef.TIF", "tide2.JPG", "tide10.png"]


def test_only_files_are_pictures_and_links_are_not_walked(tmp_path: Path) -> None:
    (tmp_path / "folder.png").mkdir()
    os.mkfifo(tmp_path / "pipe.png")
    (tmp_path / "broken.png").symlink_to(tmp_path / "nowhere.png")
    (tmp_path / "round").symlink_to(tmp_path)
    (tmp_path / "real.png").touch()
    (tmp_path / "linked.png").symlink_to(tmp_path / "real.png")
    assert [path.name for path in find_pictures(tmp_path)] == ["linked.png", "real.png"]


def test_an_empty_folder_has_none(tmp_path: Path) -> None:
    assert find_pictures(tmp_path) == ()


def test_what_is_no_folder_is_told_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "a.png").touch()
    with pytest.raises(InputError, match=r"nowhere: there is no such folder\. Name the folder"):
        find_pictures(tmp_path / "nowhere")
    with pytest.raises(InputError, match=r"a\.png: this is a file\. Name the folder"):
        find_pictures(tmp_path / "a.png")


def test_a_folder_that_may_not_be_read_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.scandir

    def refuse(path: str | os.PathLike[str]) -> object:
        if Path(path).name == "shut":
            raise PermissionError(13, "Permission denied", str(path))
        return real(path)

    (tmp_path / "shut").mkdir()
    monkeypatch.setattr(os, "scandir", refuse)
    with pytest.raises(InputError, match=r"shut: it cannot be read \(permission denied\)"):
        find_pictures(tmp_path)
