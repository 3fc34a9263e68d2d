"""Fonts that stand in for characters which the font of a title lacks.

Which they are is decided when a title is proposed, and is a part of its design from then on. A
proposal names files of the machine; once it is accepted, the collection keeps these files, so
that its inserts come out the same wherever its folder is taken.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import msgspec

from engine.lettering import machine
from engine.lettering.coverage import lacking
from engine.lettering.faces import open_face
from engine.lettering.fontfile import open_raw
from engine.lettering.fonts import default_font, kept
from engine.model import Accepted, Design, FontRef, Game
from engine.model.errors import FontError

if TYPE_CHECKING:
    import uharfbuzz as hb

Decided = TypeVar("Decided", Accepted, Design)


class StandIns:
    """Finds fonts for what others lack, the same ones for as long as a collection is open.

    Those that the collection keeps are asked first, so that a shelf stays in the fonts it was
    begun in, on another machine too; then those of installed packages, then the machine's.
    """

    def __init__(self, folder: Path, games: Iterable[Game] = ()) -> None:
        """Look in ``folder`` for the fonts that the accepted designs of ``games`` name."""
        self.folder = folder
        self._games = games
        self._opened: dict[FontRef, hb.Set] = {}
        self._found: dict[frozenset[str], tuple[FontRef, ...]] = {}

    def of(self, font: FontRef, *texts: str) -> tuple[FontRef, ...]:
        """Return the fonts for what ``font`` and the one that ships lack of some texts.

        As a design carries them: a mere name for one that is kept, else where it lies on the
        machine. For each text, the best that has all it lacks, if one has; else as few as do.
        Characters that no font has are passed over.
        """
        chosen: tuple[FontRef, ...] = ()
        for text in texts:
            rest = frozenset(self._left(text, font, chosen))
            if rest not in self._found:
                self._found[rest] = tuple(self._best(rest))
            chosen += self._found[rest]
        return chosen

    def used(self, stand_ins: Iterable[FontRef], font: FontRef, text: str) -> tuple[FontRef, ...]:
        """Return those of ``stand_ins``, to be asked in turn, that ``text`` in ``font`` needs."""
        chosen: list[FontRef] = []
        rest = self._left(text, font, ())
        for one in stand_ins:
            had = {char for char in rest if self._has(one, char)}
            if had:
                chosen.append(one)
                rest -= had
        return tuple(chosen)

    def _left(self, text: str, font: FontRef, chosen: Iterable[FontRef]) -> set[str]:
        rest = lacking(text, open_face(font))
        if rest:
            rest -= open_face(default_font()).characters
        return {char for char in rest if not any(self._has(one, char) for one in chosen)}

    def _best(self, characters: frozenset[str]) -> Iterator[FontRef]:
        if not characters:
            return
        for one in self._fonts:
            if all(self._has(one, char) for char in characters):
                yield one
                return
        rest = set(characters)
        while rest:
            best = max(self._fonts, key=lambda one: self._count(one, rest), default=None)
            had = {char for char in rest if best and self._has(best, char)}
            if best is None or not had:
                return
            yield best
            rest -= had

    @cached_property
    def _fonts(self) -> tuple[FontRef, ...]:
        """The fonts to choose from, best first: of those kept, what most titles need."""
        games, self._games = self._games, ()  # looked through once: nothing holds them longer
        named = Counter(one for game in games for one in _stand_ins(game.accepted))
        ours = [one for one in named if one.is_kept and _opens(one, self.folder)]
        ours.sort(key=lambda one: (-named[one], one.path, one.face, one.axes))
        return (*ours, *map(machine.weighted, machine.fonts_to_hand()))

    def _count(self, font: FontRef, characters: Iterable[str]) -> int:
        return sum(self._has(font, char) for char in characters)

    def _has(self, font: FontRef, char: str) -> bool:
        if font not in self._opened:
            self._opened[font] = _characters(kept(font, self.folder))
        return ord(char) in self._opened[font]


@lru_cache(maxsize=1024)
def _characters(font: FontRef) -> hb.Set:
    return open_raw(font.path, font.face).unicodes


def _opens(font: FontRef, folder: Path) -> bool:
    try:
        return bool(_characters(kept(font, folder)))
    except FontError:
        return False


def fallbacks(font: FontRef, stand_ins: Iterable[FontRef]) -> tuple[FontRef, ...]:
    """Return the fonts to ask for what ``font`` lacks: the one that ships, then ``stand_ins``.

    All as they are opened; see ``kept``.
    """
    ships = default_font()
    return tuple(one for one in (ships, *stand_ins) if one != font)


def machine_fonts(decided: Accepted | Design) -> tuple[FontRef, ...]:
    """Return the fonts of the machine that stand in on a design, or what is accepted of one."""
    return tuple(one for one in dict.fromkeys(_stand_ins(decided)) if not one.is_kept)


def keep_fonts(decided: Decided, keep: Callable[[FontRef], FontRef]) -> Decided:
    """Return a design, or what is accepted of one, that names no font of the machine.

    ``keep`` copies one into the collection and returns it as it is named there; it is asked
    once for each. What names none already is returned as it is.
    """
    names = {one: keep(one) for one in machine_fonts(decided)}
    if not names:
        return decided

    def renamed(stand_ins: tuple[FontRef, ...]) -> tuple[FontRef, ...]:
        return tuple(names.get(one, one) for one in stand_ins)

    replace = msgspec.structs.replace
    if decided.art is not None:
        art = replace(decided.art, stand_ins=renamed(decided.art.stand_ins))
        decided = replace(decided, art=art)
    if decided.title is not None:
        titles = tuple(replace(one, stand_ins=renamed(one.stand_ins)) for one in decided.title)
        decided = replace(decided, title=titles)
    return decided


def _stand_ins(decided: Accepted | Design) -> Iterator[FontRef]:
    if decided.art is not None:
        yield from decided.art.stand_ins
    for title in decided.title or ():
        yield from title.stand_ins
