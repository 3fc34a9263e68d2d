"""What is set for the whole collection."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

import msgspec

from engine import lettering
from engine.cases import CaseKind
from engine.colours import colouring
from engine.model import FontRef, columns
from engine.model.errors import InputError
from engine.model.languages import LANGUAGES
from engine.model.naming import Of, There
from engine.model.setting import Settable
from engine.model.settings import SETTINGS, Settings
from engine.service import setting_up
from engine.service.session import Session


class FontChoice(NamedTuple):
    """A font file, and which font of it."""

    path: Path
    face: int = 0


class SettingLine(NamedTuple):
    """A setting and what is set, in words."""

    setting: Settable
    words: str


class Setup:
    """Settings."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def settings(self) -> Settings:
        """Return what was set for the whole collection."""
        return self._session.snapshot.settings

    def lines(self) -> tuple[SettingLine, ...]:
        """Return all settings, each with what is set in words."""
        settings, there = self.settings(), self.there()
        return tuple(
            SettingLine(one, one.takes.words(one.value(settings), there))
            for one in SETTINGS.values()
        )

    def there(self, kind: str = "", kinds: Mapping[str, CaseKind] | None = None) -> There:
        """Return the names of what settings can name; panels of one case kind, or of any.

        ``kinds`` are those there will be, by default those there are.
        """
        with self._session.lock:
            games = self._session.snapshot.games.values()
            kinds = self._session.kinds if kinds is None else kinds
            font = self.settings().lettering.font
            listed = columns.columns(games)
            return {
                Of.KIND: {one.id: one.name for one in kinds.values()},
                Of.STOCK: {stock.id: stock.name for stock in self.settings().papers},
                Of.PANEL: _panels(kinds[kind]) if kind else _all_panels(kinds),
                Of.COLUMN: {column: column for column in listed},
                Of.MARK: {column: column for column in (*listed, columns.HOME)},
                Of.GROUPS: {column: column for column in colouring.columns_of(games)},
                Of.LANGUAGE: {key: one.name for key, one in LANGUAGES.items()},
                Of.FONT: {font.path: self.font_name()} if font else {},
            }

    def font_name(self) -> str:
        """Return what the font that titles are proposed in calls itself."""
        with self._session.lock:
            known = lettering.facts(self._session.snapshot.proposer.titler.fonts.font)
            return " ".join(filter(None, (known.family, known.style)))

    def change(self, **fields: object) -> Settings:
        """Change settings by their names in ``SETTINGS``, all of them or none.

        ``stock`` goes by its id, ``font`` as a FontChoice, of which a copy comes into the
        collection; None goes back to what is usual. See ``setting_up.changed`` for what is set
        by case kind. Titles that were accepted stay as they are. Raises InputError that names
        the field, CaseError, FontError or CollectionError.
        """
        with self._session.change():
            before, font = self.settings(), fields.get("font")
            new = self.checked(fields, self._session.kinds)
            if isinstance(font, FontChoice):
                new = self._with_copy(new, font.path)
            if new != before:
                self._session.keep(f"changed {setting_up.named(before, new, fields)}", settings=new)
            return new

    def checked(self, fields: Mapping[str, object], kinds: Mapping[str, CaseKind]) -> Settings:
        """Return the settings as ``change`` would leave them with these kinds; keep nothing."""
        unknown = fields.keys() - SETTINGS.keys()
        if unknown:
            raise InputError(min(unknown), "no such setting", f"Settings are {', '.join(SETTINGS)}")
        font = fields.get("font")
        if isinstance(font, FontChoice):
            fields = {**fields, "font": _usable(font)}
        return setting_up.changed(self.settings(), fields, self.there(kinds=kinds), kinds)

    def _with_copy(self, settings: Settings, file: Path) -> Settings:
        """Return the settings with a font that lies in the collection, copied in."""
        font = settings.lettering.font
        if font is None:
            return settings
        copied = msgspec.structs.replace(font, path=self._session.files.font(file))
        new = msgspec.structs.replace(settings.lettering, font=copied)
        return msgspec.structs.replace(settings, lettering=new)


def _usable(font: FontChoice) -> FontRef:
    """Return a font file as designs carry it. Raises FontError where it cannot be used."""
    weighted = lettering.weighted(lettering.facts(lettering.choose_font(*font)))
    return FontRef(str(font.path), font.face, weighted.axes)


def _panels(kind: CaseKind) -> dict[str, str]:
    """Return the panels of a case kind, each with what it shows."""
    return {panel.name: panel.role.value for panel in kind.panels}


def _all_panels(kinds: Mapping[str, CaseKind]) -> dict[str, str]:
    """Return the panels of all case kinds, each with the kind that has it, or how many have."""
    having: dict[str, list[str]] = {}
    for kind in kinds.values():
        for panel in kind.panels:
            having.setdefault(panel.name, []).append(kind.name)
    return {
        panel: names[0] if len(names) == 1 else f"{len(names)} kinds"
        for panel, names in having.items()
    }
