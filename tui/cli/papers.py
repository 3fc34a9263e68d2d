"""``spinery papers``: list the papers there are, and describe one of your own."""

from __future__ import annotations

import re
from argparse import ArgumentParser, ArgumentTypeError, Namespace

from engine import MM_PER_INCH, SETTINGS, InputError, Margins, PaperLine, figure
from tui.aloud import Line
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import number, read
from tui.cli.told import told


def size(said: str) -> tuple[float, float]:
    """Return two sides in mm; with 'in' after them they are inches."""
    found = re.fullmatch(r"\s*([\d.,]+)\s*[x×]\s*([\d.,]+)\s*(mm|in)?\s*", said)
    sides = [figure(found[side]) for side in (1, 2)] if found else []
    if found is None or None in sides:
        raise ArgumentTypeError(f"{said} is no size: write mm, as 250x353, or inches, as 8x10in")
    each = MM_PER_INCH if found[3] == "in" else 1.0
    return tuple(round((side or 0.0) * each, 3) for side in sides)  # type: ignore[return-value]


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("name", nargs="?", metavar="NAME", help="of a paper of your own")
    one.add_argument("--size", type=size, metavar="AxB", help="in mm, or inches as 8x10in")
    margins = SETTINGS["margins"].takes
    one.add_argument("--margins", type=read(margins), metavar=margins.sign, help="in mm")
    one.add_argument("--grammage", type=number, metavar="G", help="in g/m²")
    one.add_argument("--caliper", type=number, metavar="MM", help="its thickness")
    one.add_argument(
        "--grain", choices=["long", "short"], help="the side that its fibres run along"
    )
    one.add_argument("--feed", metavar="WORDS", help="how it is laid in, as 'face down'")
    one.add_argument("--forget", action="store_true", help="take it off the list")


def run(asked: Namespace) -> Answer:
    """Describe a paper, or list them all."""
    more = {name: getattr(asked, name) for name in ("grammage", "caliper", "grain", "feed")}
    if asked.name is None and (
        asked.size or asked.margins or asked.forget or any(one is not None for one in more.values())
    ):
        raise InputError("papers", "this is for one paper", "Name it: spinery papers NAME")
    with opened(asked) as shop:
        if asked.forget:
            shop.papers.forget(asked.name)
        elif asked.name is not None:
            margins = Margins(*asked.margins) if asked.margins else None
            shop.papers.add(asked.name, asked.size, margins, **more)
        lines = shop.papers.lines()
    return Answer([_words(one) for one in lines], {"papers": [told(one) for one in lines]})


def _words(one: PaperLine) -> str:
    stock = one.stock
    size = f"{stock.width:g} × {stock.height:g} mm"
    more = [f"grain {stock.grain}" if stock.grain else ""]
    more += [f"feed {stock.feed}" if stock.feed else ""]
    more += ["your own" if one.own else "", "in use" if one.used else ""]
    said = ", ".join(filter(None, more))
    return Line(
        f"{stock.id:<16}{size:<18}{stock.name:<32}{said}".rstrip(),
        ", ".join(filter(None, (f"{stock.id}: {stock.name}", size, said))),
    )


COMMAND = Command("papers", "list papers, or describe one of your own", run, add)
