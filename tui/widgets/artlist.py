"""How the art of an insert lies, choice by choice, each with its key."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from textual.content import Content
from textual.reactive import reactive

from engine import Fit, InkReport, Proposal
from tui.actions import BY_ID
from tui.widgets.flowing import Flowing, hanging
from tui.words import INK_WORDS, MATTE_WORDS, saved

CROP = ("crop_left", "crop_down", "crop_up", "crop_right")
MOVE = ("line_out", "line_in")
TURN = ("turn_left", "turn_right")


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
    art, design = shown.proposal.design.art, shown.proposal.design
    yield ("change_art",), shown.proposal.art.words
    if art.picture is not None:
        if art.fit is Fit.FILL:
            across, down = art.focus
            yield CROP, f"about {across:.0%} across, {down:.0%} down"
        sides = [f"{side} {cut:.1%}" for side, cut in art.trim._asdict().items() if cut]
        yield ("next_trim",), ", ".join(sides) or "nothing"
        spine = f"spine {art.split[0]:.1%} to {art.split[1]:.1%}" if art.split else "whole"
        yield ("split",), spine
        yield ("next_line",), shown.line
        yield MOVE, "the line"
        yield TURN, f"{art.turn:.2f}°" if art.turn else "not turned"
        yield ("next_matte",), MATTE_WORDS[art.matte]
    yield ("next_pattern",), str(art.pattern) if art.picture is None else "none: a picture"
    yield ("next_ink",), INK_WORDS[design.ink]
    if shown.ink is not None:
        yield (), _ink(shown.ink)


def _ink(report: InkReport) -> str:
    inks = ", ".join(f"{ink} {percent:.0f} %" for ink, percent in report.coverage.items())
    return f"{inks}; {saved(report.saving)}"
