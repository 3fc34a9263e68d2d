"""Files of a collection that are no change: a person's own case kinds, trial cuts."""

from __future__ import annotations

import pytest

from engine.collection import Collection
from engine.model.errors import CollectionError, RefusedError


def test_a_case_kind_is_kept_once_unless_it_replaces(collection: Collection) -> None:
    path = collection.keep_kind("tin", 'name = "Tin für zwei"')
    assert path == collection.folder / "cases" / "tin.toml"
    with pytest.raises(RefusedError, match="tin: the collection has a case kind of that name"):
        collection.keep_kind("tin", 'name = "Other"')
    assert path.read_text("utf-8") == 'name = "Tin für zwei"'
    assert collection.keep_kind("tin", 'name = "Other"', replace=True) == path
    assert path.read_text("utf-8") == 'name = "Other"'
    assert collection.undo() is None
    assert [each.name for each in path.parent.iterdir()] == ["tin.toml"]


def test_a_trial_cut_lies_among_the_sheets_and_may_be_written_again(
    collection: Collection,
) -> None:
    for page in (b"%PDF one", b"%PDF two"):
        path = collection.keep_trial("tin", page)
        assert path.read_bytes() == page
    assert path == collection.folder / "sheets" / "trial-tin.pdf"
    assert collection.check() == ()


def test_a_folder_that_is_gone_is_made_again(collection: Collection) -> None:
    (collection.folder / "cases").rmdir()
    assert collection.keep_kind("tin", "").is_file()


def test_a_file_in_the_place_of_a_folder_is_told(collection: Collection) -> None:
    (collection.folder / "cases").rmdir()
    (collection.folder / "cases").write_text("in the way")
    with pytest.raises(CollectionError, match=r"cases/tin\.toml: a part of this path is a file"):
        collection.keep_kind("tin", "")
