"""The dialogs of the setup: figures in several lines, panels to leave out, a case of one's own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import ClassVar, Generic, NamedTuple, TypeVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Label, Static

from engine import QUESTIONS, KindDraft, Measured, Shape, TrialSide
from tui.asking import number, range_of
from tui.screens.dialogs import Dialog
from tui.screens.setupwords import MARGINS, sizes_words
from tui.widgets.proof import Proof
from tui.widgets.table import Column, Row, Table

T = TypeVar("T")

Typed = Mapping[str, str]
"""What stands in the lines of a form, by their keys."""

Misfits = tuple[tuple[str, str, float], ...]
"""Panels, ``width`` or ``height``, and by how many mm that was too long."""


class Field(NamedTuple):
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
        fields: Sequence[Field],
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

    def _line(self, field: Field) -> str:
        return f"line-{self._fields.index(field)}"


def read_margins(typed: Typed) -> Outcome[tuple[float, ...]]:
    """Return four margins in mm."""
    sides = [number(typed[side]) for side in MARGINS]
    for side, value in zip(MARGINS, sides, strict=True):
        if value is None or value < 0:
            return Outcome(None, f"{side.capitalize()}: give mm, 0 or more.")
    return Outcome(tuple(value for value in sides if value is not None))


def read_caliper(typed: Typed) -> Outcome[float]:
    """Return a thickness in mm."""
    value = number(typed["caliper"])
    if value is None or value <= 0:
        return Outcome(None, "Give mm, as 0.25.")
    return Outcome(value)


def read_kerf(typed: Typed) -> Outcome[float]:
    """Return what a blade takes away, in mm."""
    value = number(typed["kerf"])
    if value is None or value < 0:
        return Outcome(None, "Give mm, 0 or more.")
    return Outcome(value)


def read_count(typed: Typed) -> Outcome[int]:
    """Return a whole number from 1 on."""
    said = typed["count"]
    if not said.isdecimal() or int(said) < 1:
        return Outcome(None, "Give a whole number, 1 or more.")
    return Outcome(int(said))


def misfit_fields(sides: Sequence[TrialSide]) -> tuple[Field, ...]:
    """Return a line for each side that can be read off a trial cut."""
    return tuple(
        Field(
            f"{n}",
            f"{side.panel.capitalize()}, {side.dimension} {side.length:.1f} mm",
            hint="+0.5 or -0.5",
        )
        for n, side in enumerate(sides)
    )


def read_misfits(sides: Sequence[TrialSide], typed: Typed) -> Outcome[Misfits]:
    """Return what was too long or too short, and how long it is to be."""
    found, words = [], []
    for n, side in enumerate(sides):
        said = typed[f"{n}"]
        by = number(said) if said else 0.0
        if by is None:
            return Outcome(None, f"{said}: is no figure in mm.")
        if by:
            found.append((side.panel, side.dimension, by))
            words.append(f"{side.panel} {side.dimension} becomes {side.length - by:.1f} mm")
    return Outcome(tuple(found) or None, "; ".join(words) or "Leave blank what fits.")


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


class CaseForm(Form[Measured]):
    """A person's own case: what was measured, and how it looks flat and folded."""

    def __init__(
        self,
        shape: Shape,
        look: Callable[[Measured, Callable[[KindDraft | str], None]], None],
        keep: Callable[[Measured, Callable[[], None]], None],
    ) -> None:
        """Ask for a shape's measures.

        ``look`` hands on a draft of what is typed, or what is wrong with it; ``keep`` keeps
        the case and tells when that is done.
        """
        self._questions = QUESTIONS[shape]
        fields = [
            Field("name", "What you call it", wide=True),
            *(Field(q.key, q.ask, hint=range_of(q)) for q in self._questions),
        ]
        super().__init__(
            f"A case of your own: {shape}",
            fields,
            lambda typed: read_case(shape, typed),
            choice="Keep",
        )
        self._look = look
        self._keep = keep

    def body(self) -> ComposeResult:
        """Lay out the lines at the left, the pictures at the right."""
        with Horizontal(id="drafting"):
            with Vertical(id="typed"):
                yield from super().body()
            with Vertical(id="drafts"):
                yield Proof(id="flat")
                yield Proof(id="folded")
                yield Static(id="sizes", classes="note")

    def on_mount(self) -> None:
        """Say what will be shown."""
        self.query_one("#flat", Proof).show(None, "The flat net, once all is typed.")

    def show(self) -> None:
        """Show what is odd, and ask for the pictures."""
        super().show()
        measured = self.result()
        if measured is not None:
            self._look(measured, self._looked)

    def _looked(self, draft: KindDraft | str) -> None:
        if not self.in_sight:
            return
        flat, folded = self.query_one("#flat", Proof), self.query_one("#folded", Proof)
        sizes = self.query_one("#sizes", Static)
        if isinstance(draft, str):
            flat.show(None, draft)
            folded.show(None)
            sizes.update("")
            return
        flat.show(draft.net)
        folded.show(draft.view)
        sizes.update(Content("\n".join(sizes_words(draft.flat, draft.folded))))

    def action_choose(self) -> None:
        """Keep the case; while something lacks, go to that line."""
        measured = self.result()
        if measured is not None:
            self._keep(measured, lambda: self.dismiss(measured))
            return
        typed = self.typed
        needed = ["name", *(q.key for q in self._questions if not q.optional)]
        for field in self._fields:
            if field.key in needed and not typed[field.key]:
                self.query_one(f"#{self._line(field)}").focus()
                return


def read_case(shape: Shape, typed: Typed) -> Outcome[Measured]:
    """Return what was measured so far, complete or not, and what is odd about it."""
    figures: dict[str, float] = {}
    for question in QUESTIONS[shape]:
        said = typed[question.key]
        value = number(said) if said else 0.0
        if value is None or value < 0:
            return Outcome(None, f"{question.ask}: {said} is no length in mm.")
        if value:
            figures[question.key] = value
    measured = Measured(shape, typed["name"], figures)
    lacking = [q for q in QUESTIONS[shape] if not q.optional and q.key not in figures]
    doubts = measured.doubts
    if lacking:
        doubts = tuple(d for d in doubts if d.partition(":")[0] in figures)
    elif not any(sign.isalnum() for sign in measured.name):
        doubts = (*doubts, "Give it a name.")
        return Outcome(None, "\n".join(doubts))
    return Outcome(None if lacking else measured, "\n".join(doubts))
