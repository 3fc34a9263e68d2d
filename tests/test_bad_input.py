"""Input that cannot be used: one sentence, exit code 2, nothing half done."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.corpus import BAD_LISTS, BAD_PICTURES, good_list, unwritable
from tests.corpus.encodings import png
from tests.corpus.photographs import photograph
from tui.cli.dispatch import run


@pytest.fixture(scope="module")
def good_picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("good") / "Oyster Clock.png"
    png(photograph(0), path)
    return path


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder but the lock, which says only who is at work."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and "lock" not in path.name
    }


def said(capsys: pytest.CaptureFixture[str]) -> str:
    """Return the one sentence on the error channel; nothing may stand on the other."""
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1, err
    assert err.rstrip().endswith((".", '"'))
    assert "Traceback" not in err
    return err


@pytest.mark.parametrize("fault", BAD_LISTS)
def test_a_bad_list_makes_no_collection(
    fault: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bad = BAD_LISTS[fault](tmp_path)
    shelf = tmp_path / "shelf"
    assert run(["intake", str(bad), "--collection", str(shelf)]) == 2
    assert bad.name in said(capsys)
    assert not shelf.exists()


@pytest.mark.parametrize("fault", [*BAD_LISTS, *BAD_PICTURES])
def test_a_bad_delivery_leaves_a_collection_as_it_was(
    fault: str, tmp_path: Path, good_picture: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shelf, pictures = tmp_path / "shelf", tmp_path / "pictures"
    pictures.mkdir()
    shutil.copy(good_picture, pictures)
    good = good_list(tmp_path)
    assert run(["intake", str(good), "--collection", str(shelf)]) == 0
    capsys.readouterr()
    before = contents(shelf)
    if fault in BAD_LISTS:
        bad = BAD_LISTS[fault](tmp_path)
        asked = ["intake", str(bad), "--pictures", str(pictures)]
    else:
        bad = pictures / "Plum Line Express.png"
        BAD_PICTURES[fault](bad)
        asked = ["intake", str(good), "--pictures", str(pictures)]
    assert run([*asked, "--collection", str(shelf)]) == 2
    assert bad.name in said(capsys)
    assert contents(shelf) == before


def test_a_folder_of_pictures_that_is_not_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shelf = tmp_path / "shelf"
    asked = ["intake", str(good_list(tmp_path)), "--pictures", str(tmp_path / "nowhere")]
    assert run([*asked, "--collection", str(shelf)]) == 2
    assert "nowhere" in said(capsys)
    assert not shelf.exists()


def test_an_unwritable_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = unwritable(tmp_path)
    assert run(["intake", str(good_list(tmp_path)), "--collection", str(place)]) == 2
    assert str(place) in said(capsys)
    assert not place.exists()


def test_a_file_in_the_place_of_a_folder(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    place = tmp_path / "shelf"
    place.write_text("in the way", encoding="utf-8")
    assert run(["intake", str(good_list(tmp_path)), "--collection", str(place)]) == 2
    assert "shelf" in said(capsys)
    assert place.read_text(encoding="utf-8") == "in the way"


def test_a_broken_picture_can_be_passed_over_and_is_named(
    tmp_path: Path, good_picture: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pictures = tmp_path / "pictures"
    pictures.mkdir()
    shutil.copy(good_picture, pictures)
    for fault, write in BAD_PICTURES.items():
        write(pictures / f"{fault}.png")
    asked = ["intake", str(good_list(tmp_path)), "--pictures", str(pictures), "--skip-broken"]
    assert run([*asked, "--collection", str(tmp_path / "shelf")]) == 0
    out = capsys.readouterr().out
    assert all(f"{fault}.png" in out for fault in BAD_PICTURES)
