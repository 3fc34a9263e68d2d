"""``spinery cases``: list, draw, add, try and correct case kinds."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Sequence
from typing import Any

from engine import (
    POSES,
    CaseShape,
    Fits,
    InputError,
    KindReport,
    Measured,
    Pose,
    TrialReport,
    Workshop,
    figure,
    shipped_kinds,
)
from tui.aloud import columns, named
from tui.cli.answers import Answer, Command, wrote
from tui.cli.asking import ask_for
from tui.cli.opening import folder_to_hand, opened
from tui.cli.options import add_out, add_settings_of_kind, chosen_of_kind, each_once, number
from tui.cli.told import Object, told
from tui.terminal import is_terminal

NEW = "new"
"""In the place of a kind, the word that makes one."""

# --- what it takes ----------------------------------------------------------------------


def measure(text: str) -> tuple[str, float]:
    """Return a measure and its length in mm."""
    name, _, said = text.partition("=")
    length = figure(said)
    if length is None or not name.strip():
        raise ArgumentTypeError(f"{text} is no measure: write its name and mm, as width=64.5")
    return name.strip(), length


def misfit(text: str) -> tuple[str, str, float]:
    """Return a panel, its width or height, and by how many mm that was too long."""
    side, by = measure(text)
    panel, _, dimension = side.rpartition(".")
    if not panel:
        raise ArgumentTypeError(f"{text} is no misfit: write panel.width=+0.5 for 0.5 mm too wide")
    return panel, dimension, by


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument(
        "kind", nargs="?", metavar="KIND", help='a case kind\'s id or name, or "new" to add one'
    )
    add_out(one, "FILE", "draw its net: .svg .dxf .pdf .png")
    one.add_argument("--folded", action="store_true", help="draw it folded instead, as .png")
    one.add_argument("--trial", action="store_true", help="write a trial cut, as .pdf")
    one.add_argument(
        "--correct",
        nargs="+",
        type=misfit,
        default=(),
        metavar="PANEL.SIDE=MM",
        help="what was too long on the trial cut (negative: too short), as spine.width=+0.5",
    )
    add_settings_of_kind(one)
    new = one.add_argument_group("spinery cases new", "asks for what is not given")
    new.add_argument("--shape", choices=[*CaseShape])
    new.add_argument("--name", help="what to call the case")
    new.add_argument(
        "--measure",
        nargs="+",
        action="extend",
        type=measure,
        default=[],
        metavar="NAME=MM",
        help="measured inside the case, as width=64.5",
    )
    new.add_argument(
        "--around", action="store_true", help="measured on the outside: the insert goes round it"
    )
    new.add_argument("--clearance", type=number, metavar="MM", help="room left in all (0.5)")


# --- what it does -----------------------------------------------------------------------


def run(asked: Namespace) -> Answer:
    """Do what was asked for one kind, or list them all."""
    settings = chosen_of_kind(asked)
    single = asked.out or asked.trial or asked.folded or asked.correct or settings
    if single and not asked.kind:
        raise InputError("cases", "this is for one case kind", "Name it: spinery cases KIND")
    if not (single or asked.kind == NEW or asked.collection or folder_to_hand()):
        return _list(shipped_kinds(asked.kind or ""), asked)
    with opened(asked) as shop:
        if asked.kind == NEW:
            return _new(shop, asked, settings)
        if asked.trial:
            return _trial(shop.kinds.trial(asked.kind, asked.out, replace=asked.replace))
        if asked.correct:
            shop.kinds.correct(asked.kind, asked.correct, **settings)
        elif settings:
            kind = shop.kinds.kind(asked.kind).id
            shop.setup.change(**{name: {kind: value} for name, value in settings.items()})
        elif asked.folded or asked.out:
            return _draw(shop, asked)
        return _list(shop.kinds.reports(asked.kind or ""), asked)


def _list(kinds: Sequence[KindReport], asked: Namespace) -> Answer:
    return Answer(_words(kinds, whole=bool(asked.kind)), {"cases": [_data(one) for one in kinds]})


def _draw(shop: Workshop, asked: Namespace) -> Answer:
    """Draw a kind's net, or its insert folded."""
    if not asked.out:
        raise InputError("--folded", "draws a picture", "Add --out FILE.png")
    write = shop.kinds.write_folded if asked.folded else shop.kinds.write_net
    write(asked.kind, asked.out, replace=asked.replace)
    return wrote(asked.out)


