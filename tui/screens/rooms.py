"""Shelves, drawers and boxes: described, filled, and taken off the list."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from textual.app import App

from engine import POSES, ContainerReport, RoomReport, Workshop, figure
from tui.roomwords import container_lines, moving_lines
from tui.screens.choosers import Pick
from tui.screens.dialogs import Confirm
from tui.screens.forms import Form, FormLine, Outcome, Typed
from tui.widgets.table import Column, Row
from tui.words import count
from tui.work import Work

ROOM = "room"
"""The group of the work on containers."""

NEW, KEEP, AFRESH, CASE = "+", "keep", "afresh", "case"
"""In the place of a container's name: what is done with all of them."""

SIDES = {"width": "Inside width, mm", "height": "Inside height, mm", "depth": "Inside depth, mm"}
CASE_SIDES = {"width": "Width, mm", "height": "Height, mm", "depth": "Depth, mm"}

Sizes = tuple[float, float, float]


class Seen(NamedTuple):
    """What is to be kept where."""

    report: RoomReport
    kinds: dict[str, str]


class Rooms:
    """Asks what cases are kept in, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work

    def open(self, at: str | None = None) -> None:
        """Show the containers, and what goes where."""
        self._work.fetch(
            self._app,
            lambda workshop: Seen(workshop.room.report(), workshop.kinds.names()),
            lambda seen: self._show(seen, at),
            group=ROOM,
        )

    def _show(self, seen: Seen, at: str | None) -> None:
        report = seen.report
        by_name = {f"of {one.container.name}": one for one in report.containers}
        rows = [Row(key, (one.container.name, _filled(one))) for key, one in by_name.items()]
        about = {key: "\n".join(container_lines(one)[:3]) for key, one in by_name.items()}
        rows.append(Row(NEW, ("a shelf, drawer or box…", "")))
        about[NEW] = "Give its inside; cases are put up in the order of the shelf."
        if report.containers:
            said = count(len(report.new), "game")
            rows += [
                Row(KEEP, ("settle what goes where…", f"{said} without a place")),
                Row(AFRESH, ("put up all games anew…", "")),
            ]
            about[KEEP] = "\n".join(moving_lines(report)[:4]) or "Nothing moves."
            about[AFRESH] = "As if every container were empty."
        rows.append(Row(CASE, ("the size of a case…", "")))
        about[CASE] = "How large a closed case is over all, where it is not the usual one."

        def chosen(row: str | None) -> None:
            if row is None:
                return
            if row in by_name:
                self._ask(seen, by_name[row])
            elif row == NEW:
                self._describe(seen, None)
            elif row == CASE:
                self._ask_kind(seen)
            else:
                self._settle(afresh=row == AFRESH)

        columns = (Column("kept in"), Column("", 30))
        self._app.push_screen(Pick("Room", columns, rows, at=at, about=about), chosen)

    def _change(self, do: Callable[[Workshop], object], at: str | None = None) -> None:
        """Make a change, and show the containers again whatever came of it."""
        self._work.change(do, lambda _: self.open(at), failed=lambda: self.open(at))

    # --- one container -----------------------------------------------------------------

    def _ask(self, seen: Seen, one: ContainerReport) -> None:
        name = one.container.name

        def sure(yes: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if yes:
                self._change(lambda workshop: workshop.room.forget(name))
            else:
                self.open(f"of {name}")

        def chosen(what: str | None) -> None:
            if what == "change":
                self._describe(seen, one)
            elif what == "forget":
                line = f"{count(one.games, 'game')} in it will have no place until it is settled."
                self._app.push_screen(Confirm(f"Forget {name}?", (line,), "Forget"), sure)
            else:
                self.open(f"of {name}")

        rows = [Row("change", ("Describe it anew",)), Row("forget", ("Take it off the list",))]
        self._app.push_screen(Pick(name, (Column(""),), rows), chosen)

    def _describe(self, seen: Seen, one: ContainerReport | None) -> None:
        box = one.container if one else None
        fields = [] if box else [FormLine("name", "What you call it", wide=True)]
        fields += [
            FormLine(side, label, f"{getattr(box, side):g}" if box else "")
            for side, label in SIDES.items()
        ]
        fields += [
            FormLine("growth", "Left empty at first, %", f"{100 * box.growth:g}" if box else "10"),
            FormLine(
                "kinds",
                "Only for",
                ", ".join(box.kinds) if box else "",
                hint="all case kinds that fit",
                wide=True,
            ),
        ]
        words = f"Case kinds: {', '.join(seen.kinds)}."
        title = box.name if box else "A shelf, drawer or box"
        form = Form[dict[str, Any]](title, fields, read_container, words=words, choice="Next")

        def typed(described: dict[str, Any] | None) -> None:
            if described is None:
                self.open()
                return
            name = box.name if box else described.pop("name")
            self._ask_pose(name, box.pose if box else None, described)

        self._app.push_screen(form, typed)

    def _ask_pose(self, name: str, pose: str | None, described: dict[str, Any]) -> None:
        def chosen(pose: str | None) -> None:
            if pose is None:
                self.open()
            else:
                self._change(
                    lambda workshop: workshop.room.add(name, pose=pose, **described), f"of {name}"
                )

        rows = [Row(key, (words,)) for key, words in POSES.items()]
        self._app.push_screen(Pick(f"Cases in {name}", (Column(""),), rows, at=pose), chosen)

    # --- all of them -------------------------------------------------------------------

    def _settle(self, *, afresh: bool) -> None:
        self._work.fetch(
            self._app,
            lambda workshop: workshop.room.report(afresh=afresh),
            lambda report: self._confirm(report, afresh=afresh),
            group=ROOM,
        )

    def _confirm(self, report: RoomReport, *, afresh: bool) -> None:
        row = AFRESH if afresh else KEEP

        def sure(yes: bool | None) -> None:  # noqa: FBT001  as dialogs hand on what was chosen
            if yes:
                self._change(lambda workshop: workshop.room.keep(afresh=afresh), row)
            else:
                self.open(row)

        new = f"{count(len(report.new), 'game')} without a settled place." if report.new else ""
        lines = [*filter(None, [new]), *moving_lines(report)] or ["Every game stays."]
        self._app.push_screen(Confirm("Settle what goes where?", lines, "Settle"), sure)

    def _ask_kind(self, seen: Seen) -> None:
        rows = [Row(kind, (name,)) for kind, name in seen.kinds.items()]
        self._app.push_screen(
            Pick("The size of", (Column("case"),), rows),
            lambda kind: self.open(CASE) if kind is None else self._measure(kind, seen.kinds[kind]),
        )

    def _measure(self, kind: str, name: str) -> None:
        fields = [FormLine(side, label) for side, label in CASE_SIDES.items()]
        words = "Closed, over all, as you look at its front. Nothing: the usual size again."

        def typed(sizes: Sizes | tuple[()] | None) -> None:
            if sizes is None:
                self.open(CASE)
            else:
                self._change(lambda workshop: workshop.room.measure_case(kind, sizes or None), CASE)

        form = Form[Sizes | tuple[()]](name, fields, read_case, words=words)
        self._app.push_screen(form, typed)


def _filled(one: ContainerReport) -> str:
    return f"{count(one.games, 'game')}, room for {one.room} more" if one.games else "empty"


def read_sizes(typed: Typed) -> Outcome[Sizes]:
    """Return three sides in mm, or what is wrong with what was typed."""
    sides = []
    for side in SIDES:
        value = figure(typed[side])
        if value is None:
            said = f"{typed[side]} is no length in mm." if typed[side] else "give it in mm."
            return Outcome(None, f"{side.capitalize()}: {said}")
        sides.append(value)
    width, height, depth = sides
    return Outcome((width, height, depth))


def read_case(typed: Typed) -> Outcome[Sizes | tuple[()]]:
    """Return the size of a case, nothing for the usual one, or what is wrong."""
    if not any(typed.values()):
        return Outcome(())
    value, words = read_sizes(typed)
    return Outcome(value, words)


def read_container(typed: Typed) -> Outcome[dict[str, Any]]:
    """Return what was typed of a container as ``room.add`` takes it, or what is wrong."""
    if not typed.get("name", "-"):
        return Outcome(None, "Give it a name.")
    size, words = read_sizes(typed)
    growth = figure(typed["growth"] or "0")
    if size is None or growth is None:
        return Outcome(None, words or f"Left empty: {typed['growth']} is no part in percent.")
    described: dict[str, Any] = {
        "size": size,
        "growth": growth / 100,
        "kinds": tuple(part.strip() for part in typed["kinds"].split(",") if part.strip()),
    }
    return Outcome(described | ({"name": typed["name"]} if "name" in typed else {}))
