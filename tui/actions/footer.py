"""The footer: what can be done now, with its key."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from tui.actions import ACTIONS, EVERYWHERE


@dataclass(frozen=True, slots=True)
class FooterItem:
    """What stands in one place of the footer."""

    keys: str
    label: str
    act: str
    """The action that a click on it does."""
    enabled: bool


def footer(available: dict[str, bool]) -> tuple[tuple[FooterItem, ...], tuple[FooterItem, ...]]:
    """Return the footer's items: those of the screen, then those that work everywhere.

    ``available`` tells for each action that is bound now whether it is enabled.
    """
    own: list[FooterItem] = []
    common: list[FooterItem] = []
    bound = [act for act in ACTIONS if act.id in available]
    for _, acts in groupby(bound, key=lambda act: act.group or act.id):
        members = list(acts)
        first = members[0]
        item = FooterItem(
            keys="".join(act.shown for act in members),
            label=first.group or first.label,
            act=first.id,
            enabled=any(available[act.id] for act in members),
        )
        (common if EVERYWHERE in first.screens else own).append(item)
    return tuple(own), tuple(common)
