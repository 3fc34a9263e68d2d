"""What a person sets for the whole collection, checked as a whole before it is taken."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec

from engine.cases import CaseKind
from engine.cases.casing import Casing
from engine.model.errors import CaseError, InputError
from engine.model.naming import There
from engine.model.settings import SETTINGS, Settings

NARROWEST = 30.0
"""A field narrower than this, in mm, holds no insert of any kind: the margins are a slip."""


def changed(
    present: Settings, fields: Mapping[str, object], there: There, kinds: Mapping[str, CaseKind]
) -> Settings:
    """Return the settings with ``fields`` changed, which go by their names in ``SETTINGS``.

    Names of what is ``there`` may be said in any case of letters. What is set by case kind, and
    short forms, change what they name only; None or nothing takes one back. Raises InputError
    that names the field, or CaseError.
    """
    new = present
    for name in sorted(fields, key=list(SETTINGS).index):
        new = _with(new, name, SETTINGS[name].changed(new, fields[name], there))
    _refuse_overprinting(new, fields)
    refuse_narrow(new)
    if new.lettering.smallest > new.lettering.largest:
        raise InputError("smallest", "is larger than the largest size", "Give another value")
    if "left_out" in fields:
        _refuse_panels(new, kinds)
    return new


def _with(settings: Settings, name: str, value: Any) -> Settings:
    """Return the settings with one of them set."""
    home = SETTINGS[name].home
    if name == "stock":
        value = settings.paper(value) or settings.stock
    if home:
        value = msgspec.structs.replace(getattr(settings, home), **{name: value})
    return msgspec.structs.replace(settings, **{home or name: value})


def _refuse_overprinting(settings: Settings, fields: Mapping[str, object]) -> None:
    """Raise InputError where there is too little between two inserts."""
    kerf, gutter, bleed = settings.kerf, settings.gutter, settings.bleed
    if kerf > gutter:
        raise InputError(
            "kerf",
            f"{kerf:g} mm is more than the {gutter:g} mm between two inserts",
            "Give 0 for a trimmer or a knife, and what the blade takes away for a saw",
        )
    if 2 * bleed > gutter:
        raise InputError(
            "gutter" if "gutter" in fields else "bleed",
            f"a gutter of {gutter:g} mm is less than twice the bleed of {bleed:g} mm",
            f"Give a gutter of {2 * bleed:g} mm or more, or a smaller bleed",
        )


def refuse_narrow(settings: Settings) -> None:
    """Raise InputError where the margins leave no field to speak of on a stock in use."""
    for stock in (settings.stock, *map(settings.stock_of, settings.stocks)):
        field = settings.forme_on(stock).field
        if min(field.width, field.height) < NARROWEST:
            raise InputError(
                "margins",
                f"leave a field of {field.width:.0f} × {field.height:.0f} mm on {stock.name}",
                "Give the margins in mm that the printer really leaves",
            )


def _refuse_panels(settings: Settings, kinds: Mapping[str, CaseKind]) -> None:
    """Raise CaseError where panels are left out that are not there, or all that there are."""
    everywhere = {panel.name for kind in kinds.values() for panel in kind.panels}
    unknown = sorted(set(settings.left_out.get("", ())) - everywhere)
    if unknown:
        names = ", ".join(sorted(everywhere))
        raise CaseError("", f'no case kind has a panel "{unknown[0]}"', f"Panels are {names}")
    casing = Casing(kinds, settings)
    for kind, left_out in settings.left_out.items():
        if kind in kinds:
            casing.net(kind, frozenset(left_out))


def named(before: Settings, after: Settings, fields: Mapping[str, object]) -> str:
    """Return which of the fields differ, in words: 'the patience, the kerf and the ink'."""
    changed = [
        one.called
        for one in SETTINGS.values()
        if one.id in fields and one.value(before) != one.value(after)
    ]
    return " and ".join(filter(None, (", ".join(changed[:-1]), *changed[-1:])))
