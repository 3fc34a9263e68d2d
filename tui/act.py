"""What an action of the terminal program is, and the screens it can belong to."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass

BENCH = "bench"
BACKLOG = "backlog"
SHEETS = "sheets"
SETUP = "setup"
SHELF = "shelf"
DIALOG = "dialog"
ART = "art"
"""The dialog in which the art of one insert is worked on."""
EVERYWHERE = "everywhere"

PLACES = {BENCH: "Bench", BACKLOG: "Backlog", SHEETS: "Sheets", SETUP: "Setup", SHELF: "Shelf"}
"""The screens a person goes to, by id, in the order of their keys."""


OWN_KEYS: dict[str, str] = {}
"""The keys that the person chose in place of those declared, by the ids of actions.

They are put in force once, before the program opens; ``tui.actions.keymap`` reads them.
"""


def put_in_force(keymap: Mapping[str, str]) -> None:
    """Show these keys from now on wherever keys are shown."""
    OWN_KEYS.clear()
    OWN_KEYS.update(keymap)


@dataclass(frozen=True, slots=True)
class Act:
    """One thing a person can do."""

    id: str
    """Its method is ``action_<id>`` on the screen, or on the app when it works everywhere."""
    key: str
    """As Textual names keys; empty where a list leads to it, and the palette."""
    label: str
    """A short verb, for the footer and the palette."""
    help: str
    """One sentence, for the palette, the help screen and the page of keys."""
    screens: tuple[str, ...] = (EVERYWHERE,)
    changes: bool = False
    """It changes the collection, so it is off while the collection is read-only."""
    group: str = ""
    """Neighbours of one group share a place in the footer under this label."""
    always: bool = False
    """It works while text is being typed, too."""
    leads: tuple[str, ...] = ()
    """The screens whose footer names it before others, which take what room it leaves."""

    @property
    def name(self) -> str:
        """The action as a screen runs it."""
        return f"app.{self.id}" if EVERYWHERE in self.screens else self.id

    @property
    def shown(self) -> str:
        """The key as a person reads it: their own, where they chose one."""
        return shown_key(OWN_KEYS.get(self.id, self.key))


KEY_NAMES = {
    "question_mark": "?",
    "slash": "/",
    "plus": "+",
    "number_sign": "#",
    "percent_sign": "%",
    "asterisk": "*",
    "minus": "-",
    "left": "←",
    "right": "→",
    "left_square_bracket": "[",
    "right_square_bracket": "]",
    "enter": "Enter",
    "tab": "Tab",
    "ampersand": "&",
    "full_stop": ".",
    "escape": "Esc",
    "exclamation_mark": "!",
    "less_than_sign": "<",
    "greater_than_sign": ">",
    "space": "Space",
}


def shown_key(key: str) -> str:
    """Return a key as it is printed: ``ctrl+p`` as ``^p``, ``plus`` as ``+``."""
    *modifiers, name = key.split("+")
    return "".join("^" for m in modifiers if m == "ctrl") + (KEY_NAMES.get(name) or _sign(name))


def _sign(name: str) -> str:
    """Return the sign that a key types which is called as Unicode calls it, else its name."""
    try:
        sign = unicodedata.lookup(name.replace("_", " "))
    except KeyError:
        return name
    return sign if sign.isprintable() else name
