"""Asks for a person's own case at a terminal, one question after the other."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping

from engine import QUESTIONS, CaseShape, Measured, Question, RefusedError, figure
from tui.words import SHAPES, usual_figures


def ask_for(
    shape: str | None, name: str | None, measures: Mapping[str, float]
) -> tuple[CaseShape, str, dict[str, float]]:
    """Return the shape, the name and the measures, those not given asked for.

    What is implausible is told at once and may be kept. Raises RefusedError where the
    answers end.
    """
    chosen = CaseShape(shape) if shape else _ask_shape()
    called = name or _ask("What do you call it? ", required=True)
    figures = dict(measures)
    for question in QUESTIONS[chosen]:
        if question.key not in figures:
            figures[question.key] = _ask_measure(chosen, question, figures)
    return chosen, called, figures


def ask_for_figure(prompt: str, doubt: Callable[[float], str]) -> float:
    """Return a length in mm; one that is doubted is asked for again, and may be kept.

    Raises RefusedError where the answers end.
    """
    doubted: float | None = None
    while True:
        said = _ask(prompt, required=doubted is None)
        if not said and doubted is not None:
            return doubted
        value = figure(said)
        if value is None:
            _tell(f"  {said}: is not a length. Give it in mm, as 186.5.")
            continue
        words = doubt(value)
        if not words or value == doubted:
            return value
        _tell(f"  {words}")
        _tell("  Type another figure, or press Enter to keep it.")
        doubted = value


def _ask_shape() -> CaseShape:
    for shape, words in SHAPES.items():
        _tell(f"  {shape:<8}{words}")
    while True:
        said = _ask("Which shape? ", required=True).casefold()
        found = [shape for shape in CaseShape if shape.startswith(said)]
        if len(found) == 1:
            return found[0]
        _tell(f"  {said}: is none of the shapes. Type wrap, tray, sleeve or strip.")


def _ask_measure(shape: CaseShape, question: Question, figures: Mapping[str, float]) -> float:
    prompt = f"{question.ask}, {usual_figures(question)}: "
    doubted: float | None = None
    while True:
        said = _ask(prompt)
        if not said and doubted is not None:
            return doubted
        value = 0.0 if not said and question.optional else figure(said)
        if value is None or value < 0 or (value == 0 and not question.optional):
            _tell(f"  {said or 'nothing'}: is not a length. Give it in mm, as 64.5.")
            continue
        doubts = Measured(shape, "", {**figures, question.key: value}).doubts
        own = [doubt for doubt in doubts if doubt.startswith(f"{question.key}:")]
        if not own or value == doubted:
            return value
        for doubt in own:
            _tell(f"  {doubt}")
        _tell("  Type another figure, or press Enter to keep it.")
        doubted = value


def _ask(prompt: str, *, required: bool = False) -> str:
    while True:
        sys.stderr.write(prompt)
        sys.stderr.flush()
        line = sys.stdin.readline()
        if not line:
            raise RefusedError("", "No answer came, so nothing was kept")
        if line.strip() or not required:
            return line.strip()


def _tell(line: str) -> None:
    sys.stderr.write(f"{line}\n")
