"""What a setting does, shown on the collection itself: as it is, or as it would be.

Nothing is changed here. What shows a setting, and which figures it bears on, stands in ``SHOWN``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple

from engine import press
from engine.ganging.results import SheetReport
from engine.lettering.titler import edges_of
from engine.model import Size, Value
from engine.model.errors import InputError, PictureError
from engine.model.settings import SETTINGS
from engine.model.takes import ByKind
from engine.model.units import MM_PER_INCH
from engine.model.waiting import Cancel, go_on
from engine.service.ink import InkUse
from engine.service.looked import MEASURES, Looked, Means, Measure, SetAs, Stands
from engine.service.proofs import COARSEST, Proofs
from engine.service.session import Session
from engine.service.setup import Setup
from engine.service.shelf import NOTHING, WhatIf
from engine.service.starting import kind_counts
from engine.service.windows import drawn, part_around, row_of
from engine.shelf import drawing
from engine.state import Snapshot

SEARCHED = 300
"""So many games are looked at for one on which a change shows, and for the longest title."""
SHARPEST = 300.0
"""Nothing is drawn finer, in pixels to the inch."""


class Shows(StrEnum):
    """What shows a setting."""

    SHEET = "sheet"
    """The map of a sheet full of one case kind."""
    EDGES = "edges"
    """A few edges as they stand beside each other."""
    TITLE = "title"
    """One edge, level as it is read."""
    INSERT = "insert"
    """A whole insert."""
    WORDS = "words"
    """Nothing that could be drawn."""


class Shown(NamedTuple):
    """How a setting is shown."""

    by: Shows
    figures: tuple[Measure, ...] = ()
    """Those that it bears on."""


_ROOM = (Measure.ON_SHEET, Measure.USED)
_FLAT = (*_ROOM, Measure.WIDTH, Measure.HEIGHT)
_CUTTING = (Measure.CUTS, Measure.DISTANCES, Measure.TURNS)
_SPARE = (Measure.BLEED, Measure.GUTTER)
_TYPE = (Measure.FAR, Measure.ABRIDGED, Measure.SMALLEST)

SHOWN: Mapping[str, Shown] = MappingProxyType(
    {
        "stock": Shown(Shows.SHEET, _ROOM),
        "margins": Shown(Shows.SHEET, _ROOM),
        "caliper": Shown(Shows.SHEET, _FLAT),
        "stocks": Shown(Shows.SHEET, _ROOM),
        "printer": Shown(Shows.WORDS),
        "rule": Shown(Shows.SHEET, (*_ROOM, *_CUTTING)),
        "patience": Shown(Shows.WORDS),
        "bleed": Shown(Shows.SHEET, (*_ROOM, *_SPARE)),
        "gutter": Shown(Shows.SHEET, (*_ROOM, *_SPARE)),
        "free_bleed": Shown(Shows.SHEET, _SPARE),
        "free_gutter": Shown(Shows.SHEET, _SPARE),
        "kerf": Shown(Shows.SHEET, (*_ROOM, *_CUTTING)),
        "least_distance": Shown(Shows.SHEET, _CUTTING),
        "least_edge": Shown(Shows.SHEET, _CUTTING),
        "stack": Shown(Shows.SHEET, _CUTTING),
        "reverse": Shown(Shows.WORDS),
        "machine": Shown(Shows.WORDS),
        "batch_size": Shown(Shows.WORDS),
        "threshold": Shown(Shows.WORDS, (Measure.TO_CONFIRM,)),
        "case": Shown(Shows.INSERT, _FLAT),
        "pose": Shown(Shows.EDGES),
        "poses": Shown(Shows.EDGES),
        "spine": Shown(Shows.EDGES),
        "left_out": Shown(Shows.INSERT, _FLAT),
        "colour_by": Shown(Shows.EDGES),
        "pins": Shown(Shows.EDGES),
        "ink": Shown(Shows.INSERT, (Measure.INK,)),
        "order": Shown(Shows.EDGES),
        "alphabet": Shown(Shows.EDGES),
        "articles": Shown(Shows.EDGES),
        "dividers": Shown(Shows.EDGES),
        "font": Shown(Shows.TITLE, _TYPE),
        "mode": Shown(Shows.EDGES, _TYPE),
        "lines": Shown(Shows.TITLE, _TYPE),
        "smallest": Shown(Shows.TITLE, _TYPE),
        "largest": Shown(Shows.TITLE, _TYPE),
        "narrowest": Shown(Shows.TITLE, _TYPE),
        "distance": Shown(Shows.TITLE, _TYPE),
        "upright": Shown(Shows.TITLE, _TYPE),
        "dictionary": Shown(Shows.TITLE, _TYPE),
        "mark": Shown(Shows.TITLE, _TYPE),
        "mark_room": Shown(Shows.TITLE, _TYPE),
        "mark_end": Shown(Shows.TITLE),
        "mark_across": Shown(Shows.TITLE),
        "stripe": Shown(Shows.EDGES, _TYPE),
        "stripe_room": Shown(Shows.TITLE, _TYPE),
    }
)
"""How each setting is shown."""


class BeforeAfter(Value, frozen=True):
    """A figure as it is, and as it would be; the same twice where nothing is tried."""

    measure: Measure
    before: float
    after: float


class Pair(NamedTuple):
    """The collection as it is, and as it would be."""

    before: Looked
    after: Looked

    def differs(self, game: str, by: Shows) -> bool:
        """Return whether a game would be designed otherwise, or titled so where that is shown."""
        if by is Shows.TITLE:
            return self.before.titled(game).titles != self.after.titled(game).titles
        return self.before.proposal(game).design != self.after.proposal(game).design


class Effect(Value, frozen=True):
    """What a setting does."""

    setting: str
    shows: Shows
    kind: str
    """The case kind that is shown, by its name."""
    figures: tuple[BeforeAfter, ...]
    sheet: SheetReport | None = None
    """A sheet full of that kind, where it shows the setting."""
    titles: tuple[str, ...] = ()
    """One for each placement of it; empty for an insert without a game."""
    game: str = ""
    """The title of the game that is drawn."""
    stands: tuple[Stands, ...] = ()
    """How its edge stands, and how it would, where edges show the setting."""
    set_as: tuple[SetAs, ...] = ()
    """How its title is set, and how it would be, where one edge shows the setting."""
    picture: bytes = b""
    """A PNG; empty where nothing is drawn."""
    undrawn: str = ""
    """Why it could not be drawn, a sentence."""


class Effects:
    """What settings do."""

    def __init__(self, session: Session, setup: Setup, proofs: Proofs, ink: InkUse) -> None:
        """Look in ``session``, and draw as ``proofs`` does."""
        self._session = session
        self._setup = setup
        self._proofs = proofs
        self._ink = ink

    def effect(
        self,
        setting: str,
        what_if: WhatIf = NOTHING,
        *,
        pixels: tuple[int, int] | None = None,
        cancel: Cancel | None = None,
    ) -> Effect:
        """Return what a setting does as it is, or as the settings of ``what_if`` would have it.

        What was accepted stays as it is, as it does when they are changed. A picture is at most
        about so many ``pixels`` wide and high; without them none is drawn. Raises InputError,
        CaseError or FontError for what cannot be set, and Cancelled when ``cancel`` says so.
        """
        if setting not in SHOWN:
            raise InputError(setting, "no such setting", f"Settings are {', '.join(SHOWN)}")
        with self._session.lock:
            before = after = self._session.snapshot
            settings = self._setup.checked(what_if, self._session.kinds)
        if settings != before.settings:
            after = self._session.tried(before, settings, before.recorded.games)
        means = Means(self._session.lock, self._proofs, self._ink, cancel)
        if after is before:
            seen = Looked(before, _kinds(setting, what_if, before, after)[0][0], means)
            return self._effect(setting, Pair(seen, seen), pixels, cancel)
        pairs = [
            Pair(Looked(before, old, means), Looked(after, new, means))
            for old, new in _kinds(setting, what_if, before, after)
        ]
        return self._effect(setting, _telling(pairs, SHOWN[setting].by), pixels, cancel)

    def _effect(
        self,
        setting: str,
        pair: Pair,
        pixels: tuple[int, int] | None,
        cancel: Cancel | None,
    ) -> Effect:
        by, figures = SHOWN[setting]
        after, games = pair.after, pair.after.snapshot.games
        sheet = after.sheet if by is Shows.SHEET else None
        places = sheet.placements if sheet else ()
        game = _example(pair, by, cancel)
        picture, undrawn = b"", ""
        if game and pixels:
            try:
                picture = self._drawn(by, after, game, pixels, cancel)
            except PictureError as error:
                undrawn = str(error)
        return Effect(
            setting=setting,
            shows=by,
            kind=self._session.kinds[after.kind].name,
            figures=tuple(_taken(pair, figures)),
            sheet=sheet,
            titles=tuple(games[one.game].title if one.game else "" for one in places),
            game=games[game].title if game else "",
            stands=tuple(one.stands(game) for one in pair) if by is Shows.EDGES and game else (),
            set_as=tuple(one.set_as(game) for one in pair) if by is Shows.TITLE and game else (),
            picture=picture,
            undrawn=undrawn,
        )

    def _drawn(
        self,
        by: Shows,
        seen: Looked,
        game: str,
        pixels: tuple[int, int],
        cancel: Cancel | None,
    ) -> bytes:
        go_on(cancel)
        if by is Shows.EDGES:
            return self._edges(seen, game, pixels, cancel)
        insert = self._proofs.composed(seen.proposal(game).design, seen.snapshot.casing)
        if by is Shows.INSERT:
            return press.proof(insert, _ppi(insert.net.size, pixels))
        edge = next(edges_of(insert.net), None)
        if edge is None:
            return b""
        return press.panel_picture(insert, edge.name, _ppi(edge.reading, pixels), closely=True)

    def _edges(
        self, seen: Looked, game: str, pixels: tuple[int, int], cancel: Cancel | None
    ) -> bytes:
        """Return a game's edge among those beside it, as large as its own row or pile allows."""
        part = part_around(seen.shelf, game, pixels, row_of(seen.shelf, game))
        part = part._replace(look=part.look._replace(finished=True, at=""))
        page, size = drawn([part], cancel), drawing.size_of([part])
        return drawing.picture(page, size, pixels[0] / size.width * MM_PER_INCH)


