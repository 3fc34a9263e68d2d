"""Supplies: what is still needed, with what is in the house and how things are sold."""

from __future__ import annotations

from typing import NamedTuple

from textual.app import App

from engine import Cancel, House, Need, Pack, Sort, SuppliesReport, Workshop, figure
from tui.roomwords import (
    ink_sample_lines,
    need_cells,
    pace_lines,
    paper_line,
    supplies_cautions,
    supplies_notes,
)
from tui.screens.choosers import Pick
from tui.screens.dialogs import Report
from tui.screens.forms import Form, FormLine, Outcome, Typed
from tui.widgets.table import Column, Row
from tui.work import Work

SUPPLIES = "supplies"
"""The group of the work that counts what is needed."""

WHOLE = "whole"
"""The row that stands for all."""

COLUMNS = (
    Column("to finish"),
    Column("needed", 7),
    Column("in house", 9),
    Column("missing", 8),
    Column("packs", 6),
    Column("price", 8),
)

HOLDS = {
    Sort.CASE: "Cases in a pack",
    Sort.PAPER: "Sheets in a pack",
    Sort.INK: "Page yield of a cartridge",
    Sort.ADHESIVE: "A pack covers, cm²",
}
HAVE = {
    Sort.CASE: "Cases in the house",
    Sort.PAPER: "Sheets in the house",
    Sort.INK: "Cartridges in the house",
    Sort.ADHESIVE: "Enough in the house for, cm²",
}


class Seen(NamedTuple):
    """What is needed, and what is in the house."""

    report: SuppliesReport
    house: House


class Noted(NamedTuple):
    """What was typed of a supply."""

    have: float
    pack: Pack | None
    currency: str


class Supplies:
    """Shows what is needed, and notes what is in the house."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work

    def open(self, at: str | None = None) -> None:
        """Show what is needed; planning and measuring it can be stopped."""
        self._work.long_fetch(
            self._app, _read, lambda seen: self._show(seen, at), group=SUPPLIES, words="Counting"
        )

    def _show(self, seen: Seen, at: str | None) -> None:
        report, money = seen.report, seen.house.currency
        needs = {need.item: need for need in report.needs}
        rows = [Row(item, need_cells(need)) for item, need in needs.items()]
        cost = "" if report.cost is None else f"{report.cost:.2f} {money}"
        rows.append(Row(WHOLE, ("in all…", "", "", "", "", cost)))
        about = {item: _about(report, need) for item, need in needs.items()}
        about[WHOLE] = f"{pace_lines(report.pace)[-1]} Enter tells all, with models and cautions."

        def chosen(row: str | None) -> None:
            if row == WHOLE:
                lines = [line for line in supplies_notes(report) if line]
                self._app.push_screen(Report("Supplies", lines), lambda _: self._show(seen, WHOLE))
            elif row is not None:
                self._ask(needs[row], seen)

        self._app.push_screen(Pick("Supplies", COLUMNS, rows, at=at, about=about), chosen)

    def _ask(self, need: Need, seen: Seen) -> None:
        item, house = need.item, seen.house
        pack = house.packs.get(item)
        price = f"{pack.price:g}" if pack and pack.price is not None else ""
        fields = [
            FormLine("have", HAVE[need.sort], f"{house.have.get(item, 0):g}"),
            FormLine("holds", HOLDS[need.sort], f"{pack.holds:g}" if pack else ""),
            FormLine("price", "Price of a pack", price),
            FormLine("sign", "Money, of all prices", house.currency),
        ]

        def typed(noted: Noted | None) -> None:
            if noted is None:
                self._show(seen, item)
                return
            packs = {item: noted.pack} if noted.pack else {}
            self._work.change(
                lambda workshop: workshop.supplies.keep({item: noted.have}, packs, noted.currency),
                lambda _: self.open(item),
                failed=lambda: self.open(item),
            )

        self._app.push_screen(Form[Noted](need.name, fields, read_noted), typed)


def _read(workshop: Workshop, cancel: Cancel) -> Seen:
    return Seen(workshop.supplies.report(cancel=cancel), workshop.setup.settings().house)


def _about(report: SuppliesReport, need: Need) -> str:
    match need.sort:
        case Sort.PAPER:
            return f"{need.name}\n{paper_line(report)}"
        case Sort.INK:
            return "\n".join(ink_sample_lines(report))
        case Sort.ADHESIVE:
            return " ".join(supplies_cautions(report))
        case _:
            return f"{need.name}\nEnter notes what is in the house, and how it is sold."


def read_noted(typed: Typed) -> Outcome[Noted]:
    """Return what was typed of a supply, or what is wrong with it."""
    found: dict[str, float] = {}
    for key in ("have", "holds", "price"):
        said = typed[key]
        value = figure(said) if said else None
        if said and (value is None or value < 0):
            return Outcome(None, f"{said} is no amount.")
        if value is not None:
            found[key] = value
    if "price" in found and not found.get("holds"):
        return Outcome(None, "Say what a pack of that price holds.")
    pack = Pack(found["holds"], found.get("price")) if found.get("holds") else None
    return Outcome(Noted(found.get("have", 0.0), pack, typed["sign"]))
