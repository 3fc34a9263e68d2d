"""The demo collection, made through the same use cases that a person has."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine import CollectionError, RefusedError, Stage, Workshop, open_workshop
from engine.demo import make_demo
from harbour.shelf import covers

pytestmark = pytest.mark.xdist_group("demo")


def test_every_stage_has_games(demo: Workshop) -> None:
    stages = demo.progress().stages
    assert sum(stages.values()) == 120
    assert all(stages[stage] > 0 for stage in Stage if stage is not Stage.UNWANTED)
    assert stages[Stage.LISTED] > 60


def test_two_sheets_are_settled_and_one_insert_was_spoiled(demo: Workshop) -> None:
    workshop = demo
    pages = sorted((workshop.folder / "sheets").glob("*.pdf"))
    assert len(pages) == 2
    assert all(page.read_bytes().startswith(b"%PDF") for page in pages)
    assert workshop.sheets.report().pressed == ()


def test_the_open_sheet_is_almost_full_and_none_is_ready(demo: Workshop) -> None:
    sheets = demo.sheets.report()
    (almost,) = sheets.open
    assert sheets.ready == ()
    assert 1 <= sum(lack.count for lack in almost.lacks) <= 2


def test_todays_batch_is_begun(demo: Workshop) -> None:
    workshop = demo
    stages = {line.id: line.stage for line in workshop.games.lines()}
    batch = workshop.batch.games()
    assert len(batch) > 4
    assert Stage.ART_CHOSEN in {stages[game] for game in batch}


def test_most_pictures_are_matched_to_their_own_game(demo: Workshop) -> None:
    """The list of covers knows which game each was drawn for; none may go to another."""
    own = {cover.title: cover.file for cover in covers() if cover.title}
    found = {p.title: p.art.source for p in demo.designs.proposals() if p.art.source}
    assert {title for title, source in found.items() if source != own.get(title)} == set()
    assert len(found) > 0.75 * len(demo.designs.proposals())


def test_every_case_kind_of_the_list_fits_the_stock(demo: Workshop) -> None:
    doubts = [doubt for p in demo.designs.proposals() for doubt in p.doubts]
    assert not [doubt for doubt in doubts if "does not fit" in doubt]


def test_the_collection_is_healthy_and_reads_the_same_again(
    demo: Workshop,
) -> None:
    workshop = demo
    assert workshop.check().ok
    again = open_workshop(workshop.folder)
    try:
        assert again.games.lines() == workshop.games.lines()
    finally:
        again.close()


def test_a_collection_that_is_there_already_is_left_alone(demo: Workshop, tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    workshop = open_workshop(folder)
    (tmp_path / "list.csv").write_text("title\nA Game of Mine\n", encoding="utf-8")
    workshop.games.intake(tmp_path / "list.csv")
    workshop.close()
    before = (folder / "collection.json").read_bytes()
    with pytest.raises(RefusedError, match="holds a collection already"):
        make_demo(folder)
    assert (folder / "collection.json").read_bytes() == before


def test_a_folder_that_cannot_be_written_is_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    with pytest.raises(CollectionError, match="this is a file"):
        make_demo(tmp_path / "file")
