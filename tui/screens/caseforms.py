"""Dialogs about one case: a person's own as they measure it, and what a trial cut shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from engine import QUESTIONS, CaseShape, KindDraft, Measured, TrialSide, figure
from tui.screens.forms import Form, FormLine, Outcome, Typed
from tui.screens.setupwords import sizes_words
from tui.widgets.proof import Proof
from tui.words import usual_figures

Misfits = tuple[tuple[str, str, float], ...]
"""Panels, ``width`` or ``height``, and by how many mm that was too long."""


def misfit_fields(sides: Sequence[TrialSide]) -> tuple[FormLine, ...]:
    """Return a line for each side that can be read off a trial cut."""
    return tuple(
        FormLine(
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
        by = figure(said) if said else 0.0
        if by is None:
            return Outcome(None, f"{said}: is no figure in mm.")
        if by:
            found.append((side.panel, side.dimension, by))
            words.append(f"{side.panel} {side.dimension} becomes {side.length - by:.1f} mm")
    return Outcome(tuple(found) or None, "; ".join(words) or "Leave blank what fits.")


class CaseForm(Form[Measured]):
    """A person's own case: what was measured, and how it looks flat and folded."""

    def __init__(
        self,
        shape: CaseShape,
        look: Callable[[Measured, Callable[[KindDraft | str], None]], None],
        keep: Callable[[Measured, Callable[[], None]], None],
    ) -> None:
        """Ask for a shape's measures.

        ``look`` hands on a draft of what is typed, or what is wrong with it; ``keep`` keeps
        the case and tells when that is done.
        """
        self._questions = QUESTIONS[shape]
        fields = [
            FormLine("name", "What you call it", wide=True),
            *(FormLine(q.key, q.ask, hint=usual_figures(q)) for q in self._questions),
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


def read_case(shape: CaseShape, typed: Typed) -> Outcome[Measured]:
    """Return what was measured so far, complete or not, and what is odd about it."""
    figures: dict[str, float] = {}
    for question in QUESTIONS[shape]:
        said = typed[question.key]
        value = figure(said) if said else 0.0
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
