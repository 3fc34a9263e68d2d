"""The folder on disk: one file written whole or not at all, a lock, what can be undone."""

from engine.collection.check import Fault
from engine.collection.collection import Collection
from engine.collection.opening import FILE
from engine.collection.records import Deed
from engine.collection.settings import Lettering, Settings
from engine.collection.stocks import STOCKS

__all__ = ["FILE", "STOCKS", "Collection", "Deed", "Fault", "Lettering", "Settings"]
