"""The folder on disk: one file written whole or not at all, a lock, what can be undone."""

from engine.collection.check import Finding
from engine.collection.collection import Collection
from engine.collection.edits import Edits
from engine.collection.files import write_out
from engine.collection.newfiles import NewFiles
from engine.collection.table import Edit

__all__ = ["Collection", "Edit", "Edits", "Finding", "NewFiles", "write_out"]
