"""The commands about colour: groups and their colours, and ink."""

from __future__ import annotations

from argparse import Namespace

from engine import Workshop
from tui import asjson, aswords
from tui.answers import DONE, NOTHING, Answer


def colours(shop: Workshop, asked: Namespace) -> Answer:
    """Show the colours of groups, after pinning some or letting games follow."""
    report = shop.colours.pin(dict(asked.pins)) if asked.pins else shop.colours.report()
    if asked.follow is not None:
        report = shop.colours.follow(asked.follow)
    code = DONE if report.groups else NOTHING
    return Answer(aswords.colours(report), asjson.colours(report), code)


def ink(shop: Workshop, asked: Namespace) -> Answer:
    """Tell the ink of some games, or of everything that waits for a sheet or lies on one."""
    found = () if asked.games else shop.sheets.report()
    sheets = (*found.ready, *found.open, *found.pressed) if found else ()
    summary = shop.ink.report(asked.games, sheets)
    code = DONE if summary.inserts else NOTHING
    return Answer(aswords.ink(summary), asjson.ink(summary), code)
