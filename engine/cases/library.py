"""The case kinds at hand: those that ship and those of a collection."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from engine.cases.kindfile import described, kind_text, read_kind
from engine.cases.model import CaseKind
from engine.model.errors import CaseError, CollectionError, RefusedError

BUILT_IN = Path(__file__).parent / "kinds"


def load_kinds(folder: Path | None = None) -> dict[str, CaseKind]:
    """Return the case kinds by id: the built-in ones, then those of a collection's folder.

    A file of the folder with the name of a built-in kind takes its place. Raises CaseError
    that names file, line and field where one cannot be used; a folder that is not there
    holds none.
    """
    kinds = dict(_built_in())
    if folder is not None and folder.is_dir():
        for path in sorted(folder.glob("*.toml")):
            kind = read_kind(path)
            kinds[kind.id] = kind
    return kinds


@cache
def _built_in() -> dict[str, CaseKind]:
    """Return the kinds that ship. Their nets are laid out by the tests, not at every start."""
    return {
        path.stem: described(path.read_text(encoding="utf-8"), path.name)
        for path in sorted(BUILT_IN.glob("*.toml"))
    }


def save_kind(kind: CaseKind, folder: Path, *, replace: bool = False) -> Path:
    """Write a kind into a collection's folder of case kinds and return the file.

    The file is written whole or not at all. A built-in kind of the same id is from then on
    replaced by it in this collection. Raises RefusedError where the folder has a kind of
    that id already, unless it may ``replace`` it, and CollectionError where the folder
    cannot be written.
    """
    path = folder / f"{kind.id}.toml"
    if path.exists() and not replace:
        raise RefusedError(kind.id, "the collection has a case kind of that name", "Choose another")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _write_whole(path, kind_text(kind))
    except OSError as error:
        raise CollectionError(
            str(path), f"cannot be written ({error.strerror})", "Make room or allow writing there"
        ) from error
    return path


def _write_whole(path: Path, text: str) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.stem}-")
    new = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        new.replace(path)
    except BaseException:
        new.unlink(missing_ok=True)
        raise


def find_kind(kinds: Mapping[str, CaseKind], said: str) -> str | None:
    """Return the id of the case kind that a person means by its id or name, or None."""
    wanted = said.strip().casefold()
    for kind in kinds.values():
        if wanted in {kind.id.casefold(), kind.name.casefold()}:
            return kind.id
    return None


def known_kind(kinds: Mapping[str, CaseKind], said: str) -> str:
    """Return the id of the case kind that a person means. Raises CaseError for none."""
    found = find_kind(kinds, said)
    if found is None:
        raise CaseError(said, "no such case kind", f"Kinds are {', '.join(kinds)}")
    return found