def _kinds(
    setting: str, what_if: WhatIf, before: Snapshot, after: Snapshot
) -> Sequence[tuple[str, str]]:
    """Return the case kinds to look at before and after, in turn: the one that is set for first."""
    takes, value = SETTINGS[setting].takes, what_if.get(setting)
    if isinstance(takes, ByKind):
        named = next((kind for kind in value or () if kind), "")
        if named:
            return [(named, named)]
    found = [(kind, kind) for kind, _ in kind_counts(before).most_common()]
    usual = (before.casing.usual, after.casing.usual)
    return found if found and setting != "case" else [usual]


def _taken(pair: Pair, figures: Sequence[Measure]) -> Iterator[BeforeAfter]:
    """Yield the figures that are known: not the ink of an insert whose picture is gone."""
    for one in figures:
        with suppress(PictureError):
            before, after = map(MEASURES[one], pair)
            if before is not None and after is not None:
                yield BeforeAfter(one, before, after)


def _telling(pairs: Sequence[Pair], by: Shows) -> Pair:
    """Return the first pair on whose sheet a change shows, or the first of all."""
    if by is not Shows.SHEET:
        return pairs[0]
    return next((one for one in pairs if one.before.sheet != one.after.sheet), pairs[0])


def _example(pair: Pair, by: Shows, cancel: Cancel | None) -> str:
    """Return the game to draw: one that a change shows on, else the first, or the longest title."""
    titles = pair.after.snapshot.games
    games = pair.after.to_print
    if by is Shows.EDGES:  # a divider or label stands nowhere on the shelf
        games = tuple(key for key in games if not titles[key].labels)
    games = games[:SEARCHED]
    if by in {Shows.SHEET, Shows.WORDS} or not games:
        return ""
    if pair.before is not pair.after:
        for key in games:
            go_on(cancel)
            if pair.differs(key, by):
                return key
    return max(games, key=lambda key: len(titles[key].title)) if by is Shows.TITLE else games[0]


def _ppi(size: Size, pixels: tuple[int, int]) -> float:
    """Return how fine to draw what is of a size in mm, so that it fills a room in pixels."""
    fits = min(room / side for room, side in zip(pixels, size, strict=True)) * MM_PER_INCH
    return min(max(fits, COARSEST), SHARPEST)
