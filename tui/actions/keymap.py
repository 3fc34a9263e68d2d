"""Keys that a person chose in place of those declared: read and checked."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping

from textual.keys import KEY_NAME_REPLACEMENTS, Keys

from engine import InputError
from tui.act import ART, DIALOG, EVERYWHERE, KEY_NAMES, PLACES, Act, shown_key
from tui.actions import BY_ID, acts_of

TAKEN = ("up", "down", "pageup", "pagedown", "home", "end")
"""Keys that move through every list."""

_ARROWS = {"left", "right"}
_NAMES = {key.value for key in Keys}
_SIGNS = {shown: name for name, shown in KEY_NAMES.items()}
_SHARED = {"enter", "escape"}
"""Keys that each screen gives a meaning of its own; escape stops what takes long before all else.
"""


def read_keymap(chosen: Mapping[str, object], where: str) -> dict[str, str]:
    """Return the keys that were chosen, as Textual names them, by the ids of actions.

    Raises InputError, which names ``where`` they were chosen, for an action or a key that is not
    there, and for two actions of one screen that would share a key.
    """
    keymap = {name: _key(where, name, key) for name, key in chosen.items()}
    for place, one, other in _clashes(keymap):
        key = shown_key(keymap.get(one.id, one.key))
        chosen, left = (one, other) if one.id in keymap else (other, one)
        raise InputError(
            where,
            f"{key} would be both {chosen.id} and {left.id} {place}",
            f"Give {chosen.id} another key, or give {left.id} one too",
        )
    return keymap


def named_key(said: str) -> str:
    """Return a key as Textual names it: ``^p`` as ``ctrl+p``, ``+`` as ``plus``, names as they are.

    The other way round than ``shown_key``.
    """
    said = said.strip()
    if said.startswith("^") and len(said) > 1:
        return f"ctrl+{named_key(said[1:]).lower()}"
    if said in _SIGNS:
        return _SIGNS[said]
    if len(said) == 1 and not said.isalnum():
        name = unicodedata.name(said, "").lower().replace("-", "_").replace(" ", "_")
        return KEY_NAME_REPLACEMENTS.get(name, name)
    return said if len(said) == 1 else said.lower()


def _key(where: str, name: str, key: object) -> str:
    act = BY_ID.get(name)
    if act is None:
        raise InputError(where, f"there is no action {name}", "spinery keys lists them")
    if not act.key:
        raise InputError(
            where, f"{name} has no key: a list leads to it, and the palette", "Leave it out"
        )
    named = named_key(key) if isinstance(key, str) else ""
    base = named.rpartition("+")[2]
    if not (len(base) == 1 or base in _NAMES or len(shown_key(base)) == 1):
        what = f"{name} = {key!r}: there is no such key"
        raise InputError(where, what, "Write a sign, or a name such as f2, space, ctrl+y")
    if named in TAKEN or (named == BY_ID["palette"].key and name != "palette"):
        raise InputError(where, f"{shown_key(named)} cannot be {name}", "Give it another key")
    types = named == "space" or (len(shown_key(named)) == 1 and named not in _ARROWS)
    if types and (act.always or DIALOG in act.screens):
        what = f"{shown_key(named)} cannot be {name}: it types a sign, where text is typed"
        raise InputError(where, what, "Give it a key such as f2 or ctrl+y")
    return named


def _clashes(keymap: Mapping[str, str]) -> Iterator[tuple[str, Act, Act]]:
    """Yield the place, and two actions that would share a key there, where one was chosen."""
    everywhere = acts_of(EVERYWHERE)
    places = [(f"on {name}", (*acts_of(place), *everywhere)) for place, name in PLACES.items()]
    for place, acts in (*places, ("in the art dialog", (*acts_of(ART), *acts_of(DIALOG)))):
        seen: dict[str, Act] = {}
        for act in dict.fromkeys(acts):
            key = keymap.get(act.id, act.key)
            if not key:
                continue
            other = seen.setdefault(key, act)
            declared = key in _SHARED and act.key == other.key == key
            if other is not act and {act.id, other.id} & keymap.keys() and not declared:
                yield place, other, act
