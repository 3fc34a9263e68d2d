"""Results in words, as the command line and the screens say them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from textwrap import shorten

from engine import (
    BY_HAND,
    SCORE_FIRST,
    THEN_CUT,
    CaseShape,
    Clash,
    ClashLine,
    ColoursReport,
    CutsReport,
    ExportReport,
    Health,
    IntakeLook,
    IntakeReport,
    Outlook,
    PlanPart,
    PlanReport,
    Printer,
    Progress,
    Question,
    ReadingReport,
    Restored,
    SheetReport,
    Stage,
    Step,
    WorkKind,
    WorkStep,
)
from tui.actions import BY_ID
from tui.aloud import Line
from tui.gamewords import colour_words


def count(number: int, thing: str) -> str:
    """Return '1 sheet', '3 sheets'."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def stages_told(progress: Progress) -> dict[Stage, int]:
    """Return how many games stand at each stage; unwanted ones are told where there are any."""
    return {
        stage: games
        for stage, games in progress.stages.items()
        if games or stage is not Stage.UNWANTED
    }


def first_of(lines: Sequence[str], most: int) -> list[str]:
    """Return the first lines, and where there are more, how many."""
    more = len(lines) - most
    return [*lines[:most], *([f"and {more} more"] if more > 0 else [])]


# --- intake -----------------------------------------------------------------------------


def taken_lines(report: IntakeReport) -> list[str]:
    """Return what a list and pictures brought."""
    known = f", {report.known} known before" if report.known else ""
    return [f"{count(report.added, 'game')} added{known}.", _pictures_line(report)]


def _pictures_line(report: IntakeReport) -> str:
    return (
        f"Pictures: {report.matched} matched, {report.doubtful} to confirm, "
        f"{count(report.bare, 'game')} without."
    )


def look_lines(look: IntakeLook) -> list[str]:
    """Return what was understood of a list and pictures, before anything is taken in."""
    report = look.report
    lines = []
    if report.added or report.known:
        known = f", {report.known} known before" if report.known else ""
        lines.append(f"{count(report.added, 'new game')}{known}.")
    if look.pictures:
        lines.append(f"{count(look.pictures, 'picture')} in the folder.")
    if look.pictures or report.matched or report.doubtful:
        lines.append(_pictures_line(report))
    if look.columns:
        named = [f"{field} from “{header}”" for field, header in look.columns.items()]
        lines.append(f"Columns: {', '.join(named)}.")
    elif look.titles:
        lines.append("Each line is a title.")
    if look.sheet:
        lines.append(f"Sheet: {look.sheet}.")
    if look.encoding:
        lines.append(f"Letters: {look.encoding}.")
    if look.titles:
        more = len(look.titles) - SHOWN
        shown = ", ".join(look.titles[:SHOWN]) + (f" and {more} more" if more > 0 else "")
        lines.append(f"Games: {shown}.")
    if look.to_confirm:
        lines += ["", "To confirm later, each by itself:"]
        lines += [f"  {title}: {source}" for title, source in look.to_confirm]
    return [*lines, *(("", *report.notes) if report.notes else ())]


SHOWN = 6
"""Titles that are named before the rest is counted."""


def health_lines(health: Health, mended_by: str = "spinery check --mend") -> list[str]:
    """Return what was mended and what is wrong with a collection, each with its mend.

    ``mended_by`` is what mends those that need no decision.
    """
    found = [f"{one.where}: {one.what}. {one.mend}." for one in health.findings]
    if can_mend := sum(one.mends for one in health.findings):
        found.append(f"{can_mend} of these can be mended by {mended_by}.")
    return [*health.mended, *(found or ["All is well."])]


# --- what was done ----------------------------------------------------------------------


def when(at: datetime) -> str:
    """Return a time as it is on this machine's clock: '2026-03-01 14:05'."""
    return f"{at.astimezone():%Y-%m-%d %H:%M}"


def step_words(verb: str, step: Step) -> str:
    """Return 'Taken back: settled sheet 2', or of many 'Taken back: 3 changes, to ...'."""
    many = f"{step.changes} changes, as far as: " if step.changes > 1 else ""
    return f"{verb}: {many}{step.words}"


def differ_lines(differs: Sequence[str]) -> list[Line]:
    """Return lines on what differs, in which arrows and dashes are said in words."""

    def said(line: str) -> str:
        whole = line.replace(": – →", ": nothing →").replace("→ –", "→ nothing")
        return whole.replace(" → ", ", now ")

    return [Line(one, said(one)) for one in differs]


DIFFERENCES = 3
"""Lines on what differs that a notice shows before it counts the rest."""
NOTICE = 100
"""Characters of such a line in a notice."""


