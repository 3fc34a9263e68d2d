"""What the columns of a list are called."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.intake.titles import fold, words_of

NAMES: Mapping[str, tuple[str, ...]] = {
    "title": ("title", "game title", "game name", "name", "game", "titel", "titre", "titulo"),
    "series": ("series", "franchise", "serie", "reihe"),
    "maker": (
        "maker",
        "publisher",
        "developer",
        "author",
        "studio",
        "company",
        "manufacturer",
        "made by",
        "hersteller",
        "editeur",
    ),
    "genre": ("genre", "category", "type", "genero", "kategorie"),
    "year": ("year", "released", "release year", "release date", "date", "jahr", "annee", "ano"),
    "notes": ("notes", "note", "comments", "comment", "remarks", "remark", "notizen"),
    "case": ("case", "case kind", "case type", "box"),
}
"""For each field the headers that mean it, the surest first; written as ``header_key`` gives."""


def header_key(header: str) -> str:
    """Return a header without case, accents and punctuation."""
    return " ".join(words_of(fold(header)))


def assign(headers: Sequence[str]) -> dict[str, int]:
    """Return the column of each field that ``headers`` name, counted from 0.

    Where two columns mean the same field, the surer name has it.
    """
    keys = [header_key(header) for header in headers]
    found: dict[str, int] = {}
    for field, names in NAMES.items():
        column = next((keys.index(name) for name in names if name in keys), None)
        if column is not None:
            found[field] = column
    return found
