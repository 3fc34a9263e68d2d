"""The command ``cases``: list, draw, add, try and correct case kinds."""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path

from engine import Fits, InputError, Measured, Pose, Shape, Workshop
from tui import asjson, aswords
from tui.answers import Answer
from tui.asking import ask_for

NEW = "new"
"""In the place of a kind, the word that makes one."""


def cases(shop: Workshop, asked: Namespace) -> Answer:
    """Do what ``spinery cases`` asks for."""
    if asked.kind == NEW:
        return _new(shop, asked)
    changes = (asked.correct, asked.stored, asked.without is not None)
    if not asked.kind and (asked.out or asked.trial or asked.folded or any(changes)):
        raise InputError("cases", "this is for one case kind", "Name it: spinery cases KIND")
    if asked.trial:
        report = shop.kinds.trial(asked.kind, asked.out)
        return Answer(aswords.trial(report), asjson.trial(report))
    if any(changes):
        _change(shop, asked)
    elif asked.folded or asked.out:
        return _draw(shop, asked)
    kinds = shop.kinds.reports(asked.kind or "")
    return Answer(aswords.cases(kinds, whole=bool(asked.kind)), asjson.cases(kinds))


def _draw(shop: Workshop, asked: Namespace) -> Answer:
    """Draw a kind's net, or its insert folded."""
    if not asked.out:
        raise InputError("--folded", "draws a picture", "Add --out FILE.png")
    if asked.folded:
        shop.kinds.write_folded(asked.kind, asked.out)
    else:
        shop.kinds.write_net(asked.kind, asked.out)
    return wrote(asked.out)


def wrote(path: Path) -> Answer:
    """Return that a file was written."""
    return Answer([f"Wrote {path}."], {"file": str(path)})


def _change(shop: Workshop, asked: Namespace) -> None:
    """Correct a kind; set how its cases are kept and what its inserts go without."""
    kind = shop.kinds.kind(asked.kind).id
    if asked.correct:
        shop.kinds.correct(kind, asked.correct)
    if asked.stored:
        shop.setup.change(poses={kind: None if asked.stored == "usual" else asked.stored})
    if asked.without is not None:
        shop.setup.change(left_out={kind: asked.without})


def _new(shop: Workshop, asked: Namespace) -> Answer:
    """Add a person's own case, asking for what the line does not say."""
    shape, name, measures = asked.shape, asked.name, dict(asked.measure)
    if not (shape and name and measures):
        if not sys.stdin.isatty():
            raise InputError(
                "cases new",
                "lacks " + ", ".join(_lacking(asked)),
                "Give it, or type spinery cases new at a terminal to be asked",
            )
        shape, name, measures = ask_for(shape, name, measures)
    measured = Measured(
        Shape(shape),
        name,
        measures,
        fits=Fits.AROUND if asked.around else Fits.INSIDE,
        pose=Pose.SHELF if asked.stored in {None, "usual"} else Pose(asked.stored),
    )
    if asked.clearance is not None:
        measured = measured._replace(clearance=asked.clearance)
    kind = shop.kinds.add(measured)
    (report,) = shop.kinds.reports(kind.id)
    return Answer(
        aswords.new_case(report, measured.doubts),
        {**asjson.cases([report]), "doubts": list(measured.doubts)},
    )


def _lacking(asked: Namespace) -> list[str]:
    given = {"--shape": asked.shape, "--name": asked.name, "--measure": asked.measure}
    return [option for option, value in given.items() if not value]
