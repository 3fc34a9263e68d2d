"""The command line: parse, call one method of the workshop, print.

Exit codes: 0 done, 1 nothing to do or a check found something, 2 bad input, 130 stopped by
Control-C, as shells count it: 128 and the number of the signal.
"""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from pathlib import Path

from engine import (
    InkMode,
    InputError,
    RefusedError,
    SpineryError,
    Workshop,
    holds_collection,
    known_pictures,
    last_opened,
    open_workshop,
    remember,
    unpack,
)
from tui import asjson, aswords, sheetsjson
from tui.answers import BAD_INPUT, DONE, NOTHING, STOPPED, STOPPED_WORDS, Answer
from tui.arguments import COMMANDS, parser
from tui.cases import cases, wrote
from tui.colours import colours, ink
from tui.sheets import offcuts, press, sheets
from tui.titles import lettering_data, lettering_words, set_lettering, titles


def run(arguments: Sequence[str]) -> int:
    """Do what the command line says; return the exit code."""
    try:
        if arguments and (arguments[0] in COMMANDS or arguments[0].startswith("-")):
            return _do(parser().parse_args(arguments))
        if len(arguments) > 1:
            raise InputError(arguments[1], "one thing too many", "Give one folder, or a command")
        return _open(_named_folder(arguments[0]) if arguments else _usual_folder())
    except RefusedError as error:
        return _complain(error, NOTHING)
    except SpineryError as error:
        return _complain(error, BAD_INPUT)
    except KeyboardInterrupt:
        return _complain(STOPPED_WORDS, STOPPED)


def _complain(error: object, code: int) -> int:
    print(error, file=sys.stderr)
    return code


def _say(asked: Namespace, answer: Answer) -> int:
    print(asjson.text(answer.data) if asked.json else "\n".join(answer.words))
    return answer.code


def _open(folder: Path) -> int:
    """Open a collection in the terminal program."""
    workshop = open_workshop(folder)
    try:
        remember(folder)
        # Textual takes a fifth of a second to import: a command that only prints goes without.
        from tui.app import SpineryApp

        SpineryApp(workshop).run()
    finally:
        workshop.close()
    return DONE


def _named_folder(said: str) -> Path:
    """Return the folder, unless it is not there and looks like a command with a slip in it."""
    meant = get_close_matches(said, COMMANDS, n=1)
    if meant and not Path(said).exists():
        raise InputError(
            said, "no such command", f"Did you mean {meant[0]}? A new folder is given as ./{said}"
        )
    return Path(said)


def _usual_folder() -> Path:
    """Return the current folder if it holds a collection, else the one last opened."""
    here, last = Path.cwd(), last_opened()
    if holds_collection(here):
        return here
    if last is not None and holds_collection(last):
        return last
    raise InputError(
        "", "No collection is here, and none was opened before", "Give its folder: spinery FOLDER"
    )


def _do(asked: Namespace) -> int:
    """Carry out one command."""
    if asked.command == "demo":
        return _demo(asked)
    folder = asked.collection or _usual_folder()
    if asked.command == "intake":
        return _intake(asked, folder)
    if not holds_collection(folder):
        raise InputError(str(folder), "holds no collection", f"Open it once: spinery {folder}")
    return _say(asked, _with_workshop(folder, lambda shop: TASKS[asked.command](shop, asked)))


def _with_workshop(folder: Path, task: Callable[[Workshop], Answer]) -> Answer:
    workshop = open_workshop(folder)
    for note in workshop.notes:
        print(note, file=sys.stderr)
    try:
        answer = task(workshop)
    finally:
        workshop.close()
    remember(folder)
    return answer


def _counted(what: str) -> Callable[[int, int], None] | None:
    """Return a progress line on a terminal, nothing where no one watches."""
    if not sys.stderr.isatty():
        return None

    def tell(done: int, of: int) -> None:
        end = "\n" if done == of else ""
        print(f"\r{what} {done} of {of}", end=end, file=sys.stderr, flush=True)

    return tell


def _demo(asked: Namespace) -> int:
    from engine.demo import make_demo

    if holds_collection(asked.folder):
        if asked.no_open:
            raise RefusedError(str(asked.folder), "holds a collection already")
        return _open(asked.folder)
    if sys.stderr.isatty():
        print(f"Making the demo in {asked.folder}.", file=sys.stderr, flush=True)
    workshop = make_demo(asked.folder)
    answer = _progress(workshop, asked)
    workshop.close()
    remember(asked.folder)
    if asked.no_open:
        return _say(asked, answer)
    return _open(asked.folder)


