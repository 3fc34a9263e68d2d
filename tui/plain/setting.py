"""Words to set what holds for the whole collection."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine import SETTINGS, Flag, InputError, Settable
from tui.cli.options import add_settings, chosen, option_of
from tui.cli.setup import setting_line
from tui.plain.commands import PlainParser
from tui.plain.word import Words

if TYPE_CHECKING:
    from tui.plain.desk import Desk

SETTING = Words("To set up")

word = SETTING.word

NO = {"no", "off", "false"}


@word("set", "SETTING [VALUE]", acts="change_setting setup")
def change(desk: Desk, rest: str) -> None:
    """Set something by its title, such as set paper a5-card; without a value, tell what it does.

    setup tells all that is set.
    """
    setting, value = _meant(rest)
    if value:
        asked = _parsed(setting, value.split() if setting.id != "font" else [value])
        desk.shop.setup.change(**asked)
    else:
        desk.say(setting.about)
        choices = setting.takes.choices(desk.shop.setup.there())
        listed = (
            what if what.startswith(typed) else f"{typed}: {what}"
            for one, what in choices.items()
            for typed in [setting.takes.typed(one)]
        )
        may_be = setting.takes.may_be
        desk.say(listed if choices else f"It is {may_be}." if may_be else "")
    for line in desk.shop.setup.lines():
        if line.setting is setting:
            desk.say([setting_line(line, desk.shop.setup.settings())])


def _meant(said: str) -> tuple[Settable, str]:
    """Return the setting that a line begins with, and the rest. Raises InputError."""
    titles = {one.title.casefold(): one for one in SETTINGS.values() if one.option}
    found = [title for title in titles if f"{said.casefold()} ".startswith(f"{title} ")]
    if not found:
        raise InputError(said or "set", "begins with no setting", "setup tells their titles")
    title = max(found, key=len)
    return titles[title], said[len(title) :].strip()


def _parsed(setting: Settable, values: list[str]) -> dict[str, object]:
    """Return what was typed as the settings take it. Raises InputError."""
    parser = PlainParser(prog="set", add_help=False)
    add_settings(parser)
    option = option_of(setting)
    if isinstance(setting.takes, Flag):
        given = [f"--{'no-' if values[0].casefold() in NO else ''}{option}"]
    else:
        given = [f"--{option}", *values]
    return chosen(parser.parse_args(given))