def _trial(report: TrialReport) -> Answer:
    sides = ", ".join(f"{side.panel}.{side.dimension}" for side in report.sides)
    words = [
        f"Wrote {report.file}.",
        "Print it at 100 %, cut and fold it, and put it into the case.",
        f"Then tell how much was too long: --correct PANEL.SIDE=MM, of {sides}.",
        *report.notes,
    ]
    return Answer(words, told(report))


def _new(shop: Workshop, asked: Namespace, settings: dict[str, Any]) -> Answer:
    """Add a person's own case, asking for what the line does not say."""
    shape, name, measures = asked.shape, asked.name, each_once(asked.measure)
    if not (shape and name and measures):
        if not is_terminal(sys.stdin):
            given = {"--shape": shape, "--name": name, "--measure": measures}
            raise InputError(
                "cases new",
                f"lacks {', '.join(option for option, value in given.items() if not value)}",
                "Give it, or type spinery cases new at a terminal to be asked",
            )
        shape, name, measures = ask_for(shape, name, measures)
    given = {
        "fits": Fits.AROUND if asked.around else None,
        "clearance": asked.clearance,
        # How these cases are kept stands in their description.
        "pose": Pose(pose) if (pose := settings.pop("poses", None)) else None,
    }
    measured = Measured(CaseShape(shape), name, measures)._replace(
        **{field: value for field, value in given.items() if value is not None}
    )
    kind = shop.kinds.add(measured, **settings)
    (report,) = shop.kinds.reports(kind.id)
    words = [
        *_words([report], whole=True),
        *measured.doubts,
        f"Try it: spinery cases {kind.id} --trial",
        f"Undo leaves it alone; to be rid of it, delete cases/{kind.id}.toml.",
    ]
    return Answer(words, {"cases": [_data(report)], "doubts": list(measured.doubts)})


# --- what it says -----------------------------------------------------------------------


def _words(kinds: Sequence[KindReport], *, whole: bool) -> list[str]:
    """Return the case kinds, a line each; with ``whole``, everything about them."""
    lines: list[str] = []
    for one in kinds:
        size = f"{one.net.size.width:.1f} × {one.net.size.height:.1f} mm"
        cells = ((one.kind.id, 20), (size, 18), (one.kind.name, 0))
        lines.append(columns(cells, f"{one.kind.id}: {one.kind.name}, {size} flat"))
        if whole:
            lines += _whole(one)
    return lines


def _whole(one: KindReport) -> list[str]:
    width, height, depth = one.folded.outside
    facing = " and ".join(one.folded.facing)
    stored = POSES[one.line.pose] + (f", {facing} shows" if facing else "")
    lines: list[str] = [
        *(
            columns(((panel.name, 12), (role, 6), (size, 0)), f"{panel.name}: {role}, {size}", "  ")
            for panel in one.net.panels
            for role in [panel.role.value]
            for size in [f"{panel.rect.width:.1f} × {panel.rect.height:.1f} mm"]
        ),
        named("folded", 12, f"{width:.1f} × {height:.1f} × {depth:.1f} mm over all", "  "),
        named("stored", 12, stored, "  "),
    ]
    if one.line.left_out:
        lines.append(named("left out", 12, ", ".join(one.line.left_out), "  "))
    if one.line.own:
        lines.append("  described in the collection's folder cases")
    return [*lines, *(f"  {line}" for line in (*one.kind.sources, *one.kind.cautions))]


def _data(one: KindReport) -> Object:
    return {
        **told(one.line),
        **told(one.net, "size", "panels", "scores", "notches"),
        "folded_mm": [round(length, 3) for length in one.folded.outside],
        **told(one.folded, "facing"),
        **told(one.kind, "sources"),
    }


COMMAND = Command("cases", "list, draw, add or correct case kinds", run, add)
