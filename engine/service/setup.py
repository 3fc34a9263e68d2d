"""What is set for the whole collection."""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Mapping, Sequence

from engine.colours.colouring import known_column
from engine.model.settings import Settings
from engine.service import setting_up
from engine.service.session import Bench
from engine.service.setting_up import NOTHING


class Setup(Bench):
    """Settings."""

    def settings(self) -> Settings:
        """Return what was set for the whole collection."""
        return self._snapshot.settings

    def set_up(
        self,
        *,
        stock_id: str = "",
        margins: Sequence[float] | None = None,
        poses: Mapping[str, str | None] = NOTHING,
        left_out: Mapping[str, AnyOf[str]] = NOTHING,
        stocks: Mapping[str, str | None] = NOTHING,
        **fields: object,
    ) -> Settings:
        """Change settings by name; see ``setting_up.changed``. Raises InputError or CaseError."""
        with self._lock:
            if "colour_by" in fields:
                games = self._snapshot.games.values()
                fields["colour_by"] = known_column(games, str(fields["colour_by"]))
            settings = setting_up.changed(
                self.settings(),
                self._kinds,
                stock_id=stock_id,
                margins=margins,
                poses=poses,
                left_out=left_out,
                stocks=stocks,
                **fields,
            )
            if settings != self.settings():
                words = f"changed {setting_up.named(self.settings(), settings)}"
                self._collection.record(words, settings=settings)
                self._renew()
            return settings
