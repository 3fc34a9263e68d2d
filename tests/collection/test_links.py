"""No path leads out of a collection, by its name or by a link."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.lettering import kept
from engine.model import FontRef
from engine.model.errors import CollectionError, FontError


@pytest.mark.parametrize("part", ["pictures", "sheets", "backups", "fonts", "cases"])
def test_a_folder_that_is_a_link_is_not_opened(collection, tmp_path: Path, part: str) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    collection.close()
    (collection.folder / part).rmdir()
    (collection.folder / part).symlink_to(outside)
    with pytest.raises(CollectionError, match="is a link"):
        type(collection).open(collection.folder, now=collection._now)
    assert list(outside.iterdir()) == []


def test_a_lock_that_is_a_link_empties_nothing(collection, tmp_path: Path) -> None:
    letter = tmp_path / "letter"
    letter.write_text("dear bank", encoding="utf-8")
    collection.close()
    lock = collection.folder / ".collection.lock"
    lock.unlink(missing_ok=True)
    lock.symlink_to(letter)
    with pytest.raises(CollectionError, match="is a link"):
        type(collection).open(collection.folder, now=collection._now)
    assert letter.read_text(encoding="utf-8") == "dear bank"


def test_a_picture_that_is_a_link_out_is_not_opened(collection, tmp_path: Path) -> None:
    (tmp_path / "private.png").write_bytes(b"x")
    (collection.folder / "pictures" / "a.png").symlink_to(tmp_path / "private.png")
    with pytest.raises(CollectionError, match="leads out of the collection"):
        collection.picture_path("a.png")
    for name in ("../a.png", "..", "/etc/hostname", "a/../../b.png"):
        with pytest.raises(CollectionError):
            collection.picture_path(name)


def test_a_font_that_leads_out_is_not_opened(tmp_path: Path) -> None:
    for name in ("../a.ttf", "b/../../a.ttf"):
        with pytest.raises(FontError, match="leads out of the collection"):
            kept(FontRef(name), tmp_path)
