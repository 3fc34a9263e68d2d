"""Colours and ink of the whole collection, each asked for in a small dialog."""

from __future__ import annotations

from collections.abc import Sequence

from engine import ColoursReport, GroupReport, InkMode
from tui import aswords
from tui.screens.choosers import Colour, Pick
from tui.screens.settings import SettingsScreen
from tui.widgets.table import Column, Row

PICTURES = "each from its picture"

UNPIN = ""
"""The row that leaves a group's colour to be chosen."""


class ColourSettings(SettingsScreen):
    """A screen on which the colours of groups are set."""

    def action_colour_by(self) -> None:
        """Choose the column whose groups have one colour each."""

        def ask(report: ColoursReport) -> None:
            picture, *columns = report.columns
            choices = {picture: PICTURES, **{column: f"by {column}" for column in columns}}
            self._pick(
                "Colours of inserts", choices, report.by, lambda column: self._set(colour_by=column)
            )

        self.fetch(lambda workshop: workshop.colours.report(), ask, group="colours")

    def action_group_colours(self) -> None:
        """Look at the colours of the groups, and pin one."""
        self.fetch(lambda workshop: workshop.colours.report(), self._show_groups, group="colours")

    def _show_groups(self, report: ColoursReport) -> None:
        if not report.groups:
            self.notify("\n".join(aswords.colours(report)), title="No groups", markup=False)
            return
        groups = {group.name: group for group in report.groups}
        self._ask(GroupColours(report), lambda name: self._ask_group(groups[name]))

    def _ask_group(self, group: GroupReport) -> None:
        def pin(base: str) -> None:
            self.work.change(
                lambda workshop: workshop.colours.pin({group.name: base or None}),
                self._show_groups,
            )

        self._ask(GroupColour(group), pin)

    def action_usual_ink(self) -> None:
        """Choose how much ink inserts are printed with."""
        if self.state is not None:
            words = {mode.value: aswords.INK_WORDS[mode] for mode in InkMode}
            present = self.state.settings.ink
            self._pick("Ink", words, present, lambda mode: self._set(ink=mode))


class GroupColours(Pick):
    """Every group with its colour, and how well they are told apart."""

    def __init__(self, report: ColoursReport) -> None:
        rows = [
            Row(
                group.name,
                (group.colours.base, group.name, sign_of(group), origin_of(group)),
                patch=group.colours.base,
            )
            for group in report.groups
        ]
        said = "\n".join((*aswords.apart(report), *aswords.reprints(report)))
        columns = (Column("colour", 8), Column(report.by), Column("sign", 11), Column("", 21))
        super().__init__(
            f"Colours by {report.by}", columns, rows, about={row.id: said for row in rows}
        )


class GroupColour(Colour):
    """The colour of one group: typed, or left to be chosen."""

    def __init__(self, group: GroupReport) -> None:
        base = group.colours.base
        swatches: Sequence[tuple[str, str]] = ((base, "as it is"), (UNPIN, "leave it to be chosen"))
        super().__init__(f"Colour of {group.name}", base, swatches)

    def result(self) -> str | None:
        """Return the colour in the line; empty leaves it to be chosen."""
        return super().result() or UNPIN


def sign_of(group: GroupReport) -> str:
    """Return the second sign of a group, nothing for none."""
    sign = group.colours.sign.value
    return "" if sign == "none" else sign


def origin_of(group: GroupReport) -> str:
    """Return where a group's colour comes from, and how many are printed in it."""
    printed = f", {group.printed} printed" if group.printed else ""
    return f"{aswords.ORIGINS[group.origin]}{printed}"
