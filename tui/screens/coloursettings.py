"""The colours of groups: looked at, and given by the person."""

from __future__ import annotations

from typing import Any

from engine import ColoursReport, GroupReport
from tui.screens.base import WorkScreen
from tui.screens.choosers import Colour, Pick
from tui.widgets.table import Column, Row
from tui.words import ORIGINS, apart_lines, group_lines, reprint_lines

UNPIN = ""
"""The row that leaves a group's colour to be chosen."""


def ask_for_groups(screen: WorkScreen[Any]) -> None:
    """Show the colours of the groups over a screen, to give one of them another."""

    def show(report: ColoursReport) -> None:
        groups = {group.name: group for group in report.groups}
        if groups:
            screen.app.push_screen(
                GroupColoursDialog(report), lambda name: ask(groups[name]) if name else None
            )
        else:
            screen.notify("\n".join(group_lines(report)), title="No groups", markup=False)

    def ask(group: GroupReport) -> None:
        def pin(base: str | None) -> None:
            if base is not None:
                pins = {group.name: base or None}
                screen.work.change(lambda workshop: workshop.colours.pin(pins), show)

        screen.app.push_screen(GroupColourDialog(group), pin)

    screen.fetch(lambda workshop: workshop.colours.report(), show, group="colours")


class GroupColoursDialog(Pick):
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
        said = "\n".join((*apart_lines(report), *reprint_lines(report)))
        columns = (Column("colour", 8), Column(report.by), Column("sign", 11), Column("", 21))
        super().__init__(
            f"Colours by {report.by}", columns, rows, about={row.id: said for row in rows}
        )


class GroupColourDialog(Colour):
    """The colour of one group: typed, or left to be chosen."""

    def __init__(self, group: GroupReport) -> None:
        base = group.colours.base
        swatches = ((base, "as it is"), (UNPIN, "leave it to be chosen"))
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
    return f"{ORIGINS[group.origin]}{printed}"
