"""All words that can be typed, kind by kind."""

from __future__ import annotations

from tui.plain.around import AROUND
from tui.plain.deciding import DECIDING
from tui.plain.finding import FINDING
from tui.plain.lying import LYING
from tui.plain.records import RECORDS
from tui.plain.setting import SETTING
from tui.plain.sheetwork import SHEETWORK
from tui.plain.word import Word

KINDS = (DECIDING, LYING, FINDING, RECORDS, SHEETWORK, SETTING, AROUND)
"""In the order of the help."""

WORDS: dict[str, Word] = {name: word for kind in KINDS for name, word in kind.items()}

GAMES_TAKEN = {"fit": 1, "declare": 2}
"""Commands that are for the game at hand, or all marked, where so many words name no other."""

FOLLOWS = {
    "intake": "next brings the first games, to be decided.",
    "press": "Once a sheet is printed: sheet and its number goes through its inserts.",
    "settle": "cuts and the number of the sheet tells how to cut it, fitting how to fit it.",
}
"""What is said after a command was done: the word that goes on from there."""

ALONE = {"restore"}
"""Commands that open the collection by themselves, so that it is closed for them."""
