"""What a person sets for the whole collection, checked before it is taken."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from engine.accession import known_kind
from engine.cases import CaseKind
from engine.collection import STOCKS, Settings
from engine.errors import InputError
from engine.values import Margins

NARROWEST = 30.0
"""A field narrower than this, in mm, holds no insert of any kind: the margins are a slip."""


def changed(
    settings: Settings,
    kinds: Mapping[str, CaseKind],
    *,
    stock_id: str = "",
    margins: Sequence[float] | None = None,
    **fields: object,
) -> Settings:
    """Return the settings with these changes.

    ``margins`` are four lengths in mm (left, right, top, bottom) and belong to the stock;
    ``fields`` go by their names in Settings, ``case`` by a kind's id or name. Raises
    InputError or CaseError.
    """
    stock = settings.stock
    if stock_id:
        if stock_id not in STOCKS:
            raise InputError(stock_id, "no such stock", f"Stocks are {', '.join(STOCKS)}")
        stock = STOCKS[stock_id]
    if margins is not None:
        left, right, top, bottom = margins
        stock = msgspec.structs.replace(
            stock, margins=Margins(left=left, right=right, top=top, bottom=bottom)
        )
    if fields.get("case"):
        fields["case"] = known_kind(kinds, str(fields["case"]))
    raw = {**msgspec.to_builtins(settings), **fields, "stock": msgspec.to_builtins(stock)}
    try:
        new = msgspec.convert(raw, Settings)
    except msgspec.ValidationError as error:
        raise InputError("setup", str(error), "Give another value") from error
    field = new.forme.field
    if min(field.width, field.height) < NARROWEST:
        raise InputError(
            "margins",
            f"leave a field of {field.width:.0f} × {field.height:.0f} mm on {new.stock.name}",
            "Give the margins in mm that the printer really leaves",
        )
    return new
