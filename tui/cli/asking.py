"""Asks for a person's own case at a terminal, one question after the other."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence

from engine import QUESTIONS, CaseShape, Measured, Question, RefusedError, figure
from tui.ending import say
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
    return _ask_length(
        prompt, figure, lambda value: list(filter(None, [doubt(value)])), "186.5", required=True
    )


def _ask_shape() -> CaseShape:
    for shape, words in SHAPES.items():
        say(f"  {shape}: {words}")
    while True:
        said = _ask("Which shape? ", required=True).casefold()
        found = [shape for shape in CaseShape if shape.startswith(said)]
        if len(found) == 1:
            return found[0]
        say(f"  {said}: is none of the shapes. Type wrap, tray, sleeve or strip.")


def _ask_measure(shape: CaseShape, question: Question, figures: Mapping[str, float]) -> float:
    def read(said: str) -> float | None:
        value = 0.0 if not said and question.optional else figure(said)
        if value is None or value < 0 or (value == 0 and not question.optional):
            return None
        return value

    def doubts(value: float) -> list[str]:
        found = Measured(shape, "", {**figures, question.key: value}).doubts
        return [doubt for doubt in found if doubt.startswith(f"{question.key}:")]

    prompt = f"{question.ask}, {usual_figures(question)}: "
    return _ask_length(prompt, read, doubts, "64.5", required=False)


def _ask_length(
    prompt: str,
    read: Callable[[str], float | None],
    doubts: Callable[[float], Sequence[str]],
    example: str,
    *,
    required: bool,
) -> float:
    """Return what ``read`` makes of an answer, asked for again while it is none, or doubted.

    One that is doubted is kept by giving it again, or nothing.
    """
    doubted: float | None = None
    while True:
        said = _ask(prompt, required=required and doubted is None)
        if not said and doubted is not None:
            return doubted
        value = read(said)
        if value is None:
            say(f"  {said or 'nothing'}: is not a length. Give it in mm, as {example}.")
            continue
        found = doubts(value)
        if not found or value == doubted:
            return value
        for doubt in found:
            say(f"  {doubt}")
        say("  Type another figure, or press Enter to keep it.")
        doubted = value


def _ask(prompt: str, *, required: bool = False) -> str:
    while True:
        say(prompt, end="")
        line = sys.stdin.readline()
        if not line:
            raise RefusedError("", "No answer came, so nothing was kept")
        if line.strip() or not required:
            return line.strip()
