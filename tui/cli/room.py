"""``spinery room``: the shelves, drawers and boxes, and what goes where."""

from __future__ import annotations

import re
from argparse import ArgumentParser, ArgumentTypeError, Namespace

from engine import POSES, InputError, figure
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import number
from tui.cli.told import told
from tui.roomwords import room_lines


def sizes(said: str) -> tuple[float, float, float]:
    """Return width, height and depth in mm."""
    found = [figure(part) for part in re.split(r"[x×]", said)]
    if len(found) != 3 or None in found:
        raise ArgumentTypeError(f"{said}: write width, height and depth in mm, as 800x220x180")
    width, height, depth = (side or 0.0 for side in found)
    return width, height, depth


def case_size(said: str) -> tuple[str, tuple[float, float, float] | None]:
    """Return a case kind and the size of a closed case of it; None for 'usual'."""
    kind, parted, size = said.partition("=")
    if not parted:
        raise ArgumentTypeError(f"{said}: write the case kind and its size, as snap-shell=66x74x12")
    return kind, None if size == "usual" else sizes(size)


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("name", nargs="?", metavar="NAME", help="of a shelf, drawer or box")
    one.add_argument("--size", type=sizes, metavar="WxHxD", help="its inside in mm")
    one.add_argument("--stored", choices=POSES, help="how cases stand in it")
    one.add_argument(
        "--kinds", nargs="*", metavar="KIND", help="that it is for; none: all that fit"
    )
    one.add_argument(
        "--growth", type=number, metavar="PERCENT", help="left empty at first; usual: 10"
    )
    one.add_argument("--forget", action="store_true", help="take it off the list")
    one.add_argument(
        "--case",
        type=case_size,
        metavar="KIND=WxHxD",
        help="how large a closed case is over all; KIND=usual forgets it",
    )
    one.add_argument("--keep", action="store_true", help="settle what goes where")
    one.add_argument("--afresh", action="store_true", help="put up all games anew")


def run(asked: Namespace) -> Answer:
    """Describe a container, settle what goes where, or tell it."""
    described = {
        "pose": asked.stored,
        "kinds": None if asked.kinds is None else tuple(asked.kinds),
        "growth": None if asked.growth is None else asked.growth / 100,
    }
    given = asked.size or any(value is not None for value in described.values())
    if asked.name is None and (given or asked.forget):
        raise InputError("room", "this is for one container", "Name it: spinery room NAME")
    with opened(asked) as shop, shop.change():
        if asked.case is not None:
            shop.room.measure_case(*asked.case)
        if asked.forget:
            shop.room.forget(asked.name)
        elif asked.name is not None:
            shop.room.add(asked.name, asked.size, **described)
        tell = shop.room.keep if asked.keep else shop.room.report
        report = tell(afresh=asked.afresh)
    code = DONE if report.containers or asked.forget or asked.case else NOTHING
    return Answer(room_lines(report), told(report), code)


COMMAND = Command("room", "describe shelves, drawers and boxes; tell what goes where", run, add)
