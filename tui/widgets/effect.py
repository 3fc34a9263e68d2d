"""What a setting does, shown: figures in words, and below them a map of a sheet or a picture."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Static

from engine import Effect, Shows
from tui.effectwords import effect_lines
from tui.widgets.proof import Proof
from tui.widgets.sheetmap import Drawn, SheetMap
from tui.widgets.shelf import DOTS

WORDS = 3
"""Lines that the words above a picture usually take."""

NO_GAMES = "No game is there to show it on."


class EffectView(Vertical):
    """What a setting does, as it is or as it would be."""

    DEFAULT_CSS = """
    EffectView {
        height: 1fr;
        & > Static { height: auto; max-height: 60%; }
        & > SheetMap { height: 1fr; min-height: 3; display: none; }
        & > Proof { height: 1fr; display: none; }
    }
    """

    of = ""
    """The setting whose effect is shown or on its way."""

    def compose(self) -> ComposeResult:
        """Lay out the words, the map and the picture."""
        yield Static()
        yield SheetMap()
        yield Proof()

    @property
    def dots(self) -> tuple[int, int]:
        """The pixels of a picture that fills the room below the words."""
        room = self.content_size
        return max(8, room.width) * DOTS[0], max(4, room.height - WORDS) * DOTS[1]

    def clear(self, of: str) -> None:
        """Show nothing until the effect of another setting is there."""
        if self.of != of:
            self.of = of
            self.show("")

    def show(self, shown: Effect | str) -> None:
        """Show an effect, or words where there is none."""
        effect = shown if isinstance(shown, Effect) else None
        words = shown if isinstance(shown, str) else "\n".join(effect_lines(shown))
        sheet = effect.sheet if effect else None
        drawn = effect is not None and effect.shows not in {Shows.SHEET, Shows.WORDS}
        self.query_children(Static).first(Static).update(Content(words))
        sheet_map, proof = self.query_one(SheetMap), self.query_one(Proof)
        sheet_map.display = bool(sheet and sheet.placements)
        sheet_map.drawn = Drawn(sheet, effect.titles) if effect and sheet else None
        proof.display = drawn
        if effect and drawn:
            proof.show(effect.picture or None, "" if effect.game else NO_GAMES)
