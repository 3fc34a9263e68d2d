"""The case kinds at hand: those that ship and those of a collection."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from engine.cases.kindfile import described, read_kind
from engine.cases.model import CaseKind
from engine.model.errors import CaseError

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
