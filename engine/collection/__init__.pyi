from .check import Finding
from .collection import Collection
from .edits import Edits
from .files import write_out
from .newfiles import NewFiles
from .table import Edit

__all__ = ["Collection", "Edit", "Edits", "Finding", "NewFiles", "write_out"]
