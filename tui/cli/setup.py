"""``spinery setup``: show or change what is set for the collection."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Mapping, Sequence
from contextlib import suppress
from typing import Any

from engine import (
    SETTINGS,
    Effect,
    InputError,
    Name,
    SettingLine,
    Settings,
    SpineryError,
    Usual,
    Workshop,
)
from tui.aloud import Line
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_settings, chosen
from tui.cli.told import Object, told
from tui.effectwords import effect_lines

SHOWN = ("setting", "shows", "kind", "figures", "game", "stands", "set_as")
"""What of an effect JSON tells."""


def add(one: ArgumentParser) -> None:
    """Add the settings, and the wish to change none."""
    add_settings(one)
    one.add_argument(
        "--what-if", action="store_true", help="say what the change would do, and change nothing"
    )


def run(asked: Namespace) -> Answer:
    """Change what was given, all or nothing; then show all that is set, and what the change did.

    Or say what it would do.
    """
    fields = chosen(asked)
    if asked.what_if and not fields:
        raise InputError("--what-if", "names no change", "Give the settings to try with it")
    with opened(asked) as shop:
        if asked.what_if:
            effects = _effects(shop, fields)
            return Answer(_did(effects), {"effects": [told(one, *SHOWN) for one in effects]})
        did: list[str] = []
        if fields and not asked.json:  # which tells what is set, not what came of it
            with suppress(SpineryError):  # the change itself tells what is wrong with it
                did = _did(_effects(shop, fields))
        if fields:
            shop.setup.change(**fields)
        settings = shop.setup.settings()
        lines = [setting_line(line, settings) for line in shop.setup.lines()]
        case = fields.get("case")
        cautions = shop.kinds.kind(case).cautions if case else ()
        data = _data(settings, shop.setup.font_name())
    return Answer([*lines, *did, *cautions], data)


def _effects(shop: Workshop, fields: Mapping[str, Any]) -> list[Effect]:
    """Return what changes do that are made together, in the order in which settings are listed."""
    return [shop.effects.effect(name, fields) for name in SETTINGS if name in fields]


def _did(effects: Sequence[Effect]) -> list[str]:
    return list(dict.fromkeys(line for one in effects for line in effect_lines(one)))


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


COMMAND = Command("setup", "show or change paper, cutting rule, storage and lettering", run, add)
