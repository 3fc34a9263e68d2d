"""How the art of an insert lies, choice by choice, each with its key."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from textual.content import Content
from textual.reactive import reactive

from engine import InkReport, Proposal
from tui.actions import BY_ID
from tui.gamewords import art_choices, saved
from tui.widgets.flowing import Flowing, hanging

MOVE = ("line_out", "line_in")


@dataclass(frozen=True, slots=True)
class ArtShown:
    """The art that is worked on."""

    proposal: Proposal
    line: str
    """The line that is moved."""
    ink: InkReport | None = None
    """None until it is known."""


class ArtList(Flowing):
    """A line for each choice."""

    shown: reactive[ArtShown | None] = reactive(None, layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return the choices."""
        lines: list[Content] = []
        for acts, value in _choices(self.shown) if self.shown else ():
            name = BY_ID[acts[0]].group or BY_ID[acts[0]].label if acts else "Takes"
            head = Content.from_markup(
                "[bold $accent]$key[/] [$secondary]$name[/] ",
                key=f"{''.join(BY_ID[act].shown for act in acts):>4}",
                name=f"{name:<8}",
            )
            lines += hanging(head, Content(value), width)
        return lines


def _choices(shown: ArtShown) -> Iterator[tuple[tuple[str, ...], str]]:
    for acts, value in art_choices(shown.proposal):
        yield acts, value
        if acts == ("split",):
            yield ("next_line",), shown.line
            yield MOVE, "the line"
    if shown.ink is not None:
        yield (), _ink(shown.ink)


def _ink(report: InkReport) -> str:
    inks = ", ".join(f"{ink} {percent:.0f} %" for ink, percent in report.coverage.items())
    return f"{inks}; {saved(report.saving)}"
