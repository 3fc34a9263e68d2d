"""The lettering of the whole collection: what is set, each asked for in a small dialog."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from engine import Legibility, Lettering, Workshop
from tui.asking import number
from tui.screens.choosers import Search
from tui.screens.dialogs import Report
from tui.screens.forms import Field, Form, Outcome, Typed
from tui.screens.settings import SettingsScreen
from tui.screens.setupwords import Setting
from tui.titles import NONE, legibility_words
from tui.widgets.table import Column, Row

SHIPS = "the font that ships"
OWN_SIGN = "="
"""A mark that begins so is a sign of the person's own."""
MODES = {
    "free": "each title as large as it can be",
    "even": "one size for all titles of a case kind, but for the few that do not fit it",
}

Changes = dict[str, Any]


def lettering_of(lettering: Lettering, kinds: Mapping[str, str]) -> tuple[Setting, ...]:
    """Return how titles are set, in the order of the keys; ``kinds`` has names by id."""
    upright = [kinds.get(kind, kind) or "every kind" for kind in lettering.upright]
    marks = [
        f"{what} by {column}"
        for what, column in (("mark", lettering.mark), ("stripe", lettering.stripe))
        if column
    ]
    return (
        Setting("font", "your own" if lettering.font else SHIPS),
        Setting("lettering", lettering.mode),
        Setting(
            "type_sizes",
            f"read from {lettering.distance / 10:g} cm, "
            f"{lettering.smallest:g} to {lettering.largest:g} pt",
        ),
        Setting("edge_marks", ", ".join(marks) or NONE),
        Setting("upright", ", ".join(upright) or "no case kind"),
    )


