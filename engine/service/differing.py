"""What a change made different, in words: what it was before, and after."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

from engine.model import Art, Colours, EdgeTitle, Fit, Game, Match, Pattern, Picture, Sheet
from engine.model.columns import ABOUT
from engine.model.counting import count
from engine.model.naming import There
from engine.model.settings import SETTINGS, Settings

NAMED = 3
"""Games that are told of one by one before the rest are counted."""

OPEN = "open"
"""What is not decided."""

V = TypeVar("V")

_FITS = {
    Fit.STRETCH: "stretched",
    Fit.MATTE: "whole",
    Fit.FILL: "filled",
    Fit.PIXELS: "pixels",
}
_LIE = {
    "focus": "crop",
    "trim": "trim",
    "split": "split",
    "turn": "turn",
    "matte": "matte",
    "stretch": "stretch",
    "band": "band of words",
    "others": "other panels",
}
"""How a picture lies, by the fields of its art."""
_ARROW = " → "
_TOLD = {*ABOUT, "id", "case", "match", "accepted", "sides", "fitted"}
"""What else a game has is told where it is text, and else that it differs."""
_HABITS = {
    "own_papers": "own papers",
    "calibrations": "what was measured of printers",
}


def differences(
    old: Game, new: Game, pictures: Mapping[str, Picture], kinds: Mapping[str, str]
) -> Iterator[str]:
    """Yield 'colour: open → #334455' for each thing about a game that differs.

    ``pictures`` are known by name; ``kinds`` have the names of case kinds by id.
    """

    def source(name: str | None) -> str:
        known = pictures.get(name or "")
        return known.source if known else name or "none"

    def case(kind: str | None) -> str:
        return kinds.get(kind, kind) if kind else OPEN

    a, b = old.accepted, new.accepted
    for field in ABOUT:
        yield from _told(field, getattr(old, field), getattr(new, field), _text)
    yield from _told("case in the list", old.case, new.case, lambda kind: case(kind or None))
    yield from _told("picture", old.match, new.match, lambda match: _match(match, source))
    yield from _told("case", a.case, b.case, case)
    yield from _art(a.art, b.art, source)
    yield from _told("colour", a.colours, b.colours, _colour)
    yield from _told("title on the edges", a.title, b.title, _title)
    yield from _told("panels left out", a.left_out or (), b.left_out or (), _listed)
    yield from _told("ink", a.ink, b.ink, str)
    if old.sides != new.sides or a.shown != b.shown:
        yield "pictures of other panels changed"
    yield from _told("in its case", old.fitted, new.fitted, lambda one: "yes" if one else "no")
    for field in Game.__struct_fields__:
        if field not in _TOLD:
            yield from _told(
                field.replace("_", " "), getattr(old, field), getattr(new, field), _text
            )


def game_lines(
    edits: Iterable[tuple[Game | None, Game | None]],
    pictures: Mapping[str, Picture],
    kinds: Mapping[str, str],
) -> list[str]:
    """Return a line for each of the first few games that differ, and how many more there are."""
    lines: list[str] = []
    more = 0
    for old, new in edits:
        one = new or old
        if one is None:
            continue
        if len(lines) == NAMED:
            more += 1
        elif old is None or new is None:
            lines.append(f"{one.title}: {'taken in' if new else 'no longer there'}")
        else:
            told = "; ".join(differences(old, new, pictures, kinds)) or "another design"
            lines.append(f"{one.title}: {told}")
    return [*lines, *([f"and {count(more, 'more game')}"] if more else [])]


def sheet_lines(edits: Mapping[int, tuple[Sheet | None, Sheet | None]]) -> list[str]:
    """Return 'sheet 3: pressed → settled' for each sheet that differs."""
    return [
        line
        for number, (old, new) in sorted(edits.items())
        for line in _told(f"sheet {number}", old, new, sheet_words)
    ]


def sheet_words(sheet: Sheet | None) -> str:
    """Return where a sheet is in its life: 'settled, 1 of 9 spoiled'."""
    if sheet is None:
        return "not pressed"
    if sheet.withdrawn_at is not None:
        return "withdrawn"
    inserts, spoiled = len(sheet.placements), sum(one.spoiled for one in sheet.placements)
    if sheet.settled_at is None:
        return f"pressed, {count(inserts, 'insert')}"
    kept = f", {count(len(sheet.offcuts), 'offcut')} kept" if sheet.offcuts else ""
    return f"settled, {spoiled or 'none'} of {inserts} spoiled{kept}"


def picture_lines(edits: Iterable[tuple[Picture | None, Picture | None]]) -> list[str]:
    """Return how many pictures more or fewer there are."""
    more = sum((new is not None) - (old is not None) for old, new in edits)
    return [f"{count(abs(more), 'picture')} {'more' if more > 0 else 'fewer'}"] if more else []


def setting_lines(old: Settings, new: Settings, there: There) -> list[str]:
    """Return 'patience: 4 sheets → 7 sheets' for each setting that differs."""
    lines = [
        line
        for one in SETTINGS.values()
        for line in _told(
            one.title[0].lower() + one.title[1:],
            one.value(old),
            one.value(new),
            lambda value, one=one: one.takes.words(value, there),  # type: ignore[misc]
        )
    ]
    # That the paper changed says nothing beside what of it did.
    lines = [line for line in lines if _ARROW in line] or lines
    lines += _told("batch", old.batch, new.batch, lambda batch: count(len(batch), "game"))
    lines += [
        f"{words} changed"
        for field, words in _HABITS.items()
        if getattr(old, field) != getattr(new, field)
    ]
    return lines or ["setup changed"]


def _told(what: str, old: V, new: V, words: Callable[[V], str]) -> Iterator[str]:
    """Yield what differs, if it does; where its words do not, that it was changed."""
    if old != new:
        before, after = words(old), words(new)
        yield f"{what}: {before}{_ARROW}{after}" if before != after else f"{what} changed"


def _art(old: Art | None, new: Art | None, source: Callable[[str | None], str]) -> Iterator[str]:
    def words(art: Art | None) -> str:
        if art is None:
            return OPEN
        if art.picture is None:
            return "plain" if art.pattern is Pattern.PLAIN else str(art.pattern)
        return f"{source(art.picture)}, {_FITS[art.fit]}"

    if old and new and words(old) == words(new):
        moved = [said for field, said in _LIE.items() if getattr(old, field) != getattr(new, field)]
        if moved:
            yield f"{' and '.join(moved)} of the art changed"
            return
    yield from _told("art", old, new, words)


def _match(match: Match | None, source: Callable[[str | None], str]) -> str:
    return source(match.picture if match else None)


def _colour(colours: Colours | None) -> str:
    return colours.base if colours else OPEN


def _title(title: Sequence[EdgeTitle] | None) -> str:
    if title is None:
        return OPEN
    lines = dict.fromkeys(" / ".join(edge.lines) or "a logo" for edge in title)
    return ", ".join(lines) or "none"


def _text(value: object) -> str:
    return (value or "–") if isinstance(value, str) else ""


def _listed(names: Sequence[str]) -> str:
    return ", ".join(names) or "none"
