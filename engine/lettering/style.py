"""How titles are set: what a person may choose, for a shelf or for a case kind."""

from __future__ import annotations

import msgspec

from engine.cases import Spine
from engine.model import EdgeTitle, FontRef, Furniture, Value

NARROWEST = 0.7
"""No type is condensed further than this, whatever was asked for."""


class TypeStyle(Value, frozen=True):
    """The choices for setting titles; sizes in points, lengths in mm."""

    smallest: float = 5.0
    """Below this, print breaks up on ordinary card (common practice, no published source)."""
    largest: float = 24.0
    lines: int = 2
    """At most so many, one or two."""
    leading: float = 1.1
    """From baseline to baseline, in ems; more where the ink of two lines would meet."""
    narrowest: float = 1.0
    """How far type may be condensed, 1 not at all; 0.85 is as far as it stays easy to read
    (common practice, no published source), and 0.7 the limit. Only titles that would not read
    from the shelf's distance are condensed, and no further than that takes. Letters are never
    moved apart or together."""
    distance: float = 500.0
    """From how far the edge is to be read: arm's length."""
    upright: bool = False
    """Ideographs and kana stand upright, one below the other, instead of lying turned."""
    spine: Spine = Spine.DESCENDING
    """Which way a turned title runs: needed to set a title upright, or a mark across."""
    furniture: Furniture = Furniture()
    dictionary: tuple[tuple[str, str], ...] = ()
    """The person's own short forms, as (word, short form)."""
    fallbacks: tuple[FontRef, ...] = ()
    """Fonts to ask in turn for a character that the title's own lacks, as they are opened."""


STYLE = TypeStyle()
"""How titles are set where nobody chose otherwise."""


def style_of(
    title: EdgeTitle,
    runs: Spine | None,
    fallbacks: tuple[FontRef, ...] = (),
    style: TypeStyle = STYLE,
) -> TypeStyle:
    """Return the style in which a design's title stands on an edge.

    ``runs`` tells which way titles run along that edge; None where they read level, and
    nothing is set upright there. ``fallbacks`` are the title's; see ``standins.fallbacks``.
    """
    return msgspec.structs.replace(
        style,
        upright=title.upright and runs is not None,
        spine=runs or Spine.DESCENDING,
        furniture=title.furniture,
        fallbacks=fallbacks,
    )