def _intake(asked: Namespace, folder: Path) -> int:
    # The list and the pictures are read before a folder is made for them.
    delivery = unpack(
        asked.list,
        asked.pictures,
        known=known_pictures(folder),
        skip_broken=asked.skip_broken,
        progress=_counted("Looking at picture"),
    )

    def take_in(shop: Workshop) -> Answer:
        report = shop.games.take_in(delivery, asked.case)
        cautions = shop.kinds.kind(asked.case).cautions if asked.case else ()
        return Answer([*aswords.intake(report), *cautions], asjson.intake(report))

    return _say(asked, _with_workshop(folder, take_in))


def _progress(shop: Workshop, _: Namespace) -> Answer:
    progress = shop.progress()
    return Answer(aswords.progress(progress), asjson.progress(progress))


def _propose(shop: Workshop, asked: Namespace) -> Answer:
    ids = asked.games or None
    if asked.without is not None:
        if not asked.games:
            raise InputError("--without", "is for certain games", "Name them before it")
        shop.designs.leave_out(asked.games, asked.without)
    if asked.ink is not None:
        if not asked.games:
            raise InputError("--ink", "is for certain games", "spinery setup --ink is for all")
        shop.designs.change_ink(asked.games, None if asked.ink == "usual" else InkMode(asked.ink))
    if not asked.accept:
        shown = [p for p in shop.designs.proposals(ids) if p.sure or not asked.sure]
        words = aswords.proposals(shown)
        return Answer(words, asjson.proposals(shown), DONE if shown else NOTHING)
    wanted = [p.game for p in shop.designs.proposals(ids)]
    report = shop.designs.accept(wanted, sure_only=asked.sure)
    data = asjson.proposals(shop.designs.proposals(wanted))
    return Answer(aswords.accepted(report), data, DONE if report.accepted else NOTHING)


def _batch(shop: Workshop, asked: Namespace) -> Answer:
    batch = shop.batch.bring_next(asked.games or None) if asked.next else shop.batch.games()
    report = shop.batch.outlook()
    code = DONE if batch else NOTHING
    return Answer(aswords.outlook(batch, report), sheetsjson.outlook(batch, report), code)


def _settle(shop: Workshop, asked: Namespace) -> Answer:
    progress = shop.sheets.settle(asked.sheet, asked.spoiled)
    return Answer(aswords.progress(progress), asjson.progress(progress))


def _withdraw(shop: Workshop, asked: Namespace) -> Answer:
    progress = shop.sheets.withdraw(asked.sheet)
    return Answer(aswords.progress(progress), asjson.progress(progress))


def _fit(shop: Workshop, asked: Namespace) -> Answer:
    progress = shop.sheets.fit(asked.games)
    return Answer(aswords.progress(progress), asjson.progress(progress))


def _undo(shop: Workshop, _: Namespace) -> Answer:
    undone = shop.undo()
    return Answer([f"Taken back: {undone}."], {"undone": undone})


def _proof(shop: Workshop, asked: Namespace) -> Answer:
    write = shop.write_folded_proof if asked.folded else shop.write_proof
    write(asked.game, asked.out, asked.ppi)
    return wrote(asked.out)


def _setup(shop: Workshop, asked: Namespace) -> Answer:
    wanted = {
        "stock_id": asked.stock,
        "margins": asked.margins,
        "caliper": asked.caliper,
        "rule": asked.rule,
        "case": asked.case,
        "batch_size": asked.batch_size,
        "patience": asked.patience,
        "kerf": asked.kerf,
        "stocks": dict(asked.stock_of) if asked.stock_of else None,
        "pose": asked.stored,
        "spine": asked.spines,
        "left_out": None if asked.without is None else {"": asked.without},
        "colour_by": asked.colour_by,
        "ink": asked.ink,
    }
    changes = {name: value for name, value in wanted.items() if value is not None}
    if asked.stored == "usual":
        changes["pose"] = None
    set_lettering(shop, asked)
    settings = shop.setup.change(**changes)
    lettering, font = settings.lettering, shop.titles.font_name()
    cautions = shop.kinds.kind(asked.case).cautions if asked.case else ()
    return Answer(
        [*aswords.setup(settings), *lettering_words(lettering, font), *cautions],
        {**asjson.setup(settings), "lettering": lettering_data(lettering, font)},
    )


def _check(shop: Workshop, _: Namespace) -> Answer:
    health = shop.check()
    return Answer(aswords.health(health), asjson.health(health), DONE if health.ok else NOTHING)


TASKS: dict[str, Callable[[Workshop, Namespace], Answer]] = {
    "progress": _progress,
    "propose": _propose,
    "batch": _batch,
    "sheets": sheets,
    "press": press,
    "offcuts": offcuts,
    "settle": _settle,
    "withdraw": _withdraw,
    "fit": _fit,
    "undo": _undo,
    "cases": cases,
    "proof": _proof,
    "colours": colours,
    "ink": ink,
    "setup": _setup,
    "titles": titles,
    "check": _check,
}
