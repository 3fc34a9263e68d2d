"""What a setting can name, where only the collection knows what there is."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from engine.model.errors import CaseError, InputError


class Of(StrEnum):
    """What a name names."""

    KIND = "case kind"
    STOCK = "stock"
    PANEL = "panel"
    COLUMN = "column"
    """Of the list."""
    GROUPS = "column of groups"
    """Of the list, and it says something of any game."""
    MARK = "column or =sign"
    """Of the list, or ``=`` and a sign of the person's own, the same on every edge."""
    FONT = "font"
    LANGUAGE = "language"


There = Mapping[Of, Mapping[str, str]]
"""What a collection has of each: its id, and a name for people; of a panel, what it shows."""

OWN_SIGN = "="
"""A mark that begins so is no column."""


def known(of: Of, said: str, there: There) -> str:
    """Return the id of what a person means by its id or name.

    Raises CaseError for a case kind that is not there, InputError for anything else.
    """
    wanted = said.strip().casefold()
    for key, name in there[of].items():
        if wanted in {key.casefold(), name.casefold()}:
            return key
    if of is Of.MARK and said.startswith(OWN_SIGN) and said.removeprefix(OWN_SIGN).strip():
        return said.strip()
    thing = {Of.MARK: Of.COLUMN, Of.GROUPS: Of.COLUMN}.get(of, of)
    listed = f"{thing.split()[-1].capitalize()}s are {', '.join(there[of])}"
    fault = CaseError if of is Of.KIND else InputError
    raise fault(said, f"no such {thing}", listed if there[of] else "The list has none")