def step_lines(differs: Sequence[str]) -> list[str]:
    """Return the first few lines on what differs, cut short, and how many more there are."""
    more = len(differs) - DIFFERENCES
    shown = [shorten(line, NOTICE, placeholder=" …") for line in differs[:DIFFERENCES]]
    return [*shown, *([f"and {count(more, 'more line')}"] if more > 0 else [])]


# --- writing out ---------------------------------------------------------------------------


def export_words(report: ExportReport) -> str:
    """Return '120 games, 98 pictures, 3 pages'; dividers and labels besides."""
    parts = [count(report.games, "game"), count(report.pictures, "picture")]
    parts += [count(report.labels, "label")] if report.labels else []
    return ", ".join([*parts, count(report.sheets, "page")])


# --- sheets -----------------------------------------------------------------------------


def contents(one: SheetReport) -> str:
    """Return what lies on a sheet: '6 snap-shell and 1 keep-case, 78 % used'."""
    kinds = [placed.case for placed in one.placements]
    parts = [f"{kinds.count(kind)} {kind}" for kind in dict.fromkeys(sorted(kinds))]
    return f"{' and '.join(parts)}, {one.used:.0%} used"


def printer_words(one: Printer) -> str:
    """Return how a printer is: 'stopped, takes no jobs (out of paper)'."""
    refuses = "" if one.accepts else ", takes no jobs"
    return f"{one.state}{refuses}" + (f" ({one.said})" if one.said else "")


def found_lines(one: ReadingReport) -> list[str]:
    """Return how many games were told by reading, a line; none for none."""
    return [f"{count(one.found, 'game')} told by what covers say."] if one.found else []


def beyond(inserts: int) -> str:
    """Return '3 more inserts wait for other sheets'."""
    return f"{count(inserts, 'more insert')} {'waits' if inserts == 1 else 'wait'} for other sheets"


def offcut_lines(one: SheetReport) -> list[str]:
    """Return the offcuts of a settled sheet, a line each."""
    return [
        f"Sheet {one.number}, offcut {offcut.number}: "
        f"{offcut.size.width:.0f} × {offcut.size.height:.0f} mm"
        + (", used up" if offcut.used else ", kept" if offcut.kept else "")
        for offcut in one.offcuts
    ]


def outlook_words(report: Outlook) -> str:
    """Return 'With this batch 1 sheet is full and nothing waits'."""
    if not report.games:
        return "Nothing of this batch is left to finish."
    are = "is" if report.sheets == 1 else "are"
    full = (
        f"{count(report.sheets, 'sheet')} {are} full" if report.sheets else "no sheet is full yet"
    )
    waits = f"{count(report.waits, 'insert')} {'waits' if report.waits == 1 else 'wait'}"
    return f"With this batch {full} and {waits if report.waits else 'nothing waits'}."


def plan_words(report: PlanReport) -> str:
    """Return '31 sheets, proven fewest under the trimmer rule'."""
    return f"{count(report.sheets, 'sheet')}, {fewest(report)} under the {report.rule.value} rule"


def fewest(report: PlanReport | PlanPart) -> str:
    """Return 'proven fewest', or how few there may be."""
    return "proven fewest" if report.proven else f"at least {report.bound}"


def cut_lines(report: CutsReport) -> list[str]:
    """Return each score with its letter, each cut with its number, and what to mind.

    What is cut by hand comes after the cuts.
    """
    scores: list[str] = [
        Line(f"{score.letter:>3}  {score.words}", f"Score {score.letter}: {score.words}")
        for score in report.scores
    ]
    first = [SCORE_FIRST, *scores, THEN_CUT] if scores else ["Cuts:"]
    cuts: list[str] = [
        Line(f"{cut.number:>3}  {words}", f"Cut {cut.number}: {words}")
        for cut, words in zip(report.cuts, report.words, strict=True)
    ]
    by_hand = [BY_HAND, *report.by_hand] if report.by_hand else []
    return [*first, *cuts, *by_hand, *report.notes]


def cuts_summary(report: CutsReport) -> str:
    """Return '16 cuts, 6 settings, 1 turn'; what cannot be cut so has none."""
    if not report.cuts:
        return "no order of cuts from edge to edge"
    parts = ((len(report.cuts), "cut"), (report.settings, "setting"), (report.turns, "turn"))
    return ", ".join(count(number, thing) for number, thing in parts)


def settling_words(good: int, spoiled: Sequence[str]) -> tuple[str, ...]:
    """Return what settling a sheet does, given how many are good and the titles of the others."""
    lines = [f"{count(good, 'insert')} {'is' if good == 1 else 'are'} good, and printed then."]
    if spoiled:
        lines.append(f"Spoiled, so to be printed again: {', '.join(spoiled)}.")
    return tuple(lines)


