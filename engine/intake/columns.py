"""What the columns of a list are called."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.intake.titles import fold, word_set, words_of

NAMES: Mapping[str, tuple[str, ...]] = {
    field: tuple(names.split(", "))
    for field, names in {
        "title": "title, game title, game name, name of game, name, game, titles, titel, titre, "
        "titulo, titolo, tytul, spiel, name des spiels, nom, nom du jeu, jeu, nombre, juego, nome, "
        "gioco, jogo, naam, spel, nazwa, gra, タイトル, ゲーム名, τιτλοσ, название",
        "series": "series, franchise, serie, reihe, saga, seria, シリーズ, σειρα, серия",
        "maker": "maker, publisher, developer, author, studio, company, manufacturer, made by, "
        "hersteller, firma, verlag, entwickler, editeur, developpeur, editore, desarrollador, "
        "uitgever, wydawca, producent, メーカー, εκδοτησ, издатель",
        "genre": "genre, category, type, genero, genere, kategorie, gatunek, ジャンル, ειδοσ, жанр",
        "year": "year, released, release year, release date, date, jahr, erscheinungsjahr, annee, "
        "ano, anno, jaar, rok, rok wydania, 発売年, ετοσ, год",
        "notes": "notes, note, comments, comment, remarks, remark, notiz, notizen, "
        "bemerkung, bemerkungen, anmerkung, anmerkungen, remarque, remarques, notas, opmerkingen, "
        "uwagi, 備考, メモ, σημειωσεισ, примечания",
        "case": "case, case kind, case type, box",
    }.items()
}
"""For each field the headers that mean it, the surest first; written as ``header_key`` gives."""

TOTALS = word_set(
    "total totals sum summe gesamt insgesamt totale totaal somme suma razem итого всего συνολο 合計"
)
"""What the line beneath a list says of it, folded."""


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


HEADER_DEPTH = 12
"""How many rows that are not blank are looked at for the header: above it people write what the
list is."""


def header_at(rows: Sequence[Sequence[str]], fewest: int) -> int:
    """Return which of the first ``rows`` is the header, from 0; 0 too where none is.

    A row further down is one if it names the title and ``fewest`` fields in all, and each row
    above it fills fewer cells.
    """
    widest = 0
    for at, row in enumerate(rows[:HEADER_DEPTH]):
        filled = sum(bool(cell.strip()) for cell in row)
        fields = assign(row)
        if "title" in fields and len(fields) >= fewest and filled > max(widest, 1):
            return at
        widest = max(widest, filled)
    return 0
