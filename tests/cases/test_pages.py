"""The pages of the case kinds in docs/ are those that its command writes."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

from engine.cases import load_kinds

PAGES = Path(__file__).parents[2] / "docs" / "cases"
COMMAND = runpy.run_path(str(PAGES / "draw.py"))
KINDS = load_kinds()


@pytest.mark.parametrize("name", KINDS)
def test_the_page_of_a_kind_is_up_to_date(name: str) -> None:
    assert (PAGES / f"{name}.md").read_text(encoding="utf-8") == COMMAND["describe"](KINDS[name])
    assert (PAGES / f"{name}.svg").stat().st_size > 1000


def test_the_list_of_pages_is_up_to_date() -> None:
    assert (PAGES / "kinds.md").read_text(encoding="utf-8") == COMMAND["index"](KINDS)


def test_the_example_of_a_persons_own_file_is_right() -> None:
    from engine.cases import parse_kind

    text = (PAGES / "own.md").read_text(encoding="utf-8")
    example = text.split("```toml\n")[1].split("```")[0]
    assert [p.name for p in parse_kind(example, "tin.toml").panels] == ["front", "spine"]
