"""Dialogs with lines to type in, and with panels to leave out."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import ClassVar, Generic, NamedTuple, TypeVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Label, Static

from tui.screens.dialogs import Dialog
from tui.widgets.table import Column, Row, Table

T = TypeVar("T")

Typed = Mapping[str, str]
"""What stands in the lines of a form, by their keys."""


class FormLine(NamedTuple):
    """A line of a form."""

    key: str
    label: str
    text: str = ""
    hint: str = ""
    """Shown while nothing is typed."""
    wide: bool = False
    """It takes words."""


class Outcome(NamedTuple, Generic[T]):
    """What the lines of a form come to."""

    value: T | None
    """None while something lacks or is wrong."""
    words: str = ""


class Form(Dialog[T], Generic[T]):
    """Lines to type in, and below them what they come to."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "step(-1)", show=False),
        Binding("down", "step(1)", show=False),
    ]

    def __init__(
        self,
        title: str,
        fields: Sequence[FormLine],
        read: Callable[[Typed], Outcome[T]],
        *,
        words: str = "",
        choice: str = "Set",
    ) -> None:
        """Show ``fields`` with ``words`` below; ``read`` tells what is typed comes to."""
        super().__init__(title, choice)
        self._fields = fields
        self._read = read
        self._words = words

    def body(self) -> ComposeResult:
        """Lay out the lines and what they come to."""
        with VerticalScroll(can_focus=False):
            for field in self._fields:
                with Horizontal(classes="field"):
                    yield Label(Content(field.label))
                    line = Input(field.text, placeholder=field.hint, id=self._line(field))
                    yield line.set_class(field.wide, "wide")
        if self._words:
            yield Static(Content(self._words), classes="note")
        yield Static(id="preview")

    def on_mount(self) -> None:
        """Show what the lines come to as they are."""
        self.show()

    def on_input_changed(self) -> None:
        """Show what the lines come to now."""
        self.show()

    def action_step(self, by: int) -> None:
        """Go to another line."""
        if by > 0:
            self.focus_next(Input)
        else:
            self.focus_previous(Input)

    @property
    def typed(self) -> dict[str, str]:
        """What stands in the lines."""
        return {
            field.key: self.query_one(f"#{self._line(field)}", Input).value.strip()
            for field in self._fields
        }

    def show(self) -> None:
        """Show what the lines come to."""
        self.query_one("#preview", Static).update(Content(self._read(self.typed).words))

    def action_choose(self) -> None:
        """Take what the lines come to, or say what is wrong with them."""
        outcome = self._read(self.typed)
        if outcome.value is None and outcome.words:
            self.notify(outcome.words, severity="error", markup=False)
        super().action_choose()

    def result(self) -> T | None:
        """Return what the lines come to."""
        return self._read(self.typed).value

    def _line(self, field: FormLine) -> str:
        return f"line-{self._fields.index(field)}"


class Panels(Dialog[tuple[str, ...]]):
    """Leave panels out, or take them back."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("space", "toggle", show=False)]

    def __init__(
        self,
        title: str,
        panels: Mapping[str, str],
        left_out: Sequence[str],
        *,
        whole: bool = True,
    ) -> None:
        """Show ``panels`` with a word on each; with ``whole``, one has to be kept."""
        super().__init__(title, "Set")
        self._panels = panels
        self._out = frozenset(left_out).intersection(panels)
        self._whole = whole

    def body(self) -> ComposeResult:
        """Lay out the panels."""
        yield Table((Column("panel", 18), Column("", 9), Column("of")), marks=False)
        yield Static(id="preview", classes="note")

    def on_mount(self) -> None:
        """Show the panels."""
        self.query_one(Table).styles.height = len(self._panels) + 1
        self._show()

    def action_toggle(self) -> None:
        """Leave the highlighted panel out, or take it back."""
        panel = self.query_one(Table).current
        if panel is not None:
            self._out ^= {panel}
            self._show()

    def result(self) -> tuple[str, ...] | None:
        """Return what is left out; None while that is all."""
        return tuple(sorted(self._out)) if self._enough else None

    @property
    def _enough(self) -> bool:
        return not self._whole or len(self._out) < len(self._panels)

    def _show(self) -> None:
        rows = [
            Row(
                name,
                (name, "left out" if name in self._out else "", words),
                faint=name in self._out,
            )
            for name, words in self._panels.items()
        ]
        self.query_one(Table).show(rows)
        says = (
            "Space leaves a panel out or takes it back." if self._enough else "Keep at least one."
        )
        self.query_one("#preview", Static).update(Content(says))