class LetteringScreen(SettingsScreen):
    """A screen on which lettering is changed."""

    def _set_lettering(self, **changes: Any) -> None:
        self.work.change(lambda workshop: workshop.setup.set_lettering(**changes))

    def action_lettering(self) -> None:
        """Choose between one size and the largest."""
        if self.state is not None:
            self._pick(
                "Lettering",
                {mode: f"{mode}: {words}" for mode, words in MODES.items()},
                self.state.settings.lettering.mode,
                lambda mode: self._set_lettering(mode=mode),
            )

    def action_font(self) -> None:
        """Choose the font by a few letters of its name, or by its file."""

        def find(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            def rows(workshop: Workshop) -> list[Row]:
                found = workshop.titles.fonts(words)
                usual = [] if words.strip() else [Row("", (SHIPS, ""))]
                return [
                    *usual,
                    *(Row(f"{face}:{path}", (name, path)) for path, face, name in found[:200]),
                ]

            self.fetch(rows, then, group="fonts")

        def take(row: str) -> None:
            face, _, path = row.partition(":")
            if path:
                self._set_lettering(font=Path(path), face=int(face))
            else:
                self._set_lettering(usual_font=True)

        self._ask(Search("Font of titles", (Column("font", 30), Column("file")), find), take)

    def action_type_sizes(self) -> None:
        """Type the distance, the sizes and the short forms."""
        if self.state is not None:
            present = self.state.settings.lettering
            form = Form[Changes](
                "Type",
                type_fields(present),
                lambda typed: read_type(typed, present),
                words="Arm's length is 50 cm. Type narrower than 85 is harder to read.",
            )
            self._ask(form, lambda changes: self._set_lettering(**changes))

    def action_edge_marks(self) -> None:
        """Type which columns give a mark and a stripe, and where they stand."""
        state = self.state
        if state is None:
            return

        def ask(columns: Sequence[str]) -> None:
            form = Form[Changes](
                "Marks",
                mark_fields(state.settings.lettering),
                lambda typed: read_marks(typed, columns),
                words=f"Columns: {', '.join(columns)}. Leave blank for none.",
            )
            self._ask(form, lambda changes: self._set_lettering(**changes))

        self.fetch(lambda workshop: workshop.titles.columns(), ask, group="columns")

    def toggle_upright(self, kind: str) -> None:
        """Set ideographs upright on a case kind, or turned again."""
        if self.state is not None:
            upright = set(self.state.settings.lettering.upright) ^ {kind}
            self._set_lettering(upright=sorted(upright))

    def action_far_titles(self) -> None:
        """List the titles that fall short."""

        def show(report: Legibility) -> None:
            self.app.push_screen(Report("Far titles", legibility_words(report)))

        self.fetch(lambda workshop: workshop.titles.report(), show, group="titles")


# --- forms ------------------------------------------------------------------------------


def type_fields(lettering: Lettering) -> tuple[Field, ...]:
    """Return the lines for distance, sizes and short forms."""
    short = ", ".join(f"{words}={form}" for words, form in lettering.dictionary.items())
    return (
        Field("distance", "Read from, cm", f"{lettering.distance / 10:g}"),
        Field("smallest", "Smallest type, pt", f"{lettering.smallest:g}"),
        Field("largest", "Largest type, pt", f"{lettering.largest:g}"),
        Field("lines", "Lines at most, 1 or 2", f"{lettering.lines}"),
        Field("narrowest", "Narrowest, 70 to 100 %", f"{lettering.narrowest * 100:g}"),
        Field("short", "Short forms", short, "Adventure=Adv., Lantern=Ln.", wide=True),
    )


def read_type(typed: Typed, present: Lettering) -> Outcome[Changes]:
    """Return what distance, sizes and short forms come to."""
    figures = {name: number(typed[name]) for name in ("distance", "smallest", "largest")}
    narrowest = number(typed["narrowest"])
    if typed["lines"] not in {"1", "2"}:
        return Outcome(None, "Lines: give 1 or 2.")
    for name, figure in figures.items():
        if figure is None:
            return Outcome(None, f"{name.capitalize()}: give a figure.")
    if narrowest is None:
        return Outcome(None, "Narrowest: give a figure.")
    forms = dict.fromkeys(present.dictionary, "")
    for said in filter(None, (part.strip() for part in typed["short"].split(","))):
        words, found, form = said.partition("=")
        if not found or not words.strip() or not form.strip():
            return Outcome(None, f"{said}: write the words and the form, as Adventure=Adv.")
        forms[words.strip()] = form.strip()
    distance = (figures["distance"] or 0) * 10
    changes = {**figures, "distance": distance, "dictionary": forms}
    return Outcome({**changes, "lines": int(typed["lines"]), "narrowest": narrowest / 100})


def mark_fields(lettering: Lettering) -> tuple[Field, ...]:
    """Return the lines for marks and stripes."""
    across = "across" if lettering.mark_across else "along"
    return (
        Field("mark", "Mark from column, or =sign", lettering.mark, wide=True),
        Field("mark_room", "Room for it, mm", f"{lettering.mark_room:g}"),
        Field("mark_end", "At the head or foot", lettering.mark_end.value),
        Field("way", "Set along or across", across),
        Field("stripe", "Stripe by column", lettering.stripe, wide=True),
        Field("stripe_room", "Its width, mm", f"{lettering.stripe_room:g}"),
    )


def read_marks(typed: Typed, columns: Sequence[str]) -> Outcome[Changes]:
    """Return what marks and stripes come to."""
    known = {column.casefold() for column in columns}
    for name in ("mark", "stripe"):
        own = name == "mark" and typed[name].startswith(OWN_SIGN)
        if typed[name] and not own and typed[name].casefold() not in known:
            return Outcome(None, f"{typed[name]}: no such column.")
    if typed["mark_end"] not in {"head", "foot"}:
        return Outcome(None, "The mark stands at the head or at the foot.")
    if typed["way"] not in {"along", "across"}:
        return Outcome(None, "The mark is set along or across.")
    rooms = {name: number(typed[name]) for name in ("mark_room", "stripe_room")}
    if None in rooms.values():
        return Outcome(None, "Give the room in mm.")
    return Outcome(
        {
            "mark": typed["mark"],
            "mark_end": typed["mark_end"],
            "mark_across": typed["way"] == "across",
            "stripe": typed["stripe"],
            **rooms,
        }
    )
