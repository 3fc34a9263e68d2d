"""Words for sheets: looked at insert by insert, cut step by step, put into cases one by one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine import FittingReport, InputError, SheetReport, SheetState, ToFit
from tui.plain.word import Words
from tui.words import contents, count, cuts_summary, settling_words, work_words

if TYPE_CHECKING:
    from tui.plain.desk import Desk


@dataclass(slots=True)
class AtSheet:
    """The sheet that a person is at, and how far."""

    number: int = 0
    """0 for none."""
    insert: int = 0
    """The place on it, from 0."""
    spoiled: frozenset[int] = frozenset()
    """Places that were found spoiled."""
    seen: frozenset[int] = frozenset()
    """Places that were looked at."""
    step: int = 0
    """The step of its cutting, from 0."""
    told: tuple[str, ...] = ()
    """How the last insert goes into its case, which is not told twice running."""


SHEETWORK = Words("For printed sheets")

word = SHEETWORK.word


# --- settling, insert by insert ---------------------------------------------------------------


@word("sheet", "NUMBER", acts="sheets settle")
def sheet(desk: Desk, rest: str) -> None:
    """Go to a printed sheet, to look at its inserts one by one.

    Each is good or spoiled, and after the last the sheet is settled.
    """
    one = _at(desk, rest)
    desk.say(f"Sheet {one.number} is {one.state.value}: {contents(one)}, {one.forme.stock.name}.")
    if one.state is SheetState.PRESSED:
        _tell_insert(desk, one)
    else:
        desk.say(f"{count(one.to_fit, 'insert')} to fit: fitting {one.number} tells how.")


@word("insert", "[NUMBER]", acts="last_insert next_insert")
def insert(desk: Desk, rest: str) -> None:
    """Tell the insert of the sheet that is to be looked at, or go to another by its number."""
    one = _present_sheet(desk)
    if rest:
        if not rest.isdecimal() or not 1 <= int(rest) <= len(one.placements):
            mend = f"Give one from 1 to {len(one.placements)}"
            raise InputError(rest, "is no insert of the sheet", mend)
        desk.sheet.insert = int(rest) - 1
    _tell_insert(desk, one)


@word("good", acts="check")
def good(desk: Desk, _: str) -> None:
    """Check off the insert as good, and go to the next."""
    _check_off(desk, spoiled=False)


@word("spoiled", acts="spoil check")
def spoiled(desk: Desk, _: str) -> None:
    """Check off the insert as spoiled, so that it is printed again, and go to the next."""
    _check_off(desk, spoiled=True)


def _check_off(desk: Desk, *, spoiled: bool) -> None:
    one, at = _present_sheet(desk), desk.sheet
    if one.state is not SheetState.PRESSED:
        raise InputError(f"sheet {one.number}", "is settled", f"settle {one.number} does it anew")
    at.spoiled = at.spoiled | {at.insert} if spoiled else at.spoiled - {at.insert}
    at.seen |= {at.insert}
    places = range(len(one.placements))
    around = (*places[at.insert :], *places[: at.insert])
    following = next((place for place in around if place not in at.seen), None)
    if following is not None:
        at.insert = following
        _tell_insert(desk, one)
        return
    titles = desk.shop.games.titles()
    again = [titles.get(one.placements[place].game, "") for place in sorted(at.spoiled)]
    lines = settling_words(len(places) - len(at.spoiled), again)
    desk.ask((f"All are looked at: settle sheet {one.number}.", *lines), lambda: _settle(desk, one))


def _settle(desk: Desk, one: SheetReport) -> None:
    number = one.number or 0
    notes = desk.shop.sheets.settle(number, [place + 1 for place in sorted(desk.sheet.spoiled)])
    desk.sheet = AtSheet(number)
    left = desk.shop.sheets.sheet(number).to_fit
    desk.say((f"Sheet {number} is settled.", *notes))
    if left:
        desk.say(f"{count(left, 'insert')} to cut and fit: cuts {number}, then fitting {number}.")


def _tell_insert(desk: Desk, one: SheetReport) -> None:
    placed = one.placements[desk.sheet.insert]
    title = desk.shop.games.titles()[placed.game]
    said = f"Insert {desk.sheet.insert + 1} of {len(one.placements)}: {title}"
    spare = ", a spare" if placed.spare else ""
    seen = ", found spoiled" if desk.sheet.insert in desk.sheet.spoiled else ""
    desk.say(f"{said}, {placed.case}{spare}{seen}. good or spoiled?")


# --- cutting, step by step --------------------------------------------------------------------


@word("cuts", "[NUMBER]", acts="cuts")
def cuts(desk: Desk, rest: str) -> None:
    """Begin to cut a sheet: what to mind, and the first step."""
    one = _at(desk, rest) if rest else _present_sheet(desk)
    desk.sheet.step = 0
    report = desk.shop.sheets.cuts(one)
    desk.say((f"Sheet {one.number}: {cuts_summary(report)}.", *report.notes))
    _tell_step(desk, one)


@word("step", "[back|NUMBER]", acts="check next_insert last_insert")
def step(desk: Desk, rest: str) -> None:
    """Check off the step of the cutting and go to the next.

    back goes to the one before, a number to that step.
    """
    one, at = _present_sheet(desk), desk.sheet
    if rest and rest != "back" and not rest.isdecimal():
        raise InputError(rest, "is no step", "Give its number, or back")
    wanted = int(rest) - 1 if rest.isdecimal() else at.step + (-1 if rest else 1)
    at.step = max(0, min(len(desk.shop.finishing.steps(one)), wanted))
    _tell_step(desk, one)


def _tell_step(desk: Desk, one: SheetReport) -> None:
    steps = desk.shop.finishing.steps(one)
    if desk.sheet.step >= len(steps):
        desk.say(f"All {count(len(steps), 'step')} are done.")
        if one.state is SheetState.SETTLED and one.to_fit:
            desk.say(f"fitting {one.number} tells how each goes into its case.")
        return
    here, titles = steps[desk.sheet.step], desk.shop.games.titles()
    desk.say(f"{work_words(here, desk.sheet.step, len(steps))}: {here.words}")
    free = [titles[one.placements[place].game] for place in here.frees]
    if free:
        desk.say(f"Free then: {', '.join(free)}.")
    if not desk.sheet.step:
        desk.say("step goes on, step back goes back.")


# --- into the cases ---------------------------------------------------------------------------


@word("fitting", "[NUMBER]", acts="fitting every_settled")
def fitting(desk: Desk, rest: str) -> None:
    """Tell what goes into its case of a settled sheet, with how and what to mind.

    Alone, tell the settled sheets.
    """
    if not rest:
        for each in desk.shop.sheets.settled(None):
            kept = f", {count(len(each.offcuts), 'offcut')}" if each.offcuts else ""
            desk.say(f"Sheet {each.number}: {count(each.to_fit, 'insert')} to fit{kept}.")
        return
    _at(desk, rest)
    report = desk.shop.finishing.fitting(desk.sheet.number)
    desk.say(report.cautions)
    desk.sheet.insert, desk.sheet.told = 0, ()
    _tell_fitting(desk, report)


@word("fitted", acts="fit fitting")
def fitted(desk: Desk, _: str) -> None:
    """Note that the insert told last is in its case, and go to the next of the sheet."""
    number = _present_sheet(desk).number or 0
    one = _to_fit(desk, desk.shop.finishing.fitting(number))
    if one is None:
        raise InputError(f"sheet {number}", "has no insert to fit", "fitting lists the sheets")
    desk.say(desk.shop.sheets.fit([one.game]))
    _tell_fitting(desk, desk.shop.finishing.fitting(number))


@word("later", acts="fitting")
def later(desk: Desk, _: str) -> None:
    """Leave the insert told last for later, and go to the next of the sheet to fit."""
    report = desk.shop.finishing.fitting(_present_sheet(desk).number or 0)
    one = _to_fit(desk, report)
    desk.sheet.insert = one.place + 1 if one else 0
    _tell_fitting(desk, report)


def _to_fit(desk: Desk, report: FittingReport) -> ToFit | None:
    """Return the insert to fit from the present place on, going round."""
    left = [one for one in report.inserts if not one.fitted]
    around = sorted(left, key=lambda one: (one.place < desk.sheet.insert, one.place))
    return around[0] if around else None


def _tell_fitting(desk: Desk, report: FittingReport) -> None:
    one, at = _to_fit(desk, report), desk.sheet
    if one is None:
        none = "No insert of this sheet goes into a case."
        desk.say("All are in their cases." if report.inserts else none)
        return
    at.insert, left = one.place, sum(not insert.fitted for insert in report.inserts)
    desk.say(f"Insert {one.place + 1}, {one.title}, into {one.case}. {count(left, 'insert')} left.")
    if one.steps and one.steps == at.told:
        desk.say("It goes in like the one before.")
        return
    at.told = one.steps
    desk.say(one.steps or "It goes in as it is cut.")
    desk.say("fitted notes that it is in, later leaves it.")


@word("print", "[NUMBER PRINTER]", acts="print")
def print_sheet(desk: Desk, rest: str) -> None:
    """Print a pressed sheet at 100 % on a printer; alone, list the printers."""
    number, _, printer = rest.partition(" ")
    if number and not printer:
        raise InputError("print", "no printer is named", "print alone lists them")
    desk.run(["press", *(["--again", number, "--print", printer] if rest else ["--printers"])])


# --- which sheet ------------------------------------------------------------------------------


def _at(desk: Desk, said: str) -> SheetReport:
    """Return the sheet of a number, gone to from its beginning unless it is at hand already."""
    if not said.isdecimal():
        raise InputError(said or "sheet", "is no number of a sheet", "sheets lists the pressed")
    one = desk.shop.sheets.sheet(int(said))
    if one.number != desk.sheet.number:
        desk.sheet = AtSheet(one.number or 0)
    return one


def _present_sheet(desk: Desk) -> SheetReport:
    if not desk.sheet.number:
        raise InputError("", "No sheet is at hand", "sheet NUMBER goes to one")
    return desk.shop.sheets.sheet(desk.sheet.number)