_WORK = {WorkKind.SCORE: "Score", WorkKind.CUT: "Cut", WorkKind.BY_HAND: "By hand"}


def work_words(step: WorkStep, place: int, steps: int) -> str:
    """Return which step of so many is at ``place``, from 0: 'Score A, step 1 of 12'."""
    pieces = f", {len(step.pieces)} pieces in hand" if len(step.pieces) > 1 else ""
    return f"{_WORK[step.kind]} {step.name}".rstrip() + f", step {place + 1} of {steps}{pieces}"


# --- cases of one's own -----------------------------------------------------------------

SHAPES = {
    CaseShape.WRAP: "front, spine and back in a row",
    CaseShape.TRAY: "a back with a spine at its left and at its right",
    CaseShape.SLEEVE: "a panel with flaps over any of its sides",
    CaseShape.STRIP: "one edge label",
}
"""What each shape is."""


def usual_figures(question: Question) -> str:
    """Return what figures are usual: '20 to 260 mm'."""
    return f"{question.least:g} to {question.most:g} mm"


# --- colours and ink --------------------------------------------------------------------

ORIGINS = {
    "pinned": "yours",
    "kept": "as accepted",
    "pictures": "its pictures'",
    "chosen": "set apart",
}
"""Where a group's colour comes from."""


def group_lines(report: ColoursReport) -> list[str]:
    """Return the groups with their colours, how they are told apart, and what is printed."""
    if not report.groups:
        columns = ", ".join(report.columns)
        said = "Every insert has its picture's colour."
        if report.by != report.columns[0]:
            said = f"No game says anything under {report.by}."
        return [f"{said} To colour by a column: spinery setup --colour-by COLUMN ({columns})."]
    lines: list[str] = [f"Coloured by {report.by}:"]
    for group in report.groups:
        colour = group.colours
        sign = "" if colour.sign == "none" else f", {colour.sign}"
        printed = f", {group.printed} printed" if group.printed else ""
        told = f"{count(len(group.games), 'game')}, {ORIGINS[group.origin]}{printed}"
        lines.append(
            Line(
                f"  {colour.base}{sign}  {group.name}: {told}",
                f"{group.name}: {colour_words(colour.base)}{sign}, {told}",
            )
        )
    return [*lines, *apart_lines(report), *reprint_lines(report)]


def apart_lines(report: ColoursReport) -> list[str]:
    """Return how well groups are told apart, a line each."""
    if report.smallest is None or report.closest is None:
        return []
    eyes = ", ".join(f"{eye} {least:.1f}" for eye, least in report.seen.items())
    closest = " and ".join(report.closest)
    lines = [
        f"Smallest difference {report.smallest:.1f} (CIEDE2000), {closest}; to each eye: {eyes}."
    ]
    return [*lines, f"{report.note}."] if report.note else lines


def reprint_lines(report: ColoursReport) -> list[str]:
    """Return what a change of colours does not reach, and what it costs to print that again."""
    lines = []
    if report.printed_sheets:
        printed = sum(group.printed + len(group.reprint) for group in report.groups)
        lines.append(
            f"{count(printed, 'insert')} printed in a group's colour stay when it changes; "
            f"to print them all again takes {count(report.printed_sheets, 'sheet')}."
        )
    earlier = [game for group in report.groups for game in group.reprint]
    if earlier:
        lines.append(
            f"Printed in an earlier colour: {', '.join(earlier)}. To print them again "
            f"({count(report.reprint_sheets, 'sheet')}): spinery colours --follow GAME…"
        )
    if report.own:
        lines.append(
            f"{count(report.own, 'game')} not printed, with a colour of their own: they take "
            "their group's with spinery colours --follow."
        )
    return lines


def went_back(restored: Restored) -> str:
    """Return what going back to a backup came to, in a sentence or two."""
    said = f"Went back to {restored.backup}, with {count(restored.games, 'game')}."
    if restored.aside:
        said += f" What was there is kept as {restored.aside} in backups."
    return said


# --- the shelf --------------------------------------------------------------------------

MENDS: Mapping[Clash, str] = {
    Clash.ALIKE: "change_colour",
    Clash.SERIES: "change_colour",
    Clash.SIZE: "next_wording",
}
"""The action that mends a clash."""

_MENDED = {"change_colour": "gives it another colour", "next_wording": "words it shorter"}


def clash_words(one: ClashLine) -> Line:
    """Return what clashes, and the key that mends it; aloud, the word to type for that."""
    act = BY_ID[MENDS[one.what]]
    key, word = (
        f"{one.words}: {does} {_MENDED[act.id]}" for does in (act.shown, act.label.lower())
    )
    return Line(key, word)
