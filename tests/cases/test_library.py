from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from engine.cases import CaseShape, draft, flatten, kind_text, load_kinds
from engine.model.errors import CaseError
from tests.cases.test_kindfile import GOOD


def test_a_kind_from_outside_the_package_is_one_file(tmp_path: Path) -> None:
    (tmp_path / "tin.toml").write_text(GOOD)
    (tmp_path / "notes.txt").write_text("not a kind")
    kinds = load_kinds(tmp_path)
    assert set(kinds) - set(load_kinds()) == {"tin"}
    assert flatten(kinds["tin"], 0.25).panel("spine").turn == 270


def test_a_folder_that_is_not_there_holds_no_kinds(tmp_path: Path) -> None:
    assert load_kinds(tmp_path / "cases") == load_kinds()


def test_a_collection_may_replace_a_kind_that_ships(tmp_path: Path) -> None:
    (tmp_path / "keep-case.toml").write_text(GOOD)
    assert load_kinds(tmp_path)["keep-case"].name == "Tin"
    assert load_kinds()["keep-case"].name != "Tin"


def test_a_wrong_file_is_told_by_name(tmp_path: Path) -> None:
    (tmp_path / "tin.toml").write_text(GOOD.replace("left", "leftish"))
    with pytest.raises(CaseError, match=r"^tin\.toml, line 20, side: "):
        load_kinds(tmp_path)


def test_a_kind_that_was_written_is_found_again(tmp_path: Path) -> None:
    kind = draft(CaseShape.STRIP, "My tins", {"height": 90, "width": 9})
    (tmp_path / f"{kind.id}.toml").write_text(kind_text(kind), encoding="utf-8")
    assert load_kinds(tmp_path)["my-tins"] == kind


def test_reading_the_kinds_does_not_load_shapely() -> None:
    code = (
        "import sys; from engine.cases import load_kinds; load_kinds(); "
        "print([m for m in ('shapely', 'ezdxf') if m in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
