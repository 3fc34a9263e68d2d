"""What a person sets for the whole collection, checked before it is taken."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from types import MappingProxyType
from typing import Never

import msgspec

from engine.cases import CaseKind
from engine.cases.casing import Casing
from engine.cases.library import known_kind
from engine.model import Margins
from engine.model.errors import CaseError, InputError
from engine.model.settings import Settings
from engine.model.stocks import STOCKS

NOTHING: Mapping[str, Never] = MappingProxyType({})
"""No change."""

THINNEST, THICKEST = 0.03, 1.0
"""In mm: from tissue to board; what a home printer feeds lies between (common practice, no
published source)."""

NARROWEST = 30.0
"""A field narrower than this, in mm, holds no insert of any kind: the margins are a slip."""


_NAMES = {
    "stock": "the paper",
    "stocks": "the paper of a case kind",
    "rule": "the cutting rule",
    "patience": "the patience",
    "kerf": "the kerf",
    "pose": "how cases are stored",
    "poses": "how cases of a kind are stored",
    "spine": "which way spines read",
    "left_out": "the panels left out",
    "case": "the usual case",
    "batch_size": "the size of a batch",
    "colour_by": "what colours go by",
    "ink": "the ink",
}
"""What settings are called when their change is taken back."""


def changed(
    settings: Settings,
    kinds: Mapping[str, CaseKind],
    *,
    stock_id: str = "",
    margins: Sequence[float] | None = None,
    poses: Mapping[str, str | None] = NOTHING,
    left_out: Mapping[str, Collection[str]] = NOTHING,
    stocks: Mapping[str, str | None] = NOTHING,
    **fields: object,
) -> Settings:
    """Return the settings with these changes.

    ``margins`` are four lengths in mm (left, right, top, bottom) and belong to the stock, as
    does a measured ``caliper`` in mm; ``fields`` go by their names in Settings, ``case`` by a
    kind's id or name. ``poses``, ``stocks`` and ``left_out`` are by kinds too and change what
    they name only; None or no panel takes a setting back. Panels under "" are left out of every
    kind. Raises InputError or CaseError.
    """
    stock = settings.stock
    for wanted in filter(None, (stock_id, *stocks.values())):
        if wanted not in STOCKS:
            raise InputError(wanted, "no such stock", f"Stocks are {', '.join(STOCKS)}")
    if stock_id:
        stock = STOCKS[stock_id]
    if margins is not None:
        left, right, top, bottom = margins
        stock = msgspec.structs.replace(
            stock, margins=Margins(left=left, right=right, top=top, bottom=bottom)
        )
    if "caliper" in fields:
        stock = msgspec.structs.replace(stock, caliper=_thickness(fields.pop("caliper")))
    if fields.get("case"):
        fields["case"] = known_kind(kinds, str(fields["case"]))
    raw = {
        **msgspec.to_builtins(settings),
        **fields,
        "stock": msgspec.to_builtins(stock),
        "poses": _by_kind(settings.poses, kinds, poses),
        "stocks": _by_kind(settings.stocks, kinds, stocks),
        "left_out": _by_kind(
            settings.left_out, kinds, {kind: sorted(set(names)) for kind, names in left_out.items()}
        ),
    }
    try:
        new = msgspec.convert(raw, Settings)
    except msgspec.ValidationError as error:
        raise InputError("setup", str(error), "Give another value") from error
    _refuse_kerf(new)
    _refuse_narrow(new)
    if left_out:
        _refuse_panels(new, kinds)
    return new


def _thickness(said: object) -> float:
    """Return the thickness of paper in mm. Raises InputError for what no paper has."""
    if isinstance(said, int | float) and THINNEST <= said <= THICKEST:
        return float(said)
    raise InputError(
        "caliper",
        f"{said} mm is no thickness of paper",
        f"Measure ten sheets and divide: {THINNEST} to {THICKEST} mm",
    )


def _refuse_kerf(settings: Settings) -> None:
    """Raise InputError where a blade takes more than there is between two inserts."""
    if settings.kerf > settings.gutter:
        raise InputError(
            "kerf",
            f"{settings.kerf:g} mm is more than the {settings.gutter:g} mm between two inserts",
            "Give 0 for a trimmer or a knife, and what the blade takes away for a saw",
        )


def _by_kind(
    present: Mapping[str, object], kinds: Mapping[str, CaseKind], changes: Mapping[str, object]
) -> dict[str, object]:
    """Return what is set for kinds, some of it changed or taken back."""
    named = {known_kind(kinds, said) if said else "": value for said, value in changes.items()}
    return {kind: value for kind, value in {**present, **named}.items() if value}


def _refuse_narrow(settings: Settings) -> None:
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


def named(before: Settings, after: Settings) -> str:
    """Return what differs between two settings, in words: 'paper of kinds and patience'."""
    changed = [
        words for name, words in _NAMES.items() if getattr(before, name) != getattr(after, name)
    ]
    return " and ".join(filter(None, (", ".join(changed[:-1]), *changed[-1:]))) or "the setup"
