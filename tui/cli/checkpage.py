"""``spinery check-page``: measure what a printer does to a page, and undo it from then on."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, ArgumentTypeError, Namespace

from engine import (
    CHECKED,
    CHECKED_ON_BACK,
    CheckFigures,
    CheckReport,
    InputError,
    Workshop,
    check_option,
    figure,
)
from tui.aloud import named
from tui.cli.answers import Answer, Command
from tui.cli.asking import ask_for_figure
from tui.cli.opening import opened
from tui.cli.options import add_out
from tui.cli.told import told
from tui.terminal import is_terminal

REQUIRED = tuple(name for name in CHECKED if name not in CHECKED_ON_BACK)


def length(said: str) -> float:
    """Return a length in mm."""
    value = figure(said)
    if value is None:
        raise ArgumentTypeError(f"{said} is no length: write mm, as 186.5")
    return value


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("--stock", default="", metavar="ID", help="of this paper; usual: the one set")
    one.add_argument("--printer", metavar="NAME", help="of this printer; usual: the one set")
    one.add_argument("--duplex", action="store_true", help="with a back, to see how it meets it")
    one.add_argument(
        "--corrected", action="store_true", help="write it corrected, to see that all is true now"
    )
    add_out(one, "FILE.pdf", "where to write it")
    one.add_argument("--measured", action="store_true", help="ask for what was measured")
    one.add_argument("--forget", action="store_true", help="undo nothing of this printer any more")
    one.add_argument("--anyway", action="store_true", help="keep figures that are doubted")
    group = one.add_argument_group("what was measured on the page, in mm")
    for name, said in CHECKED.items():
        group.add_argument(check_option(name), type=length, metavar="MM", help=said)


def run(asked: Namespace) -> Answer:
    """Write the check page, or keep what was measured on one."""
    given = {name: value for name in CHECKED if (value := getattr(asked, name)) is not None}
    where = asked.stock, asked.printer
    with opened(asked) as shop:
        if asked.forget:
            report = shop.printers.forget(*where)
            words = [f"Nothing is undone any more on {report.stock}."]
        elif asked.measured or given:
            figures = _figures(shop, asked, dict(given))
            doubted = shop.printers.doubts(figures, asked.stock)
            # What was asked for at the terminal was doubted there, and kept.
            anyway = asked.anyway or not (doubted.keys() & given.keys() or not asked.measured)
            report = shop.printers.measured(figures, *where, anyway=anyway)
            words = _kept(report, shop.setup.settings().printer)
        else:
            report = shop.printers.check_page(
                *where,
                asked.out,
                duplex=asked.duplex,
                corrected=asked.corrected,
                replace=asked.replace,
            )
            words = _written(report, asked)
    return Answer(words, told(report))


def _figures(shop: Workshop, asked: Namespace, given: dict[str, float]) -> CheckFigures:
    """Return what was measured; at a terminal, what was not given is asked for."""
    back = (asked.measured and asked.duplex) or given.keys() & set(CHECKED_ON_BACK)
    lacking = [name for name in (CHECKED if back else REQUIRED) if name not in given]
    if lacking and not (asked.measured and is_terminal(sys.stdin)):
        raise InputError(
            "check-page",
            f"lacks {', '.join(map(check_option, lacking))}",
            "Give all that was measured, or type spinery check-page --measured at a terminal",
        )
    wanted = shop.printers.report(asked.stock, asked.printer).true
    for name in lacking:
        true = getattr(wanted, name) or 0.0

        def doubt(value: float, name: str = name) -> str:
            whole = {one: getattr(wanted, one) for one in REQUIRED} | given | {name: value}
            return shop.printers.doubts(CheckFigures(**whole), asked.stock).get(name, "")

        given[name] = ask_for_figure(f"{CHECKED[name]} ({true:.1f}): ", doubt)
    return CheckFigures(**given)


def _written(report: CheckReport, asked: Namespace) -> list[str]:
    if asked.corrected:
        return [
            f"Wrote {report.file}.",
            "Print it at 100 % and measure: every length is to be as it says on the page.",
        ]
    lines: list[str] = [
        f"Wrote {report.file}.",
        "Print it at 100 % on that paper, as sheets are printed, and measure with a steel rule:",
    ]
    for name, said in CHECKED.items():
        if asked.duplex or name not in CHECKED_ON_BACK:
            true = getattr(report.true, name)
            words = said + (f": {true:.1f}" if true else "")
            lines.append(named(check_option(name), 14, words, "  "))
    asks = "spinery check-page --measured" + (" --duplex" if asked.duplex else "")
    return [*lines, f"Then type what you found: {asks} asks for it."]


def _kept(report: CheckReport, in_use: str) -> list[str]:
    if report.calibration is None:
        return []
    named = f"{report.printer} on {report.stock}" if report.printer else report.stock
    if report.printer == in_use:
        then = "It is undone on every page from now on; sheets pressed before are as they were."
    else:
        then = f"It is undone once sheets go there: spinery setup --printer '{report.printer}'"
    seen = "See that all is true now: spinery check-page --corrected"
    return [f"{named}: {report.calibration.words}.", then, seen]


COMMAND = Command("check-page", "measure what the printer does to a page, and undo it", run, add)
