"""Writes the page of settings: ``python -m tui.cli.page > docs/settings.md``."""

from __future__ import annotations

import sys

from engine import SETTINGS, ByKind, Choice, Of, Settable, Settings, Takes, Usual
from tui.cli.options import option_of

HEAD = """\
# Settings

<!-- Written by `python -m tui.cli.page > docs/settings.md`; change engine/model/settings.py. -->

What is set holds for the whole collection. `spinery setup` shows all of it and changes what its
options say, all or nothing; the Setup of the terminal program has the same in a list, each changed
with Enter. There the setting under the cursor shows what it does, on a sheet, on edges as they
stand, on a title or on a whole insert of the collection, and in its dialog so does each value
before it is taken, with the figures that change. On the command line a change says those figures;
`--what-if` says them and changes nothing. What can be set for one case kind, `spinery cases KIND`
takes too. `spinery undo` takes a change back. With `--json` each stands under the name in the last
column; those of titles stand in `lettering`, those of the paper in `stock`.
"""

TITLES = """
## Titles

They hold for what is proposed from now on: a title that was accepted stays as it is.
"""

COLUMNS = """
| setting | option | what it does | it is | at first | JSON |
| --- | --- | --- | --- | --- | --- |"""


def settings_page() -> str:
    """Return ``docs/settings.md``."""
    lines = [HEAD.rstrip(), COLUMNS]
    lines += [_row(one) for one in SETTINGS.values() if one.home != "lettering"]
    lines += [TITLES.rstrip(), COLUMNS]
    lines += [_row(one) for one in SETTINGS.values() if one.home == "lettering"]
    return "\n".join(lines) + "\n"


def _row(setting: Settable) -> str:
    takes, options = setting.takes, []
    if setting.option:
        options.append(f"`--{option_of(setting)}`")
    if isinstance(takes, ByKind):
        options.append(f"`cases KIND --{setting.option}`")
    start = takes.words(setting.value(Settings()), {of: {} for of in Of})
    cells = (
        setting.title,
        ", ".join(options) or "`spinery colours`",
        setting.about,
        _may_be(takes),
        start,
        f"`{setting.key}`",
    )
    return f"| {' | '.join(cells)} |"


def _may_be(takes: Takes) -> str:
    """Return what a setting may be; each of a few with what it is for."""
    match takes:
        case Usual():
            return f"{_may_be(takes.one)}; {takes.said}: {takes.usual}"
        case ByKind():
            return f"for a case kind: {_may_be(takes.one)}"
        case Choice() if any(takes.said.values()):
            return "; ".join(takes.choices({}).values())
    return takes.may_be or takes.sign


if __name__ == "__main__":
    sys.stdout.write(settings_page())
