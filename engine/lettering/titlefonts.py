"""The fonts of a collection's titles: what the setup chose, what accepted titles name."""

from __future__ import annotations

from functools import cached_property
from pathlib import Path
from typing import NamedTuple

from engine.lettering.fonts import choose_font, default_font, kept
from engine.lettering.standins import StandIns, fallbacks
from engine.model import EdgeTitle, FontRef
from engine.model.errors import FontError
from engine.model.settings import Lettering


class TitleFont(NamedTuple):
    """What an accepted title is set in."""

    font: FontRef
    fallbacks: tuple[FontRef, ...]
    """To be asked in turn for what the font lacks."""
    notes: tuple[str, ...]
    """Fonts that are gone or cannot be used, a phrase each."""


class TitleFonts:
    """Opens fonts as designs name them; what is not in the collection's folder is told."""

    def __init__(self, chosen: Lettering, stand_ins: StandIns) -> None:
        """Propose titles in the font that was ``chosen``, in the person's own short forms too."""
        self.stand_ins = stand_ins
        self._setup = chosen.font
        self._forms = "".join(chosen.dictionary.values())
        self._faults: dict[FontRef, FontError | None] = {}

    @cached_property
    def _chosen(self) -> tuple[FontRef | None, str]:
        if self._setup is None:
            return None, ""
        try:
            self._seen(self._setup)
        except FontError as error:
            return None, f"{error} Titles are proposed in the font that ships."
        return self._setup, ""

    @property
    def chosen(self) -> FontRef | None:
        """The font of what is proposed, as designs name it; None is the one that ships."""
        return self._chosen[0]

    @property
    def note(self) -> str:
        """What is wrong with the font of the setup, a sentence; empty for nothing."""
        return self._chosen[1]

    @cached_property
    def font(self) -> FontRef:
        """The font of what is proposed, as it is opened."""
        return self.opened(self.chosen)

    def opened(self, named: FontRef | None) -> FontRef:
        """Return a font of a design as it is opened; None is the one that ships."""
        return default_font() if named is None else kept(named, self.stand_ins.folder)

    def fallbacks(self, text: str) -> tuple[FontRef, ...]:
        """Return the fonts to ask for what the font of proposals lacks, as they are opened."""
        return fallbacks(self.font, map(self.opened, self._in_place(text)))

    def named(self, text: str, said: str, mark: str) -> tuple[FontRef, ...]:
        """Return the fonts that stand in on an edge, as a design names them.

        Of ``text`` the edge says so much, and beside it a ``mark``.
        """
        found = self._in_place(text, mark)
        return self.stand_ins.used(found, self.font, said + mark) if found else ()

    def _in_place(self, text: str, mark: str = "") -> tuple[FontRef, ...]:
        """Return what stands in whatever short forms a text comes to."""
        return self.stand_ins.of(self.font, text, self._forms, mark)

    def large(self, words: str) -> tuple[FontRef, ...]:
        """Return the fonts that stand in where words are set large as art, as a design names them.

        That is done in the font that ships.
        """
        return self.stand_ins.of(default_font(), words)

    def of(self, title: EdgeTitle) -> TitleFont:
        """Return what an accepted title is set in; the font that ships where its own is gone."""
        notes: list[str] = []

        def found(named: FontRef) -> FontRef | None:
            try:
                return self._seen(named)
            except FontError as error:
                notes.append(str(error).rstrip("."))
                return None

        font = (found(title.font) if title.font else None) or default_font()
        stand_ins = filter(None, [found(one) for one in title.stand_ins])
        return TitleFont(font, fallbacks(font, stand_ins), tuple(notes))

    def _seen(self, named: FontRef) -> FontRef:
        """Return a font that is seen to be there and permitted. Raises FontError."""
        font = self.opened(named)
        if named not in self._faults:
            try:
                choose_font(Path(font.path), font.face, font.axes)
                self._faults[named] = None
            except FontError as error:
                self._faults[named] = error
        if fault := self._faults[named]:
            raise fault
        return font
