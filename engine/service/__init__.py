"""The use cases: one method for each thing a person does with a collection.

A workshop holds one collection open. Every method may be called from any thread; one at a
time gets in. What a method changes is on the disk when it returns, as one deed that
``undo`` takes back.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from engine import cases
from engine.collection import Collection
from engine.service.art import Arts
from engine.service.batch import Batch
from engine.service.colours import GroupColours
from engine.service.decisions import ALL
from engine.service.ink import InkUse
from engine.service.kinds import Kinds, Measured
from engine.service.listing import Listing
from engine.service.proofs import Proofs
from engine.service.session import utc_now
from engine.service.setup import Setup
from engine.service.sheets import Sheets
from engine.service.titles import Titles

__all__ = ["ALL", "Measured", "Workshop", "open_workshop"]


class Workshop(Listing, Arts, GroupColours, InkUse, Batch, Sheets, Kinds, Setup, Titles, Proofs):
    """A collection with the tools to work on it; each base is one part of the work."""


def open_workshop(folder: Path, now: Callable[[], datetime] = utc_now) -> Workshop:
    """Open the collection in a folder, made on first use.

    It is read-only when another program holds it. Raises CollectionError or CaseError.
    """
    collection = Collection.open(folder, now=now)
    try:
        return Workshop(collection, cases.load_kinds(folder / "cases"), now)
    except BaseException:
        collection.close()
        raise
