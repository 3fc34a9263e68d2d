"""What is set for the whole collection, and its case kinds."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from engine import (
    setting_up,
)
from engine.cases import FlatNet
from engine.collection import Settings
from engine.outlet import write_out
from engine.press import netdrawing
from engine.reports import (
    KindLine,
)
from engine.workshop.bench import Bench


class Setup(Bench):
    """Settings and case kinds."""

    def settings(self) -> Settings:
        """Return what was set for the whole collection."""
        return self._moment.settings

    def set_up(
        self, *, stock_id: str = "", margins: Sequence[float] | None = None, **fields: object
    ) -> Settings:
        """Change settings by name; see ``setting_up.changed``. Raises InputError or CaseError."""
        with self._lock:
            settings = setting_up.changed(
                self.settings(), self._kinds, stock_id=stock_id, margins=margins, **fields
            )
            if settings != self.settings():
                self._collection.record("changed the setup", settings=settings)
                self._renew()
            return settings

    def kinds(self) -> tuple[KindLine, ...]:
        """Return the case kinds, with how many games of the collection are in each."""
        moment = self._moment
        used = [moment.casing.case_of(game) for game in moment.games.values()]
        return tuple(
            KindLine(id=kind.id, name=kind.name, games=used.count(kind.id), cautions=kind.cautions)
            for kind in self._kinds.values()
        )

    def net(self, said: str) -> FlatNet:
        """Return the flat net of a case kind on the stock in use. Raises CaseError."""
        return self._moment.casing.net(self.kind(said).id)

    def draw_net(self, kind: str, path: Path) -> None:
        """Draw a kind's net as .svg, .dxf, .pdf or .png. Raises CaseError or InputError."""
        write_out(path, netdrawing.net_file(self.net(kind), path.suffix))
