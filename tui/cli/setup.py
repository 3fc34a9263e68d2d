"""``spinery setup``: show or change what is set for the collection."""

from __future__ import annotations

from argparse import Namespace

from engine import SETTINGS, Name, SettingLine, Settings, Usual
from tui.aloud import Line
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_settings, chosen
from tui.cli.told import Object, told

add = add_settings


def run(asked: Namespace) -> Answer:
    """Change what was given, all or nothing; then show all that is set."""
    fields = chosen(asked)
    with opened(asked) as shop:
        if fields:
            shop.setup.change(**fields)
        settings = shop.setup.settings()
        lines = [setting_line(line, settings) for line in shop.setup.lines()]
        case = fields.get("case")
        cautions = shop.kinds.kind(case).cautions if case else ()
        data = _data(settings, shop.setup.font_name())
    return Answer([*lines, *cautions], data)


def setting_line(line: SettingLine, settings: Settings) -> Line:
    """Return what is set, and how a name in it would be typed."""
    takes, value = line.setting.takes, line.setting.value(settings)
    if isinstance(takes, Usual) and value != takes.value:
        takes = takes.one
    typed = takes.typed(value) if isinstance(takes, Name) else line.words
    also = f" ({typed})" if typed != line.words else ""
    title, said = line.setting.title, f"{line.words}{also}"
    return Line(f"{title:<24}{said}", f"{title}: {said}")


def _data(settings: Settings, font: str) -> Object:
    """Return every setting under its name with its unit; those of the stock stand in it."""
    data: Object = {"lettering": {"font": font}}
    for setting in SETTINGS.values():
        where = data["lettering"] if setting.home == "lettering" else data
        if setting.home != "stock" and setting.id != "font":
            where[setting.key] = told(setting.value(settings))
    return data


COMMAND = Command(
    "setup", "show or change paper, cutting rule, storage and lettering", run, add_settings
)
