"""A person's own case: a shape, a few measurements, and what is odd about them."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from enum import StrEnum
from itertools import pairwise

from engine.cases.flattening import flatten
from engine.cases.model import CaseKind, Fits, Measure, Panel, Pose, Role, Side
from engine.model import Value
from engine.model.errors import CaseError


class CaseShape(StrEnum):
    """What an insert looks like, roughly."""

    WRAP = "wrap"
    """Front, spine and back in a row."""
    TRAY = "tray"
    """A back with a spine at its left and at its right."""
    SLEEVE = "sleeve"
    """A panel with flaps over any of its four sides."""
    STRIP = "strip"
    """One edge label."""


class Question(Value, frozen=True):
    """A measurement that matters for a shape."""

    key: str
    """The measure's name."""
    ask: str
    """What to measure, as a label."""
    least: float
    """Below this, in mm, the figure is implausible."""
    most: float
    """Above this, in mm, the figure is implausible."""
    optional: bool = False
    """0 means that there is none."""


_SMALLEST = 20.0
"""No side of a case is smaller: the smallest card-type cartridge is 31 × 21 × 3 mm (memory)."""
_HIGHEST = 260.0
_WIDEST = 200.0
_EDGE = (4.0, 45.0)
"""A spine or flap narrower than 4 mm takes no line that reads; cases thicker than 45 mm hold
several things (common practice, no published source)."""

QUESTIONS: Mapping[CaseShape, tuple[Question, ...]] = {
    CaseShape.WRAP: (
        Question("height", "Height inside", _SMALLEST, _HIGHEST),
        Question("front", "Width of the front", _SMALLEST, _WIDEST),
        Question("spine", "Width of the spine", *_EDGE),
        Question("back", "Width of the back, 0 for none", 5.0, _WIDEST, optional=True),
    ),
    CaseShape.TRAY: (
        Question("height", "Height inside", _SMALLEST, _HIGHEST),
        Question("width", "Width between the spines", _SMALLEST, _WIDEST),
        Question("spine", "Depth of a spine", *_EDGE),
    ),
    CaseShape.SLEEVE: (
        Question("height", "Height inside", _SMALLEST, _HIGHEST),
        Question("width", "Width inside", _SMALLEST, _WIDEST),
        Question("left", "Depth of the left flap, 0 for none", *_EDGE, optional=True),
        Question("right", "Depth of the right flap, 0 for none", *_EDGE, optional=True),
        Question("top", "Depth of the top flap, 0 for none", *_EDGE, optional=True),
        Question("bottom", "Depth of the bottom flap, 0 for none", *_EDGE, optional=True),
    ),
    CaseShape.STRIP: (
        Question("height", "Length of the edge", _SMALLEST, _HIGHEST),
        Question("width", "Width of the edge", *_EDGE),
    ),
}
"""What is asked for each shape, in the order of asking."""

CLEARANCE = 0.5
"""Taken off what was measured so that the paper goes in, in mm (common practice, no published
source)."""

_PAGES = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
"""ISO 216 and ASME Y14.1, long side first."""
_MARGINS = (18.0, 12.0)
"""What a home printer leaves of the long and of the short side (common practice, no published
source)."""
_USUAL_CALIPER = 0.25


def draft(
    shape: CaseShape,
    name: str,
    measures: Mapping[str, float],
    *,
    fits: Fits = Fits.INSIDE,
    clearance: float = CLEARANCE,
    pose: Pose = Pose.SHELF,
) -> CaseKind:
    """Return the case kind of a shape with what was measured, in mm.

    An optional measure may be left away or 0. Raises CaseError that names the measure that
    is missing, unknown or no length, and where the net cannot be folded.
    """
    asked = {question.key: question for question in QUESTIONS[shape]}
    for key in measures:
        if key not in asked:
            raise CaseError(key, f"is no measure of a {shape}", f"Give {', '.join(asked)}")
    given = {key: _given(question, measures) for key, question in asked.items()}
    panels = _PANELS[shape](given)
    kind = CaseKind(
        id=kind_id(name),
        name=name.strip(),
        measures=tuple(Measure(key, value) for key, value in given.items() if value > 0),
        panels=panels,
        fits=fits,
        clearance=clearance,
        front="front" if any(p.name == "front" for p in panels) else "",
        back="back" if shape is CaseShape.TRAY else "",
        pose=pose,
        sources=("measured by the person",),
    )
    flatten(kind, _USUAL_CALIPER)
    return kind


def kind_id(name: str) -> str:
    """Return a name as an id: small letters, digits and hyphens; read in Latin letters if need be.

    Raises CaseError where no letter or digit of it is left.
    """
    found = _hyphened(unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode())
    if not found:
        from anyascii import anyascii

        # A sign would become its name, which nobody wrote; an apostrophe stands for a soft letter.
        letters = (one if unicodedata.category(one)[0] in "LM" else " " for one in name)
        found = _hyphened(anyascii("".join(letters)).replace("'", ""))
    if not found:
        raise CaseError("name", f"{name!r} has no letter or digit", "Use at least one")
    return found


