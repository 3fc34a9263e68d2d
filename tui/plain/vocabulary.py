"""All words that can be typed, kind by kind."""

from __future__ import annotations

from tui.plain.around import AROUND
from tui.plain.deciding import DECIDING
from tui.plain.finding import FINDING
from tui.plain.lying import LYING
from tui.plain.records import RECORDS
from tui.plain.sheetwork import SHEETWORK
from tui.plain.word import Word

KINDS = (DECIDING, LYING, FINDING, RECORDS, SHEETWORK, AROUND)
"""In the order of the help."""

WORDS: dict[str, Word] = {name: word for kind in KINDS for name, word in kind.items()}

GAMES_TAKEN = {"fit": 1, "declare": 2}
"""Commands that are for the game at hand, or all marked, where so many words name no other."""
