"""A word that can be typed, and words of one kind together."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from tui.actions import BY_ID

if TYPE_CHECKING:
    from tui.plain.desk import Desk

Do = Callable[["Desk", str], None]
"""Does what a word is for, given what was typed behind it."""


class Word(NamedTuple):
    """What can be typed."""

    name: str
    takes: str
    """What is typed behind it; in brackets what may be left out."""
    do: Do
    acts: tuple[str, ...]
    """The actions of the screens that it does."""
    many: bool
    """It can be done to all marked games."""
    about: str
    """What it does, in a sentence or two."""

    @property
    def shown(self) -> str:
        """The word with what it takes: 'crop left or right, and perhaps PERCENT'."""
        takes = re.sub(r" ?\[(.+)\]", r", and perhaps \1", self.takes).replace("|", " or ")
        return f"{self.name} {takes}".rstrip().replace(" ,", ",")


class Words(dict[str, Word]):
    """Words of one kind, by name."""

    def __init__(self, title: str) -> None:
        """Begin a kind of words."""
        super().__init__()
        self.title = title

    def word(
        self, name: str, takes: str = "", *, acts: str = "", many: bool = False
    ) -> Callable[[Do], Do]:
        """Let a function be what a word does; its docstring says that in the help.

        ``acts`` names the actions of the screens that it does, parted by blanks.
        """

        def add(do: Do) -> Do:
            about = " ".join((do.__doc__ or "").split())
            self[name] = Word(name, takes, do, tuple(acts.split()), many, about)
            return do

        return add

    def act(self, name: str, act: str, do: Do, *, many: bool = False) -> None:
        """Let a word do one action of the screens, which says in the help what it does."""
        self[name] = Word(name, "", do, (act,), many, BY_ID[act].help)
