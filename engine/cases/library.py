"""The case kinds at hand: those that ship and those of a collection."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from engine.cases.kindfile import read_kind
from engine.cases.layout import flatten
from engine.cases.model import CaseKind
from engine.errors import CaseError

BUILT_IN = Path(__file__).parent / "kinds"
_TRIED_ON = 0.25


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
            _try(kind, path)
            kinds[kind.id] = kind
    return kinds


@cache
def _built_in() -> dict[str, CaseKind]:
    return {kind.id: kind for kind in map(read_kind, sorted(BUILT_IN.glob("*.toml")))}


def _try(kind: CaseKind, path: Path) -> None:
    """Lay the net out once, so that one that cannot be folded is refused by its file."""
    try:
        flatten(kind, _TRIED_ON)
    except CaseError as error:
        raise CaseError(path.name, error.what, error.mend) from error
