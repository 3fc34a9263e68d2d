"""What would help a title that does not read from the shelf's distance."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

import msgspec

from engine.lettering.abridging import abridgements
from engine.lettering.fontfile import facts
from engine.lettering.machine import WEIGHT
from engine.lettering.scripts import is_east_asian
from engine.lettering.setting import Setting, propose_title
from engine.lettering.style import STYLE, TypeStyle
from engine.model import FontRef, Size

_CONDENSED = 0.85
"""As far as condensed type stays easy to read (common practice, no published source)."""


ANOTHER_CASE = "Use the case kind"
"""How a remedy begins that asks for another case."""


class Remedy(NamedTuple):
    """Something that may help, and what comes of it."""

    words: str
    setting: Setting

    def reaches(self, distance: float) -> bool:
        """Return whether the title then reads from ``distance`` mm."""
        return self.setting.reads_at >= distance


def remedies(
    title: str,
    edge: Size,
    font: FontRef,
    style: TypeStyle = STYLE,
    others: Mapping[str, Size] | None = None,
) -> tuple[Remedy, ...]:
    """Return what makes ``title`` read from farther, best first; nothing where it reads already.

    ``others`` are edges of other case kinds by their names. A remedy is listed only where
    the title then reads from farther, or is sturdier.
    """
    now = propose_title(title, edge, font, style)
    if now.reads_at >= style.distance:
        return ()
    tried = _tries(title, edge, font, style, others or {})
    better = [one for one in tried if one.setting.reads_at > now.reads_at]
    better.sort(key=lambda one: -one.setting.reads_at)
    return (*better, *_bolder(font, now))


def _tries(
    title: str, edge: Size, font: FontRef, style: TypeStyle, others: Mapping[str, Size]
) -> Iterator[Remedy]:
    def changed(**choices: object) -> Setting:
        return propose_title(title, edge, font, msgspec.structs.replace(style, **choices))

    if style.lines == 1:
        yield Remedy("Set it in two lines", changed(lines=2))
    if style.narrowest > _CONDENSED:
        yield Remedy("Condense the type", changed(narrowest=_CONDENSED))
    if not style.upright and is_east_asian(title):
        yield Remedy("Set it upright", changed(upright=True))
    for shorter in abridgements(title, style.dictionary)[1:]:
        setting = propose_title(shorter.text, edge, font, style)
        setting = msgspec.structs.replace(setting, steps=shorter.steps)
        yield Remedy(f"Abridge it to {shorter.text}", setting)
        if setting.reads_at >= style.distance:
            break
    for name, size in others.items():
        yield Remedy(f"{ANOTHER_CASE} {name}", propose_title(title, size, font, style))


def _bolder(font: FontRef, now: Setting) -> Iterator[Remedy]:
    """Yield a sturdier weight where there is one: no taller, but its strokes hold in print."""
    if dict(font.axes).get("wght", facts(font).weight) < WEIGHT:
        yield Remedy("Use a bolder weight", now)