def _hyphened(text: str) -> str:
    return "-".join(re.findall(r"[a-z0-9]+", text.lower()))


def doubts(shape: CaseShape, measures: Mapping[str, float]) -> tuple[str, ...]:
    """Return what is implausible about measurements in mm, a sentence each.

    They are warnings: ``draft`` takes what is doubtful all the same.
    """
    figures = {
        question.key: measures[question.key]
        for question in QUESTIONS[shape]
        if measures.get(question.key, 0.0) > 0
    }
    if figures and max(figures.values()) < _SMALLEST:
        return ("Nothing here is longer than a thumb: these look like centimetres or inches.",)
    found = [
        sentence
        for question in QUESTIONS[shape]
        if question.key in figures
        if (sentence := _out_of_range(question, figures[question.key]))
    ]
    found += _proportions(shape, figures)
    return (*found, *_too_large(shape, figures))


def _given(question: Question, measures: Mapping[str, float]) -> float:
    value = measures.get(question.key, 0.0 if question.optional else math.nan)
    if math.isnan(value):
        raise CaseError(question.key, "is not given", f"Measure it: {question.ask.lower()}")
    if not math.isfinite(value) or value < 0 or (value == 0 and not question.optional):
        raise CaseError(question.key, f"{value:g} is not a length", "Give it in mm, above 0")
    return value


def _out_of_range(question: Question, value: float) -> str:
    if question.least <= value <= question.most:
        return ""
    low = value < question.least
    usual = f"under {question.least:g}" if low else f"over {question.most:g}"
    other = value * 10 if low else value / 10
    guess = f" Is it {other:g}?" if question.least <= other <= question.most else ""
    return f"{question.key}: {value:g} mm is {usual} mm, which is rare.{guess}"


def _proportions(shape: CaseShape, figures: Mapping[str, float]) -> list[str]:
    found = []
    if shape is CaseShape.WRAP and figures.get("back", 0.0) > figures.get("front", math.inf) * 1.05:
        found.append("back: the back is wider than the front.")
    spine = figures.get("spine", 0.0)
    if spine > min(figures.get("front", math.inf), figures.get("width", math.inf)):
        found.append("spine: the spine is wider than the case.")
    if shape is CaseShape.SLEEVE:
        flaps = [figures[key] for key in ("left", "right", "top", "bottom") if key in figures]
        if not flaps:
            found.append("There is no flap, so no edge will name the game.")
        if any(abs(one - other) > 2.0 for one, other in pairwise(sorted(flaps))):
            found.append("The flaps differ by more than 2 mm in depth, but the case has one depth.")
    if shape is CaseShape.STRIP and figures.get("width", 0.0) > figures.get("height", math.inf):
        found.append("width: the strip is wider than it is long.")
    return found


def _too_large(shape: CaseShape, figures: Mapping[str, float]) -> tuple[str, ...]:
    try:
        net = flatten(draft(shape, "trial", figures), _USUAL_CALIPER)
    except CaseError:
        return ()
    long, short = max(net.size), min(net.size)
    fits = [
        name
        for name, (length, width) in _PAGES.items()
        if long <= length - _MARGINS[0] and short <= width - _MARGINS[1]
    ]
    if fits:
        return ()
    return (f"The flat net of {long:.1f} × {short:.1f} mm fits neither A4 nor Letter.",)


def _wrap(given: Mapping[str, float]) -> tuple[Panel, ...]:
    front = Panel("front", Role.ART, "front", width="front", height="height")
    spine = Panel("spine", Role.EDGE, "spine", on="front", side=Side.LEFT, width="spine")
    back = Panel("back", Role.ART, "back", on="spine", side=Side.LEFT, width="back")
    return (front, spine, back) if given["back"] else (front, spine)


def _tray(_given: Mapping[str, float]) -> tuple[Panel, ...]:
    back = Panel("back", Role.ART, "back", width="width", height="height")
    spines = [
        Panel(f"{side} spine", Role.EDGE, "spine", on="back", side=side, width="spine")
        for side in (Side.LEFT, Side.RIGHT)
    ]
    return (back, *spines)


def _sleeve(given: Mapping[str, float]) -> tuple[Panel, ...]:
    front = Panel("front", Role.ART, "front", width="width", height="height")
    flaps = [
        Panel(
            f"{side} flap",
            Role.EDGE,
            "spine" if side is Side.LEFT else "",
            on="front",
            side=side,
            width=side.value if side.upright else None,
            height=None if side.upright else side.value,
        )
        for side in (Side.LEFT, Side.RIGHT, Side.TOP, Side.BOTTOM)
        if given[side]
    ]
    return (front, *flaps)


def _strip(_given: Mapping[str, float]) -> tuple[Panel, ...]:
    return (Panel("edge", Role.EDGE, "spine", width="width", height="height"),)


_PANELS = {
    CaseShape.WRAP: _wrap,
    CaseShape.TRAY: _tray,
    CaseShape.SLEEVE: _sleeve,
    CaseShape.STRIP: _strip,
}
