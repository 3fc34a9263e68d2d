"""The list of covers: all of it can be drawn, and all that can be drawn is in it."""

from __future__ import annotations

from pathlib import PurePath

from harbour import shelf
from harbour.palettes import PALETTES
from harbour.scans import FINISHES
from harbour.scenes import SCENES
from harbour.title import STYLES

COVERS = shelf.covers()


def test_every_cover_is_drawn_from_what_there_is() -> None:
    for cover in COVERS:
        assert cover.scene in SCENES, cover.file
        assert cover.palette in PALETTES, cover.file
        assert cover.style in {"", *STYLES}, cover.file
        assert cover.finish in {"", *FINISHES}, cover.file


def test_each_scene_finish_and_format_is_used() -> None:
    assert {cover.scene for cover in COVERS} == set(SCENES)
    assert {cover.finish for cover in COVERS} == {"", *FINISHES}
    suffixes = {PurePath(cover.file).suffix for cover in COVERS}
    assert {".jpg", ".JPG", ".png", ".gif", ".webp"} <= suffixes


def test_all_but_eight_games_have_a_picture_and_one_picture_belongs_to_none() -> None:
    assert len(shelf.loans()) == 120
    assert sum(bool(cover.title) for cover in COVERS) == 112
    assert sum(not cover.title for cover in COVERS) == 1
    assert len({cover.file.casefold() for cover in COVERS}) == len(COVERS)


def test_sizes_run_from_a_little_screen_to_a_big_scan() -> None:
    longest = [max(cover.width, cover.height) for cover in COVERS]
    assert min(longest) == 160
    assert max(longest) == 2400
