"""What commands take: games, numbers, and the options that follow from the settings."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, TypeVar

from engine import (
    SETTINGS,
    ByKind,
    Figure,
    Flag,
    FontChoice,
    InputError,
    KindsThat,
    Phrases,
    Settable,
    Several,
    Takes,
    Usual,
    figure,
)

T = TypeVar("T")

USUAL = "usual"
"""The word that leaves something to what is usual."""


def add_games(one: argparse.ArgumentParser, count: str) -> None:
    """Add games, as many as argparse's ``count`` says."""
    one.add_argument("games", nargs=count, metavar="GAME", help="a game's id or title")


def add_out(one: argparse.ArgumentParser, sign: str, about: str, *, required: bool = False) -> None:
    """Add where to write a file, called ``sign``."""
    one.add_argument("--out", type=Path, metavar=sign, required=required, help=about)
    one.add_argument(
        "--replace", action="store_true", help="write over a file that Spinery did not make"
    )


def numbers(text: str) -> tuple[int, ...]:
    """Return the whole numbers of a list parted by commas."""
    try:
        return tuple(int(part) for part in text.split(",") if part.strip())
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"{text} is no list of numbers: write them as 2,5"
        ) from None


def whole(text: str) -> int:
    """Return a whole number."""
    try:
        return int(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text} is no whole number") from None


def number(text: str) -> float:
    """Return a number, written with a point or a comma."""
    value = figure(text)
    if value is None:
        raise argparse.ArgumentTypeError(f"{text} is no number")
    return value


def each_once(pairs: Iterable[tuple[str, T]]) -> dict[str, T]:
    """Return what was given for each name. Raises InputError for a name that was given twice."""
    found: dict[str, T] = {}
    for name, value in pairs:
        if name in found:
            raise InputError(name, "is given twice", "Give it once")
        found[name] = value
    return found


# --- the settings -----------------------------------------------------------------------


def add_settings(one: argparse.ArgumentParser) -> None:
    """Add an option for each setting of the collection."""
    titles = one.add_argument_group("titles", "for what is proposed from now on")
    for setting in SETTINGS.values():
        if setting.option:
            group = titles if setting.home == "lettering" else one
            _add(group, option_of(setting), setting, setting.takes)
    titles.add_argument(
        "--face", type=whole, metavar="N", help="which font of the file --font names"
    )


def chosen(asked: argparse.Namespace) -> dict[str, Any]:
    """Return the settings that were given, by their names."""
    given = {name: value for name, value in vars(asked).items() if name in SETTINGS}
    for name, value in given.items():
        takes = SETTINGS[name].takes
        if isinstance(takes, ByKind) and not isinstance(takes, KindsThat):
            given[name] = {"": value} if takes.every else each_once(value)
        elif isinstance(takes, Phrases):
            given[name] = each_once(value)
    if given.get("font"):
        given["font"] = FontChoice(Path(given["font"]), asked.face or 0)
    elif asked.face is not None:
        raise InputError("--face", "goes with a font file", "Give it with --font")
    return given


def add_settings_of_kind(one: argparse.ArgumentParser) -> None:
    """Add an option for each setting that one case kind can have of its own."""
    for setting in SETTINGS.values():
        if isinstance(setting.takes, ByKind):
            _add(one, setting.option, setting, setting.takes.one)


def chosen_of_kind(asked: argparse.Namespace) -> dict[str, Any]:
    """Return the settings that were given for one case kind, by their names."""
    return {name: value for name, value in vars(asked).items() if name in SETTINGS}


def option_of(setting: Settable) -> str:
    """Return what an option of ``spinery setup`` is called."""
    takes = setting.takes
    return (
        f"{setting.option}-of" if isinstance(takes, ByKind) and not takes.every else setting.option
    )


def _add(one: argparse._ActionsContainer, option: str, setting: Settable, takes: Takes) -> None:
    more: dict[str, Any] = {"metavar": takes.sign, "type": read(takes)}
    match takes:
        case KindsThat():
            more = {"metavar": "KIND", "nargs": "*"}
        case ByKind(one=Several(), every=True) | Several():
            one_of = takes.one if isinstance(takes, ByKind) else takes
            more = {"metavar": one_of.sign, "nargs": "*"}
        case ByKind() | Phrases():
            more["nargs"] = "+"
        case Flag():
            more = {"action": argparse.BooleanOptionalAction}
    bounds = f" ({takes.may_be})" if isinstance(takes, Figure) else ""
    back = f"; {takes.said}: {takes.usual}" if isinstance(takes, Usual) else ""
    one.add_argument(
        f"--{option}",
        dest=setting.id,
        default=argparse.SUPPRESS,
        help=f"{setting.about.removesuffix('.')}{bounds}{back}",
        **more,
    )


def read(takes: Takes) -> Callable[[str], object]:
    """Return what reads an option's value as a setting takes it."""

    def parse(said: str) -> object:
        try:
            return takes.parse(said)
        except ValueError as error:
            raise argparse.ArgumentTypeError(str(error)) from error

    return parse
