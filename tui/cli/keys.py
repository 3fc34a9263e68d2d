"""``spinery keys``: a card of every key, with those that the person chose."""

from __future__ import annotations

from argparse import Namespace

from tui.act import OWN_KEYS, put_in_force
from tui.actions import sections
from tui.cli.answers import Answer, Command
from tui.cli.keyfile import key_file, own_keys


def run(_: Namespace) -> Answer:
    """Show it."""
    put_in_force(own_keys())
    lines: list[str] = []
    keys: list[dict[str, object]] = []
    for place, acts in sections():
        bound = [one for one in acts if one.key]
        lines += [place, *(f"  {one.shown:<6} {one.id:<16} {one.help}" for one in bound), ""]
        keys += [
            {
                "place": place,
                "action": one.id,
                "key": one.shown,
                "own": one.id in OWN_KEYS,
                "label": one.label,
                "help": one.help,
            }
            for one in bound
        ]
    file = key_file()
    lines.append(f'Keys of your own: lines such as accept = "f2" in {file}')
    return Answer(lines, {"file": str(file), "keys": keys})


COMMAND = Command("keys", "show every key, and where to choose others", run)
