"""What a setting does, looked at in the background; and the dialogs that show it of a value."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.dom import DOMNode

from engine import Cancel, Effect, SpineryError, Workshop
from tui.screens.choosers import Pick, Search
from tui.screens.dialogs import Dialog
from tui.screens.forms import Form, Panels
from tui.widgets.effect import EffectView
from tui.widgets.table import Table
from tui.work import Tell, Work

EFFECT = "effect"
"""The group of the work on what a setting does."""

EFFECT_REST = 0.12
"""How long the keys rest, in seconds, before what is highlighted is looked at."""

Look = Callable[[Any], None]
"""Shows what an answer of a dialog would do."""


def show_effect(
    work: Work, by: DOMNode, view: EffectView, setting: str, what_if: Mapping[str, Any]
) -> None:
    """Show in ``view`` what a setting does, or would under ``what_if``; the latest wins.

    The keys do not wait for it. It is given up when ``by``, a screen or a dialog, is left.
    """
    work.told_fetch(
        by,
        partial(_effect, setting, what_if, view.dots),
        view.show,
        group=EFFECT,
        words="Trying",
        rest=EFFECT_REST,
    )


def _effect(
    setting: str,
    what_if: Mapping[str, Any],
    dots: tuple[int, int],
    workshop: Workshop,
    _: Tell,
    cancel: Cancel,
) -> Effect | str:
    """Return what a setting does, or why it cannot be so: a sentence."""
    try:
        return workshop.effects.effect(setting, what_if, pixels=dots, cancel=cancel)
    except SpineryError as error:
        return str(error)


class Trying(Dialog[Any]):
    """A dialog that shows what a value does before it is taken."""

    look: Look | None = None

    def body(self) -> ComposeResult:
        """Lay out what is asked, and beside it what the value does."""
        with Horizontal(id="trying"):
            with Vertical(id="asked"):
                yield from super().body()
            yield EffectView()

    @property
    def view(self) -> EffectView:
        """Where it is shown."""
        return self.query_one(EffectView)

    def try_(self, answer: Any) -> None:
        """Show what an answer does, once the room for it is known."""
        if self.look is not None:
            self.call_after_refresh(self.look, answer)


class Choosing(Trying):
    """A list in which the highlighted value is shown."""

    def on_table_highlighted(self, event: Table.Highlighted) -> None:
        """Show what the value does that the cursor came to."""
        if event.row is not None:
            self.try_(event.row)


class SettingPick(Choosing, Pick):
    """Choose a value of a list."""


class SettingSearch(Choosing, Search):
    """Choose a value of a list that follows what is typed."""


class SettingForm(Trying, Form[Any]):
    """Type figures or words, what they come to shown."""

    def show(self) -> None:
        """Show what the lines come to, and what that does."""
        super().show()
        outcome = self._read(self.typed)
        if outcome.value is not None:
            self.try_(outcome.value)
        else:
            self.workers.cancel_group(self, EFFECT)
            self.view.show("")


class SettingPanels(Trying, Panels):
    """Leave panels out, the insert without them shown."""

    def _show(self) -> None:
        super()._show()
        left_out = self.result()
        if left_out is not None:
            self.try_(left_out)
