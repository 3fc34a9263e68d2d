"""What a setting does in words: each figure as it would be, and what it is instead of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from engine import SETTINGS, BeforeAfter, Effect, Measure, SetAs, Shows, Stands


class Saying(NamedTuple):
    """How a figure is said."""

    number: str
    """How it is written."""
    words: str
    """With a place for it."""
    one: str = ""
    """The same of 1, where that is otherwise."""
    none: str | None = None
    """What is said of 0, where that is otherwise; empty for nothing."""

    def of(self, figure: float) -> str:
        """Return the words for a figure."""
        if figure == 0 and self.none is not None:
            return self.none
        number = self.number.format(figure)
        return ((number == "1" and self.one) or self.words).format(number)


SAYINGS: Mapping[Measure, Saying] = MappingProxyType(
    {
        Measure.ON_SHEET: Saying("{:.0f}", "{} to a sheet"),
        Measure.USED: Saying("{:.0%}", "{} of the paper used"),
        Measure.WIDTH: Saying("{:.2f}", "flat {} mm wide"),
        Measure.HEIGHT: Saying("{:.2f}", "{} mm high"),
        Measure.BLEED: Saying("{:g}", "{} mm of bleed"),
        Measure.GUTTER: Saying("{:g}", "{} mm between inserts"),
        Measure.CUTS: Saying("{:.0f}", "{} cuts", "{} cut", "cut along a rule"),
        Measure.DISTANCES: Saying("{:.0f}", "{} distances to set", "{} distance to set", ""),
        Measure.TURNS: Saying("{:.0f}", "{} turns of the paper", "{} turn of the paper", ""),
        Measure.TO_CONFIRM: Saying("{:.0f}", "{} pictures to confirm", "{} picture to confirm"),
        Measure.FAR: Saying(
            "{:.0f}",
            "{} titles short of the reading distance",
            "{} title short of the reading distance",
        ),
        Measure.ABRIDGED: Saying("{:.0f}", "{} abridged", none=""),
        Measure.SMALLEST: Saying("{:g}", "smallest type {} pt"),
        Measure.INK: Saying("{:.0%}", "the four inks together cover {} of its area"),
    }
)

OF_KIND = frozenset({Shows.SHEET, Shows.INSERT})
"""What shows one case kind, whose name stands before the figures."""


def effect_lines(effect: Effect) -> Iterator[str]:
    """Yield what a setting does: '12 to a sheet instead of 10', and how an edge stands."""
    figures = ", ".join(filter(None, map(figure_words, effect.figures)))
    if figures and effect.shows in OF_KIND:
        yield f"{effect.kind}: {figures}."
    elif figures:
        yield f"{figures[0].upper()}{figures[1:]}."
    if effect.stands:
        yield f"{effect.game}: {_stands_words(*effect.stands)}."
    if effect.set_as:
        before, after = map(_set_words, effect.set_as)
        yield after + (f", instead of {before}." if after != before else ".")
    if effect.undrawn:
        yield effect.undrawn


def figure_words(figure: BeforeAfter) -> str:
    """Return a figure as it would be, and as it is where that is otherwise."""
    saying = SAYINGS[figure.measure]
    before, after = (saying.number.format(one) for one in (figure.before, figure.after))
    if before == after:
        return saying.of(figure.after)
    was = saying.of(figure.before) if figure.after == 0 and saying.none else before
    return f"{saying.of(figure.after) or saying.words.format(after)} instead of {was}"


def _set_words(one: SetAs) -> str:
    signs = [f", mark {one.mark}"] * bool(one.mark) + [f", stripe {one.stripe}"] * bool(one.stripe)
    return f"{' / '.join(one.lines)}, {one.size:g} pt{''.join(signs)}"


def _stands_words(before: Stands, after: Stands) -> str:
    """Return how an edge would stand and between what, each with what it is instead of."""
    now, then = _edge_words(before), _edge_words(after)
    words = then if now == then else f"{then}, instead of {now}"
    return "; ".join(filter(None, (words, _beside_words(after))))


def _edge_words(one: Stands) -> str:
    runs = SETTINGS["spine"].more["said"][one.runs] if one.runs else "level"
    return f"{one.panel} shows, title {runs}"


def _beside_words(one: Stands) -> str:
    if one.left and one.right:
        return f"between {one.left} and {one.right}"
    return f"beside {one.left or one.right}" if one.left or one.right else ""
