"""Lists of games and folders of pictures, read and matched."""

from engine.intake.lists import GameList, ListRow, read_list
from engine.intake.matching import FileMatch, match_pictures
from engine.intake.pictures import find_pictures
from engine.intake.saying import Shown
from engine.intake.search import search
from engine.intake.titles import game_id, title_key

__all__ = [
    "FileMatch",
    "GameList",
    "ListRow",
    "Shown",
    "find_pictures",
    "game_id",
    "match_pictures",
    "read_list",
    "search",
    "title_key",
]
