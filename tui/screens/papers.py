"""The papers: choose one by what a sheet of it holds, describe one, or forget it."""

from __future__ import annotations

from functools import partial
from typing import Any

from textual.app import App

from engine import Margins, PaperChoice, figure
from tui.screens.choosers import Pick
from tui.screens.forms import Form, FormLine, Outcome, Typed
from tui.widgets.table import Column, Row
from tui.work import Ended, Then, Work, nothing

PAPERS = "papers"
"""The group of the work on papers."""

NEW = "+"
"""In the place of a paper's id: one of the person's own is described."""

FIGURES = {
    "width": "One side, mm",
    "height": "The other side, mm",
    "grammage": "Grammage, g/m²",
    "caliper": "Thickness, mm",
    "left": "Left margin, mm",
    "top": "Top margin, mm",
    "right": "Right margin, mm",
    "bottom": "Bottom margin, mm",
}
"""What is typed of a paper, by its key."""

MAY_LACK = frozenset(FIGURES) - {"width", "height"}
MARGINS = ("left", "top", "right", "bottom")


class PaperShelf:
    """Asks for the paper, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work

    def open(self, then: Then = nothing) -> None:
        """Show the papers; ``then`` hears whether one was chosen."""
        self._work.fetch(
            self._app,
            lambda workshop: workshop.starting.papers(),
            partial(self._show, then),
            group=PAPERS,
        )

    def _show(self, then: Then, papers: tuple[PaperChoice, ...]) -> None:
        rows = [Row(one.stock.id, (one.stock.name, size(one), f"{one.on_sheet}")) for one in papers]
        rows.append(Row(NEW, ("a paper of your own…", "", "")))
        columns = (Column("paper"), Column("mm", 13), Column("a sheet", 7))
        about = {one.stock.id: about_paper(one) for one in papers}
        about[NEW] = "Give its size; margins and the rest are those of the printer until you say."
        used = next((one.stock.id for one in papers if one.used), None)
        own = {one.stock.id: one for one in papers if one.own}

        def chosen(paper: str | None) -> None:
            if paper is None:
                then(Ended.LEFT)
            elif paper == NEW:
                self._describe(then)
            elif paper in own and not own[paper].used:
                self._ask_own(then, own[paper])
            else:
                self._use(then, paper)

        self._app.push_screen(Pick("Paper", columns, rows, at=used, about=about), chosen)

    def _use(self, then: Then, paper: str) -> None:
        self._work.change(
            lambda workshop: workshop.setup.change(stock=paper),
            lambda _: then(Ended.DONE),
            failed=partial(then, Ended.LEFT),
        )

    def _ask_own(self, then: Then, paper: PaperChoice) -> None:
        rows = [Row("use", ("Print on it",)), Row("forget", ("Take it off the list",))]

        def chosen(what: str | None) -> None:
            if what == "use":
                self._use(then, paper.stock.id)
            elif what == "forget":
                self._work.change(
                    lambda workshop: workshop.papers.forget(paper.stock.id),
                    lambda _: self.open(then),
                    failed=partial(self.open, then),
                )
            else:
                self.open(then)

        self._app.push_screen(Pick(paper.stock.name, (Column(""),), rows), chosen)

    def _describe(self, then: Then) -> None:
        fields = [
            FormLine("name", "What you call it", wide=True),
            *(FormLine(key, label) for key, label in FIGURES.items()),
        ]
        form = Form[dict[str, Any]]("A paper of your own", fields, read_paper, choice="Keep")

        def typed(paper: dict[str, Any] | None) -> None:
            if paper is None:
                self.open(then)
                return
            name = paper.pop("name")
            self._work.change(
                lambda workshop: workshop.papers.add(name, **paper),
                lambda _: self.open(then),
                failed=partial(self.open, then),
            )

        self._app.push_screen(form, typed)


def size(one: PaperChoice) -> str:
    """Return the sides of a paper."""
    return f"{one.stock.width:g} × {one.stock.height:g}"


def about_paper(one: PaperChoice) -> str:
    """Return what there is to say of a paper."""
    margins = one.stock.margins
    sides = " ".join(f"{getattr(margins, side):g}" for side in MARGINS)
    holds = f"A sheet holds {one.on_sheet} inserts." if one.on_sheet else "No insert fits on it."
    own = " It is your own." if one.own else ""
    return f"{holds} Margins {sides} mm (left, top, right, bottom).{own}"


def read_paper(typed: Typed) -> Outcome[dict[str, Any]]:
    """Return what was typed of a paper as ``papers.add`` takes it, or what is wrong."""
    figures: dict[str, float] = {}
    for key, label in FIGURES.items():
        said = typed[key]
        value = figure(said) if said else None
        if said and (value is None or value < 0):
            return Outcome(None, f"{label}: {said} is no figure.")
        if value is None and key not in MAY_LACK:
            return Outcome(None, f"{label}: give it.")
        if value is not None:
            figures[key] = value
    if not typed["name"]:
        return Outcome(None, "Give it a name.")
    given = [side for side in MARGINS if side in figures]
    if given and len(given) < len(MARGINS):
        return Outcome(None, "Give all four margins, or none.")
    paper: dict[str, Any] = {
        "name": typed["name"],
        "size": (figures["width"], figures["height"]),
        **{key: figures[key] for key in ("grammage", "caliper") if key in figures},
    }
    if given:
        paper["margins"] = Margins(*(figures[side] for side in MARGINS))
    return Outcome(paper)
