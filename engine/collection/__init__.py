"""The folder on disk: one file written whole or not at all, a lock, what can be undone."""

from engine.collection.check import Fault
from engine.collection.collection import Collection
from engine.collection.opening import FILE
from engine.collection.records import Deed

__all__ = ["FILE", "Collection", "Deed", "Fault"]
