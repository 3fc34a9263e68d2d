"""The footer: the keys that matter now, on one line. The help screen and the palette have all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from rich.cells import cell_len

from tui.actions import ACTIONS, BY_ID, EVERYWHERE, Act

MOST = 6
"""So many keys of a screen are named at most."""
HELP = "help"
"""The action that lists all keys, which is always named."""
BETWEEN = "  "


@dataclass(frozen=True, slots=True)
class FooterItem:
    """What stands in one place of the footer."""

    keys: str
    label: str
    act: str
    """The action that a click on it does."""

    @property
    def width(self) -> int:
        """In cells."""
        return cell_len(self.keys) + 1 + cell_len(self.label)


def footer(available: Mapping[str, bool], place: str) -> tuple[FooterItem, ...]:
    """Return what a screen's footer could name, what matters most first.

    ``available`` tells for each action that is bound now whether it is enabled. First comes the
    key that lists all, then what is marked to lead on this screen or everywhere, then what else
    the screen has; of that no more than ``MOST`` in all.
    """
    marked: list[FooterItem] = []
    rest: list[FooterItem] = []
    common: list[FooterItem] = []
    bound = [act for act in ACTIONS if available.get(act.id)]
    for _, acts in groupby(bound, key=lambda act: act.group or act.id):
        members = list(acts)
        if EVERYWHERE in members[0].screens:
            common += [_item(members)] if EVERYWHERE in members[0].leads else []
        else:
            (marked if place in members[0].leads else rest).append(_item(members))
    urgent = [one for one in common if one.act in {HELP, "stop"}]
    own = [*marked, *rest][:MOST]
    fills = own[len(marked) :]
    return (*urgent, *own[: len(marked)], *(c for c in common if c not in urgent), *fills)


def _item(acts: Sequence[Act]) -> FooterItem:
    first = acts[0]
    keys = "".join(act.shown for act in acts)
    return FooterItem(keys, first.group or first.label, first.id)


def one_line(items: Iterable[FooterItem], width: int) -> tuple[FooterItem, ...]:
    """Return as many of the first items as go on a line of ``width`` cells, as they are declared.

    What stops work stands first, what works everywhere last.
    """
    chosen: list[FooterItem] = []
    room = width
    for item in items:
        if item.width <= room:
            chosen.append(item)
            room -= item.width + len(BETWEEN)
    return tuple(sorted(chosen, key=lambda item: _place(item.act)))


def _place(act: str) -> tuple[bool, bool, int]:
    declared = BY_ID[act]
    return act != "stop", EVERYWHERE in declared.screens, ACTIONS.index(declared)
