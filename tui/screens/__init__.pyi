from .backlog import BacklogScreen
from .bench import BenchScreen
from .checkpage import CheckPages
from .dialogs import Keys
from .histories import Histories
from .papers import PaperShelf
from .reading import Reading
from .rooms import Rooms
from .setup import SetupScreen
from .sheets import SheetsScreen
from .shelf import ShelfScreen
from .start import Guide, Start
from .supplies import Supplies
from .taking import Taking
from .wholework import WholeWork
from .writing import Writing

__all__ = [
    "BacklogScreen",
    "BenchScreen",
    "CheckPages",
    "Guide",
    "Histories",
    "Keys",
    "PaperShelf",
    "Reading",
    "Rooms",
    "SetupScreen",
    "SheetsScreen",
    "ShelfScreen",
    "Start",
    "Supplies",
    "Taking",
    "WholeWork",
    "Writing",
]
