"""Lists of games and folders of pictures, read and matched."""

from engine.intake.browsing import PathEntry, PathLook, Sought, look_at_path
from engine.intake.lists import (
    NO_GAMES,
    PASTED,
    GameList,
    ListRow,
    read_list,
    read_titles,
    sheets_of,
)
from engine.intake.matching import FileMatch, match_pictures
from engine.intake.pictures import find_pictures
from engine.intake.saying import Shown
from engine.intake.search import search
from engine.intake.titles import game_id, title_key

__all__ = [
    "NO_GAMES",
    "PASTED",
    "FileMatch",
    "GameList",
    "ListRow",
    "PathEntry",
    "PathLook",
    "Shown",
    "Sought",
    "find_pictures",
    "game_id",
    "look_at_path",
    "match_pictures",
    "read_list",
    "read_titles",
    "search",
    "sheets_of",
    "title_key",
]
