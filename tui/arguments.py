"""What the command line understands."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from engine import InkMode
from tui.sheets import add_offcuts, add_press, add_sheets, numbers
from tui.titles import add_lettering, add_titles

OPEN = """\
spinery [FOLDER]        open the collection in FOLDER (made on first use)
spinery COMMAND ...     do one thing and leave; spinery COMMAND --help tells more

Without FOLDER: the current folder if it holds a collection, else the one last opened.
"""


INK_MODES = [mode.value for mode in InkMode]


def margins(text: str) -> tuple[float, ...]:
    """Return four margins in mm: left, right, top, bottom."""
    try:
        sides = tuple(float(part) for part in text.split(","))
    except ValueError:
        sides = ()
    if len(sides) != 4 or any(side < 0 for side in sides):
        raise argparse.ArgumentTypeError(
            f"{text} is not four margins: write left,right,top,bottom in mm, as 6,6,6,12"
        )
    return sides


def parser() -> argparse.ArgumentParser:
    """Return the parser of every command."""
    whole = argparse.ArgumentParser(
        prog="spinery",
        description="Paper inserts for the cases of loose game cartridges.",
        epilog=OPEN,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = whole.add_subparsers(dest="command", metavar="COMMAND", required=True)
    common = argparse.ArgumentParser(add_help=False)
    common.add_argument("--collection", type=Path, metavar="DIR", help="the collection's folder")
    common.add_argument("--json", action="store_true", help="print one JSON object")
    for name, (summary, add) in COMMANDS.items():
        add(commands.add_parser(name, help=summary, description=summary, parents=[common]))
    return whole


def _demo(one: argparse.ArgumentParser) -> None:
    one.add_argument("folder", nargs="?", type=Path, default=Path("harbour-street"))
    one.add_argument("--no-open", action="store_true", help="stop when it is made")


def _intake(one: argparse.ArgumentParser) -> None:
    one.add_argument("list", type=Path, help="CSV, TSV or plain text")
    one.add_argument("--pictures", type=Path, metavar="DIR", help="the folder of pictures")
    one.add_argument("--case", default="", metavar="KIND", help="the case kind of the games")
    one.add_argument(
        "--skip-broken", action="store_true", help="go on without pictures that cannot be opened"
    )


def _games(count: str) -> Callable[[argparse.ArgumentParser], None]:
    def add(one: argparse.ArgumentParser) -> None:
        one.add_argument("games", nargs=count, metavar="GAME", help="a game's id or title")

    return add


def _propose(one: argparse.ArgumentParser) -> None:
    _games("*")(one)
    one.add_argument("--accept", action="store_true", help="accept what is proposed")
    one.add_argument("--sure", action="store_true", help="only where nothing is in doubt")
    _without(one, "panels the inserts of these games go without; none: all are back")
    one.add_argument(
        "--ink", choices=[*INK_MODES, "usual"], help="how these games are printed; usual: as set"
    )


def _batch(one: argparse.ArgumentParser) -> None:
    _games("*")(one)
    one.add_argument(
        "--next",
        action="store_true",
        help="bring the games to finish next so that sheets fill, of GAME... if any are named",
    )


def stock_of(text: str) -> tuple[str, str | None]:
    """Return a case kind and the id of its stock; None takes it back."""
    kind, parted, stock = text.partition("=")
    if not parted:
        raise argparse.ArgumentTypeError(
            f"{text} is no stock of a case kind: write snap-shell=a5-card, or usual for the usual"
        )
    return kind.strip(), None if stock.strip() in {"", "usual"} else stock.strip()


def _sheet(one: argparse.ArgumentParser) -> None:
    one.add_argument("sheet", type=int, metavar="SHEET", help="the sheet's number")


def _settle(one: argparse.ArgumentParser) -> None:
    _sheet(one)
    one.add_argument(
        "--spoiled",
        type=numbers,
        default=(),
        metavar="N,N",
        help="the spoiled inserts, by their numbers in the sheet's margin",
    )


def measure(text: str) -> tuple[str, float]:
    """Return a measure and its length in mm."""
    name, _, said = text.partition("=")
    try:
        return name.strip(), float(said.replace(",", "."))
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"{text} is no measure: write its name and mm, as width=64.5"
        ) from None


def misfit(text: str) -> tuple[str, str, float]:
    """Return a panel, its width or height, and by how many mm that was too long."""
    side, by = measure(text)
    panel, _, dimension = side.rpartition(".")
    if not panel:
        raise argparse.ArgumentTypeError(
            f"{text} is no misfit: write panel.width=+0.5 for 0.5 mm too wide"
        )
    return panel, dimension, by


def _cases(one: argparse.ArgumentParser) -> None:
    one.add_argument(
        "kind", nargs="?", metavar="KIND", help='a case kind\'s id or name, or "new" to add one'
    )
    one.add_argument("--out", type=Path, metavar="FILE", help="draw its net: .svg .dxf .pdf .png")
    one.add_argument("--folded", action="store_true", help="draw it folded instead, as .png")
    one.add_argument("--trial", action="store_true", help="write a trial cut, as .pdf")
    one.add_argument(
        "--correct",
        nargs="+",
        type=misfit,
        default=(),
        metavar="PANEL.SIDE=MM",
        help="what was too long on the trial cut (negative: too short), as spine.width=+0.5",
    )
    _stored(one, "how these cases are stored; usual: as set for all")
    _without(one, "panels these inserts go without; none: all are back")
    new = one.add_argument_group("spinery cases new", "asks for what is not given")
    new.add_argument("--shape", choices=["wrap", "tray", "sleeve", "strip"])
    new.add_argument("--name", help="what to call the case")
    new.add_argument(
        "--measure",
        nargs="+",
        action="extend",
        type=measure,
        default=[],
        metavar="NAME=MM",
        help="measured inside the case, as width=64.5",
    )
    new.add_argument(
        "--around", action="store_true", help="measured on the outside: the insert goes round it"
    )
    new.add_argument("--clearance", type=float, metavar="MM", help="room left in all (0.5)")


def _stored(one: argparse.ArgumentParser, tells: str) -> None:
    one.add_argument("--stored", choices=["shelf", "drawer", "stack", "usual"], help=tells)


def _without(one: argparse.ArgumentParser, tells: str) -> None:
    one.add_argument("--without", nargs="*", metavar="PANEL", help=tells)


def _proof(one: argparse.ArgumentParser) -> None:
    one.add_argument("game", metavar="GAME", help="a game's id or title")
    one.add_argument("--out", type=Path, metavar="FILE.png", required=True)
    one.add_argument("--folded", action="store_true", help="as it looks in the case")
    one.add_argument("--ppi", type=float, default=150.0, help="pixels to the inch (150)")


def _setup(one: argparse.ArgumentParser) -> None:
    one.add_argument("--stock", metavar="ID", help="the paper")
    one.add_argument("--rule", choices=["trimmer", "knife"], help="how sheets are cut")
    one.add_argument(
        "--margins", type=margins, metavar="L,R,T,B", help="what the printer leaves white, in mm"
    )
    one.add_argument("--caliper", type=float, metavar="MM", help="the paper's measured thickness")
    one.add_argument("--case", metavar="KIND", help="the case kind of games that do not say")
    one.add_argument("--batch-size", type=int, metavar="N", help="games in a batch")
    one.add_argument(
        "--stock-of",
        nargs="+",
        type=stock_of,
        metavar="KIND=ID",
        help="the paper of a case kind; usual: as for all",
    )
    one.add_argument(
        "--patience", type=int, metavar="N", help="sheets after which the oldest insert must go"
    )
    one.add_argument("--kerf", type=float, metavar="MM", help="what the blade takes away")
    _stored(one, "how the cases are stored; usual: as each kind says")
    one.add_argument(
        "--spines", choices=["descending", "ascending"], help="which way upright titles read"
    )
    _without(one, "panels that all inserts go without; none: all are back")
    one.add_argument(
        "--colour-by", metavar="COLUMN", help="one colour for each series, maker, ...; or picture"
    )
    one.add_argument("--ink", choices=INK_MODES, help="how inserts are printed")
    add_lettering(one)


def pin(text: str) -> tuple[str, str | None]:
    """Return a group and its colour, None to leave that to be chosen."""
    name, found, colour = text.rpartition("=")
    if not found:
        raise argparse.ArgumentTypeError(f"{text} is no colour of a group: write GROUP=#rrggbb")
    return name.strip(), colour.strip() or None


def _colours(one: argparse.ArgumentParser) -> None:
    one.add_argument(
        "pins",
        nargs="*",
        type=pin,
        metavar="GROUP=#rrggbb",
        help="give a group this colour; GROUP= leaves it to be chosen again",
    )
    one.add_argument(
        "--follow",
        nargs="*",
        metavar="GAME",
        help="let games take their group's colour, printed ones too; none: all not printed",
    )


def _nothing(_: argparse.ArgumentParser) -> None:
    return


COMMANDS: dict[str, tuple[str, Callable[[argparse.ArgumentParser], None]]] = {
    "demo": ("make the demo collection and open it", _demo),
    "intake": ("take in a list of games and a folder of pictures", _intake),
    "progress": ("count the games at each stage", _nothing),
    "propose": ("show or accept proposals", _propose),
    "batch": ("show today's batch, or bring the games to finish next", _batch),
    "sheets": ("show the sheets that are ready, open and pressed, and how to cut them", add_sheets),
    "press": ("write the PDFs of the sheets that are ready", add_press),
    "offcuts": ("show what settled sheets leave, or keep it as a stock of one", add_offcuts),
    "settle": ("mark a printed sheet's inserts good or spoiled", _settle),
    "withdraw": ("put a pressed sheet's inserts back in the queue", _sheet),
    "fit": ("note that inserts are in their cases", _games("+")),
    "undo": ("take back the last thing done", _nothing),
    "cases": ("list, draw, add or correct case kinds", _cases),
    "proof": ("write the picture of an insert", _proof),
    "colours": ("show or change the colours of groups", _colours),
    "ink": ("tell how much ink inserts and sheets take", _games("*")),
    "setup": ("show or change paper, cutting rule, storage and lettering", _setup),
    "titles": ("tell which titles cannot be read from the shelf, or word one", add_titles),
    "check": ("check the collection's health", _nothing),
}
"""What each command is for, and what adds its arguments."""
