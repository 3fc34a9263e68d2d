"""What is set for the whole collection."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from pathlib import Path

import msgspec

from engine import lettering
from engine.colours.colouring import known_column
from engine.model import FontRef
from engine.model.settings import Lettering, Settings
from engine.service import setting_titles, setting_up
from engine.service.session import Session
from engine.service.setting_up import NOTHING


class Setup:
    """Settings."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def settings(self) -> Settings:
        """Return what was set for the whole collection."""
        return self._session.snapshot.settings

    def change(
        self,
        *,
        stock_id: str = "",
        margins: Sequence[float] | None = None,
        poses: Mapping[str, str | None] = NOTHING,
        left_out: Mapping[str, Collection[str]] = NOTHING,
        stocks: Mapping[str, str | None] = NOTHING,
        **fields: object,
    ) -> Settings:
        """Change settings by name; see ``setting_up.changed``. Raises InputError or CaseError."""
        with self._session.lock:
            if "colour_by" in fields:
                games = self._session.snapshot.games.values()
                fields["colour_by"] = known_column(games, str(fields["colour_by"]))
            before = self.settings()
            settings = setting_up.changed(
                before,
                self._session.kinds,
                stock_id=stock_id,
                margins=margins,
                poses=poses,
                left_out=left_out,
                stocks=stocks,
                **fields,
            )
            if settings != before:
                words = f"changed {setting_up.named(before, settings)}"
                self._session.keep(words, settings=settings)
            return settings

    def set_lettering(
        self, *, font: Path | None = None, face: int = 0, usual_font: bool = False, **fields: object
    ) -> Lettering:
        """Change how titles are set; see ``setting_titles.changed`` for the ``fields``.

        ``font`` is a font file, of which ``face`` is taken, and copied into the collection;
        ``usual_font`` goes back to the one that ships. What was accepted stays as it is.
        Raises FontError, InputError, CaseError or CollectionError.
        """
        with self._session.change():
            settings = self.settings()
            games = self._session.snapshot.games.values()
            new = setting_titles.changed(settings.lettering, self._session.kinds, games, fields)
            if font is not None:
                new = msgspec.structs.replace(new, font=self._font(font, face))
            elif usual_font:
                new = msgspec.structs.replace(new, font=None)
            if new != settings.lettering:
                changed = msgspec.structs.replace(settings, lettering=new)
                self._session.keep("changed the lettering", settings=changed)
            return new

    def _font(self, path: Path, face: int) -> FontRef:
        """Copy a font file into the collection; return it as designs carry it."""
        usable = lettering.choose_font(path, face)
        weighted = lettering.weighted(lettering.facts(usable))
        return FontRef(self._session.files.font(path), face, weighted.axes)
